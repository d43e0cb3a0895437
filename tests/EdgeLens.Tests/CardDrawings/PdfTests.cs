using EdgeLens.Cards;
using EdgeLens.Cards.Sheets;
using EdgeLens.Imaging.Cards;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;
using Xunit;

namespace EdgeLens.Tests.CardDrawings;

/// <summary>The printed lengths, read back from the file by PdfPig, which shares no code with the writer. 1 mm = 72/25.4 points.</summary>
public sealed class PdfTests
{
    private const double PointsPerMm = 72 / 25.4;

    [Theory]
    [InlineData("A4", 210, 297)] // ISO 216
    [InlineData("Letter", 215.9, 279.4)] // 8.5 x 11 inches
    public void The_pages_have_the_paper_s_size(string paper, double widthMm, double heightMm)
    {
        using PdfDocument pdf = Written(Cards.Default, paper);
        Assert.Equal(2, pdf.NumberOfPages);
        foreach (Page page in pdf.GetPages())
        {
            Assert.Equal(widthMm, page.Width / PointsPerMm, 0.01);
            Assert.Equal(heightMm, page.Height / PointsPerMm, 0.01);
        }
    }

    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public void The_bars_are_40_and_30_mm_long(string paper)
    {
        using PdfDocument pdf = Written(Cards.Default, paper);
        PdfRectangle[] boxes = [.. Boxes(pdf.GetPage(1))];
        // 40.00 mm are 113.386 pt.
        Assert.Single(boxes, b => Math.Abs(b.Width - 113.386) < 0.01 * PointsPerMm && Math.Abs(b.Height / PointsPerMm - 0.4) < 0.01);
        Assert.Single(boxes, b => Math.Abs(b.Height / PointsPerMm - 30) < 0.01 && Math.Abs(b.Width / PointsPerMm - 0.4) < 0.01);
    }

    [Fact]
    public void Every_black_square_lies_where_the_description_says()
    {
        CardDescription card = Cards.Default;
        using PdfDocument pdf = Written(card, "A4");
        PdfRectangle[] boxes = [.. Boxes(pdf.GetPage(1))];
        PdfRectangle[] squares = [.. boxes.Where(b => Math.Abs(b.Width / PointsPerMm - 2) < 0.005 && Math.Abs(b.Height / PointsPerMm - 2) < 0.005)];
        // measurands.md: 40 x 25 squares, the first black, so 500 black ones, less 30 of the 12 x 5 window.
        Assert.Equal(470, squares.Length);
        double left = squares.Min(b => b.Left), top = squares.Max(b => b.Top);
        foreach (PdfRectangle b in squares)
        {
            double column = (b.Left - left) / PointsPerMm / 2, row = (top - b.Top) / PointsPerMm / 2;
            Assert.Equal(Math.Round(column), column, 0.005);
            Assert.Equal(Math.Round(row), row, 0.005);
            Assert.True(((int)Math.Round(column) + (int)Math.Round(row)) % 2 == 0);
        }
    }

    [Fact]
    public void The_text_can_be_read_and_says_what_matters()
    {
        using PdfDocument pdf = Written(Cards.Default, "A4");
        string first = Text(pdf.GetPage(1)), second = Text(pdf.GetPage(2));
        Assert.Contains("id1-2.0", first);
        Assert.Contains("100 %", first);
        Assert.Contains("drawn as 40.00 mm", first);
        Assert.Contains("drawn as 30.00 mm", first);
        foreach (string words in (string[])["matt", "600 dpi", "caliper", "outer end to outer end", "matt black ground", "about 5 mm", "patches are nominal"]) Assert.Contains(words, second);
    }

    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public void Nothing_runs_off_the_paper(string paper)
    {
        using PdfDocument pdf = Written(Cards.Default, paper);
        foreach (Page page in pdf.GetPages())
        {
            foreach (Letter letter in page.Letters)
            {
                Assert.InRange(letter.BoundingBox.Left, 10 * PointsPerMm, page.Width - 10 * PointsPerMm);
                Assert.InRange(letter.BoundingBox.Right, 10 * PointsPerMm, page.Width - 10 * PointsPerMm);
                Assert.InRange(letter.BoundingBox.Bottom, 8 * PointsPerMm, page.Height - 10 * PointsPerMm);
            }
        }
    }

    [Fact]
    public void Another_card_is_drawn_from_its_file_alone()
    {
        using PdfDocument pdf = Written(Cards.Variant, "Letter");
        PdfRectangle[] boxes = [.. Boxes(pdf.GetPage(1))];
        Assert.Single(boxes, b => Math.Abs(b.Width / PointsPerMm - 40) < 0.01);
        // 20 x 17 squares of 3 mm, 170 black, less those of the window: columns 5 to 11, rows 6 to 8: 21 squares, 10 of them black (those with an even sum).
        int inWindow = Enumerable.Range(5, 7).Sum(c => Enumerable.Range(6, 3).Count(r => (c + r) % 2 == 0));
        Assert.Equal(170 - inWindow, boxes.Count(b => Math.Abs(b.Width / PointsPerMm - 3) < 0.005 && Math.Abs(b.Height / PointsPerMm - 3) < 0.005));
    }

    [Fact]
    public void A_card_that_does_not_fit_the_paper_is_not_drawn()
    {
        PaperSize small = new("A6", 105, 148);
        Assert.False(small.Takes(Cards.Default));
        Assert.Throws<ArgumentException>(() => CardDrawing.WritePdf(Stream.Null, Cards.Default, small));
    }

    [Fact]
    public void The_same_card_gives_the_same_file()
    {
        using MemoryStream a = new(), b = new();
        CardDrawing.WritePdf(a, Cards.Default, PaperSize.A4);
        CardDrawing.WritePdf(b, Cards.Default, PaperSize.A4);
        Assert.Equal(a.ToArray(), b.ToArray());
    }

    private static PdfDocument Written(CardDescription card, string paper)
    {
        MemoryStream file = new();
        CardDrawing.WritePdf(file, card, PaperSize.All.Single(p => p.Name == paper));
        return PdfDocument.Open(file.ToArray());
    }

    private static string Text(Page page) => string.Join(' ', page.GetWords().Select(w => w.Text));

    /// <summary>All filled rectangles, points; each is a subpath of its own.</summary>
    private static IEnumerable<PdfRectangle> Boxes(Page page) =>
        from path in page.Paths
        where path.IsFilled
        from subpath in path
        let box = subpath.GetBoundingRectangle()
        where box is not null
        select box.Value;
}
