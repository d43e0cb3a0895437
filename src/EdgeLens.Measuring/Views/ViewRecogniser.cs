using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Silhouettes;
using OpenCvSharp;

namespace EdgeLens.Measuring.Views;

/// <summary>Tells from where a working end was photographed: by which way the steel before the window reaches, and how broad it is.</summary>
public static class ViewRecogniser
{
    /// <summary>
    /// A luxator's or elevator's blade is 2.5 to 5 mm wide in face view and at most 2 mm thick on edge (common practice); between the two, and 5 %
    /// of scale that the unknown distance leaves open.
    /// </summary>
    public const double OnEdgeMm = 2.3;

    /// <summary>Recognises the view.</summary>
    /// <param name="photograph">Borrowed.</param>
    /// <param name="calibration">From the card.</param>
    /// <param name="card">Which card.</param>
    /// <param name="family">Stated by the user: only luxators and elevators have a side view.</param>
    /// <returns>The view, or null where there is no steel before the window.</returns>
    public static PhotographView? Recognise(Photograph photograph, CardCalibration calibration, CardDescription card, InstrumentFamily family)
    {
        ArgumentNullException.ThrowIfNull(photograph);
        ArgumentNullException.ThrowIfNull(calibration);
        ArgumentNullException.ThrowIfNull(card);
        using WindowRegion? region = WindowRegion.Of(calibration, card, new Size(photograph.WidthPx, photograph.HeightPx));
        if (region is null) return null;
        double mmPerPx = calibration.MmPerPx(calibration.Printed(card.Window.Centre), 0);
        (SteelMask? found, _) = SteelMask.Find(photograph.Grey, region, mmPerPx);
        if (found is not { } steel) return null;
        using (steel)
        {
            // A terminal shank upright is five times as high as wide; a blade that lies is at least twice as long as broad.
            Moments moments = Cv2.Moments(steel.Pixels, true);
            if (moments.Mu02 > moments.Mu20) return PhotographView.Toe;
            if (!FamilyTraits.Of(family).TipCuts) return PhotographView.Face;
            return Breadth(steel.Pixels, mmPerPx) * mmPerPx < OnEdgeMm ? PhotographView.Side : PhotographView.Face;
        }
    }

    /// <summary>Holds what the user says against what is seen.</summary>
    /// <param name="stated">By the user; null where nothing was said.</param>
    /// <param name="seen">By <see cref="Recognise"/>; null where nothing was seen.</param>
    /// <returns>The refusal <c>wrong-view</c> where the two contradict, else null.</returns>
    public static Refusal? Contradiction(PhotographView? stated, PhotographView? seen) => stated is { } said && seen is { } found && said != found
        ? new Refusal("wrong-view", $"The photograph was said to be a {Name(said)} view and shows a {Name(found)} view.",
            $"Say {Name(found)} view, or take the {Name(said)} view as the page on taking the photographs shows.")
        : null;

    private static string Name(PhotographView view) => view switch { PhotographView.Toe => "toe", PhotographView.Side => "side", _ => "face" };

    /// <summary>
    /// Extent from top to bottom that a tenth of the columns exceed, over the 1.5 to 4.5 mm behind the tip, pixels: a hollow face may be dark in parts, and farther back
    /// the shank is as thick as a blade is wide.
    /// </summary>
    private static double Breadth(Mat steel, double mmPerPx)
    {
        int rows = steel.Rows, columns = steel.Cols;
        int[] first = new int[columns], last = new int[columns];
        Array.Fill(first, -1);
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> row = steel.RowSpan<byte>(y);
            for (int x = 0; x < columns; x++)
                if (row[x] != 0) (first[x], last[x]) = (first[x] < 0 ? y : first[x], y);
        }
        int left = Array.FindIndex(first, y => y >= 0), right = Array.FindLastIndex(first, y => y >= 0);
        bool tipRight = left < columns - 1 - right;
        int[] breadths = [.. Enumerable.Range(left, right - left + 1).Where(x => first[x] >= 0 && (tipRight ? right - x : x - left) * mmPerPx is > 1.5 and < 4.5)
            .Select(x => last[x] - first[x] + 1)];
        Array.Sort(breadths);
        return breadths.Length == 0 ? 0 : breadths[breadths.Length * 9 / 10];
    }
}
