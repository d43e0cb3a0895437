using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.FaceView;
using EdgeLens.Tests.Edges;
using EdgeLens.Tests.Silhouettes;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Reflection;

/// <summary>Stripes on a drawn shank: a cylinder between the heel and the picture's border, mirroring panels by the law of reflection.</summary>
public sealed class ShankHighlightsTests
{
    private const double Paper = 0.3, Room = 0.06, ElevationRad = 38 * Math.PI / 180, HalfAngleRad = 24 * Math.PI / 180;

    // The blade's z runs along the picture's x, its +x upwards; the heel lies in the window's middle.
    private static readonly Similarity BladeFromCard = new(1, Math.PI / 2, SquareView.Card.Window.Centre.YMm, -SquareView.Card.Window.Centre.XMm);

    [Theory]
    [InlineData(0.8, 0.6, 0.8, 0, Room)]
    [InlineData(0.55, 0.7, 0.8, 0.47, Room)]
    [InlineData(0.9, 0.7, 1.4, 0, Room)]
    // A bright room: between the stripes the shank is brighter than the paper's limit of 0.36, and only the valley parts them.
    [InlineData(0.9, 0.8, 1.4, 0, 0.4)]
    public void Two_panels_leave_two_stripes_each_as_bright_as_its_panel(double left, double right, double radiusMm, double leanMmPerMm, double room)
    {
        ShankHighlights found = Find(left, right, radiusMm, leanMmPerMm, room)!;
        // Blurred rims and scratches of 10 % noise: within the tenth that is stated for a plateau.
        Assert.InRange(found.Levels[0], 0.93 * left, 1.1 * left);
        Assert.InRange(found.Levels[1], 0.93 * right, 1.1 * right);
        Assert.False(found.IsSingle);
    }

    [Theory]
    [InlineData(0.8, 0)]
    [InlineData(0, 0.8)]
    public void One_panel_leaves_one_stripe(double left, double right)
    {
        ShankHighlights found = Find(left, right, 0.8, 0)!;
        Assert.True(found.IsSingle);
        Assert.InRange(found.Levels[0], 0.74, 0.88);
    }

    [Fact]
    public void Without_a_panel_there_is_none() => Assert.Null(Find(0, 0, 0.8, 0));

    private static ShankHighlights? Find(double left, double right, double radiusMm, double lean, double room = Room)
    {
        Random random = new(5);
        using Mat tones = new(SquareView.HeightPx, SquareView.WidthPx, MatType.CV_32FC1, Scalar.All(0.1));
        double[] scratch = [.. Enumerable.Range(0, SquareView.HeightPx).Select(_ => 1 + 0.1 * (2 * random.NextDouble() - 1))];
        for (int y = 0; y < SquareView.HeightPx; y++)
        {
            Span<float> row = tones.RowSpan<float>(y);
            for (int x = 0; x < SquareView.WidthPx / 2; x++)
            {
                double back = (SquareView.WidthPx / 2 - x) * SquareView.MmPerPx, across = (SquareView.HeightPx / 2 - y) * SquareView.MmPerPx - lean * back;
                if (Math.Abs(across) >= radiusMm) continue;
                // A normal tilted by t sideways mirrors the line of sight to 2 t from it; the panel's middle is 90° - elevation from it.
                double off = Math.Abs(2 * Math.Asin(Math.Abs(across) / radiusMm) - (Math.PI / 2 - ElevationRad)), level = across > 0 ? left : right;
                row[x] = (float)LinearLight.Encode(Math.Min(1, off < HalfAngleRad && level > 0 ? level * scratch[y] : room));
            }
        }
        Cv2.GaussianBlur(tones, tones, new Size(0, 0), 2);
        using Mat grey = DrawnEdge.Photograph(tones, 1.2, random);
        List<OutlinePoint> points = [];
        for (double z = 0; z < 5; z += 0.02) points.Add(new(new(0.45, z), z, new(-1, 0), 1));
        for (double z = 5; z > 0; z -= 0.02) points.Add(new(new(-0.45, z), 10.9 - z, new(1, 0), 1));
        return ShankHighlights.Find(grey, SquareView.Calibration, new([.. points], 250, BladeFromCard), 0, Paper);
    }
}
