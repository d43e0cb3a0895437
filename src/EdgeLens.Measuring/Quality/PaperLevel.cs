using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;

namespace EdgeLens.Measuring.Quality;

/// <summary>How bright the card's white paper is next to the window: the photograph's exposure, and what the panels throw on the card.</summary>
public static class PaperLevel
{
    // Ten markers around the window: the median is not moved by a stain or by a shadow on two of them.
    private const int Samples = 40;

    /// <summary>Reflectance of matt white card where the description has no white patch.</summary>
    public const double NominalReflectance = 0.85;

    /// <summary>Median linear brightness of the markers' white margins nearest the window, share of full scale; null where none is in the picture.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="calibration">Where the card lies.</param>
    /// <param name="card">What is on it.</param>
    public static double? Measure(Mat grey, CardCalibration calibration, CardDescription card)
    {
        ArgumentNullException.ThrowIfNull(grey);
        ArgumentNullException.ThrowIfNull(calibration);
        ArgumentNullException.ThrowIfNull(card);
        List<double> levels = [];
        DesignPoint middle = card.Window.Centre;
        foreach (int id in card.StandingMarkers.OrderBy(id => Math.Pow(card.MarkerArea(id).Centre.XMm - middle.XMm, 2) + Math.Pow(card.MarkerArea(id).Centre.YMm - middle.YMm, 2)))
        {
            BoardSquare square = card.SquareOf(id);
            DesignRectangle area = card.Board.Square(square.Column, square.Row);
            double inset = card.Board.MarginMm / 2;
            foreach (DesignPoint p in new DesignPoint[] { new(area.XMm + inset, area.Centre.YMm), new(area.RightMm - inset, area.Centre.YMm), new(area.Centre.XMm, area.YMm + inset), new(area.Centre.XMm, area.BottomMm - inset) })
            {
                PixelPoint at = calibration.Project(calibration.Printed(p), 0);
                int x = (int)Math.Round(at.X), y = (int)Math.Round(at.Y);
                if (x >= 0 && y >= 0 && x < grey.Cols && y < grey.Rows) levels.Add(LinearLight.OfTone[grey.RowSpan<byte>(y)[x]]);
            }
            if (levels.Count >= Samples) break;
        }
        if (levels.Count == 0) return null;
        levels.Sort();
        return levels[levels.Count / 2];
    }
}
