using EdgeLens.PracticeReports.Content;
using SkiaSharp;

namespace EdgeLens.PracticeReports.Pdf;

/// <summary>Puts drawings on pages from top to bottom. Nothing is drawn before all pages are known: the footer says how many there are.</summary>
/// <param name="paper">On what.</param>
internal sealed class PageComposer(Paper paper)
{
    /// <summary>Left free left and right, and above; common printers leave 4 to 6 mm unprinted, and a binder takes more.</summary>
    public const double MarginMm = 16;

    /// <summary>Left free below, the footer in it.</summary>
    private const double BottomMm = 18;

    /// <summary>What is on each page; coordinates in mm from its top left corner.</summary>
    public List<List<Action<SKCanvas>>> Pages { get; } = [[]];

    /// <summary>Width for text.</summary>
    public double WidthMm => paper.WidthMm - 2 * MarginMm;

    /// <summary>Where the next drawing begins, from the page's top.</summary>
    public double Y { get; private set; } = MarginMm;

    /// <summary>True before anything is on the page.</summary>
    public bool IsAtTop => Pages[^1].Count == 0;

    /// <summary>Height of an empty page.</summary>
    public double FullHeightMm => paper.HeightMm - MarginMm - BottomMm;

    /// <summary>What is left of this page.</summary>
    public double LeftMm => paper.HeightMm - BottomMm - Y;

    /// <summary>Begins a new page, unless this one is empty.</summary>
    public void NewPage()
    {
        if (IsAtTop) return;
        Pages.Add([]);
        Y = MarginMm;
    }

    /// <summary>Begins a new page when less than this is left, and it would fit on a new one.</summary>
    public void Need(double heightMm)
    {
        if (heightMm > LeftMm) NewPage();
    }

    /// <summary>Puts a drawing here and goes on below it.</summary>
    /// <param name="heightMm">That it takes.</param>
    /// <param name="draw">Given the canvas and the drawing's top.</param>
    public void Put(double heightMm, Action<SKCanvas, double> draw)
    {
        double top = Y;
        Pages[^1].Add(canvas => draw(canvas, top));
        Y += heightMm;
    }

    /// <summary>Leaves room, but not at the top of a page.</summary>
    public void Gap(double heightMm)
    {
        if (!IsAtTop) Y += heightMm;
    }
}
