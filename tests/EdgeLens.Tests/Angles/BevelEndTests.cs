using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.SideView;
using Xunit;

namespace EdgeLens.Tests.Angles;

/// <summary>A blade of exactly known section and width, projected along the view by plain geometry.</summary>
public sealed class BevelEndTests
{
    private const double MmPerPx = 0.008, HalfWidthMm = 1.8, DepthMm = 0.9;

    /// <summary>Where a back 0.9 mm below the face is met by a bevel at β: 0.9 / tan β. Seen from aside by vy, the long lines of face and back stand 1.8 mm times vy outside of the middle's.</summary>
    [Theory]
    [InlineData(45, 0)]
    [InlineData(45, 0.1)]
    [InlineData(38, -0.08)]
    public void The_bevel_ends_where_it_meets_the_back(double wedgeDeg, double vy)
    {
        double beta = wedgeDeg * Math.PI / 180, aside = Math.Abs(vy) * HalfWidthMm;
        // x to the tip, y down, from the corner of face and bevel; pixels.
        StraightEdge face = Edge((-4.2, -aside), (-1.9, -aside), 1), back = Edge((-4.2, DepthMm + aside), (-1.9, DepthMm + aside), -1);
        StraightEdge bevel = Edge((-0.1 * Math.Cos(beta), 0.1 * Math.Sin(beta)), (-0.6 * Math.Cos(beta), 0.6 * Math.Sin(beta)), -1);

        Measured end = BevelEnd.Of(new BevelLine(face, back, bevel, 1), new(wedgeDeg, 0.5), Middle(vy), MmPerPx).Measured!.Value;

        Assert.Equal(DepthMm / Math.Tan(beta), end.Value, 1e-6);
        // At 45°, by hand: alignment 2 x 1.8 mm x 0.866° is 54 µm, form 52 µm, scale 10 µm, wedge 16 µm; the width, known to 0.36 mm, twice that times vy.
        double byWidth = 2 * Math.Abs(vy) * 0.358 / Math.Tan(beta), hand = Math.Sqrt(0.0544 * 0.0544 / Math.Pow(Math.Tan(beta), 2) + 0.0588 * 0.0588 * end.Value * end.Value + byWidth * byWidth + Math.Pow(DepthMm / Math.Pow(Math.Sin(beta), 2) * 0.00873, 2));
        Assert.Equal(hand, end.StandardUncertainty, 0.002);
    }

    [Fact]
    public void A_bevel_beside_the_back_meets_it_nowhere() =>
        Assert.Null(BevelEnd.Of(new BevelLine(Edge((-4.2, 0), (-1.9, 0), 1), Edge((-4.2, 1), (-1.9, 1), -1), Edge((0, 0.1), (-0.5, 0.11), -1), 1), new(45, 0.5), Middle(0), MmPerPx).Measured);

    // Half the width known to 0.358 mm, the view to the hand's alignment, 1.5° rectangular.
    private static BladeMiddle Middle(double vy)
    {
        Measured inwards = new(Math.Abs(vy) * HalfWidthMm, Math.Sqrt(Math.Pow(HalfWidthMm * 0.866 * Math.PI / 180, 2) + Math.Pow(vy * 0.358, 2)));
        return new(inwards, inwards);
    }

    /// <summary>An exact line in millimetres from the corner, steel on the side given (1 below, -1 above).</summary>
    private static StraightEdge Edge((double X, double Y) from, (double X, double Y) to, int steel)
    {
        PixelPoint a = Pixel(from), b = Pixel(to);
        return new(Stretch.Between(a, b, new((a.X + b.X) / 2, (a.Y + b.Y) / 2 + 50 * steel)), 0, 0, 1, false, 1, 100);
    }

    private static PixelPoint Pixel((double X, double Y) mm) => new(1500 + mm.X / MmPerPx, 900 + mm.Y / MmPerPx);
}
