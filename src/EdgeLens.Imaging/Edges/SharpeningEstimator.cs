using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using OpenCvSharp;

namespace EdgeLens.Imaging.Edges;

/// <summary>
/// How strongly the phone sharpened, from the straight borders between the card's black squares and the white margins of its markers:
/// a plain step, so that the seams which sharpening leaves beside it cannot be light on an edge.
/// </summary>
/// <remarks>Profile likelihood over the amount; the card's own blur (it lies outside the plane of focus) is found anew for each amount.</remarks>
public static class SharpeningEstimator
{
    // The 16 borders nearest the window, 16 px long: some 4500 pixels, a hundredth in the amount; amounts 0 to 0.8 hold what phones use.
    private const int Borders = 16;
    private const double HalfLengthPx = 8;
    private const double AmountStep = 0.2;
    private const int AmountSteps = 5;

    /// <summary>Estimates the sharpening; none where too little of the card's borders is in the picture.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="calibration">Where the card lies.</param>
    /// <param name="card">What is on it.</param>
    public static Sharpening Estimate(Mat grey, CardCalibration calibration, CardDescription card)
    {
        ArgumentNullException.ThrowIfNull(grey);
        ArgumentNullException.ThrowIfNull(calibration);
        ArgumentNullException.ThrowIfNull(card);
        EdgeBlock[] blocks = [.. BordersOf(grey, calibration, card).Select(p => { EdgeBlock b = new(); b.Fill(grey, p, default); return b; })];
        if (blocks.Length < Borders / 3) return new(0);
        EdgeFitter fitter = new();
        double[] costs = [.. Enumerable.Range(0, AmountSteps).Select(k => Cost(k * AmountStep))];
        int best = Array.IndexOf(costs, costs.Min());
        if (best == 0 && costs[1] - costs[0] > costs[2] - costs[1]) return new(0);
        int middle = Math.Clamp(best, 1, AmountSteps - 2);
        double bend = costs[middle - 1] - 2 * costs[middle] + costs[middle + 1];
        double shift = bend > 0 ? 0.5 * (costs[middle - 1] - costs[middle + 1]) / bend : best - middle;
        return new(Math.Max(0, AmountStep * (middle + Math.Clamp(shift, -1, 1))));

        double Cost(double amount)
        {
            double least = double.MaxValue;
            ParabolicMinimum.Search(s => Remember(BlurCost(s, amount)), 0.5, 3);
            return least;

            double Remember(double cost)
            {
                least = Math.Min(least, cost);
                return cost;
            }
        }

        double BlurCost(double sigma, double amount)
        {
            double cost = 0;
            foreach (EdgeBlock block in blocks)
                if (fitter.FitStep(block, new(sigma, new(amount))) is { } fit) cost += fit.PixelCount * Math.Log(Math.Max(fit.SumOfSquares, 1e-12) / fit.PixelCount);
            return cost;
        }
    }

    private static IEnumerable<EdgePlace> BordersOf(Mat grey, CardCalibration calibration, CardDescription card)
    {
        DesignPoint middle = card.Window.Centre;
        List<EdgePlace> places = [];
        foreach (int id in card.StandingMarkers.OrderBy(id => Square(card.MarkerArea(id).Centre, middle)))
        {
            BoardSquare square = card.SquareOf(id);
            DesignRectangle area = card.Board.Square(square.Column, square.Row);
            DesignPoint centre = area.Centre;
            double half = card.Board.SquareMm / 2;
            foreach ((double dx, double dy) in new[] { (half, 0.0), (-half, 0.0), (0.0, half), (0.0, -half) })
            {
                // The neighbour must be a whole black square of the card, not window, tab or margin.
                DesignRectangle neighbour = new(area.XMm + 2 * dx, area.YMm + 2 * dy, area.WidthMm, area.HeightMm);
                if (!card.Board.Area.Contains(neighbour) || card.Window.Overlaps(neighbour)) continue;
                PixelPoint at = Pixel(centre.XMm + dx, centre.YMm + dy), beyond = Pixel(centre.XMm + 1.2 * dx, centre.YMm + 1.2 * dy), inside = Pixel(centre.XMm + 0.8 * dx, centre.YMm + 0.8 * dy);
                double margin = EdgeProfileModel.ReachPx + HalfLengthPx + 2;
                if (at.X < margin || at.Y < margin || at.X > grey.Cols - 1 - margin || at.Y > grey.Rows - 1 - margin) continue;
                Vector2 across = new(beyond.X - inside.X, beyond.Y - inside.Y);
                double marginPx = across.Length * card.Board.MarginMm / (0.4 * half);
                places.Add(new(at, across.Unit, 0, Math.Min(HalfLengthPx, 0.4 * marginPx * half / card.Board.MarginMm), Math.Min(EdgeProfileModel.ReachPx, 0.8 * marginPx)));
                if (places.Count == Borders) return places;
            }
        }
        return places;

        PixelPoint Pixel(double x, double y) => calibration.Project(calibration.Printed(new(x, y)), 0);
    }

    private static double Square(DesignPoint a, DesignPoint b) => (a.XMm - b.XMm) * (a.XMm - b.XMm) + (a.YMm - b.YMm) * (a.YMm - b.YMm);
}
