using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Calibration;

public sealed class CardGeometryTests
{
    [Fact]
    public void A_pixel_goes_to_the_plane_and_back()
    {
        Random random = new(101);
        for (int i = 0; i < 500; i++)
        {
            CardGeometry g = MadeCard.Draw(random);
            double height = MadeCard.Normal(random, 0, 3);
            PixelPoint p = new(4000 * random.NextDouble(), 3000 * random.NextDouble()), back = g.Project(g.ToPlane(p, height), height);
            Assert.Equal(p.X, back.X, 1e-9 * 4000);
            Assert.Equal(p.Y, back.Y, 1e-9 * 4000);
        }
    }

    /// <summary>Projection against OpenCV's (pinhole, one radial term); its frame and pixel convention are ours.</summary>
    [Fact]
    public void Projection_is_that_of_OpenCV()
    {
        Random random = new(102);
        for (int i = 0; i < 20; i++)
        {
            CardGeometry g = MadeCard.Draw(random);
            Rotation3 r = g.CameraFromCard;
            Vector3 t = g.InCamera(new(0, 0), 0);
            using Mat rotation = Mat.FromPixelData(3, 3, MatType.CV_64FC1, new[] { r.X.X, r.Y.X, r.Z.X, r.X.Y, r.Y.Y, r.Z.Y, r.X.Z, r.Y.Z, r.Z.Z });
            using Mat vector = new();
            Cv2.Rodrigues(rotation, vector);
            double[] turn = [.. Enumerable.Range(0, 3).Select(k => vector.RowSpan<double>(k)[0])];
            double f = g.Camera.FocalLengthPx;
            Cv2.ProjectPoints(
                [new Point3f(40, 20, 0), new Point3f(50, 30, -2)], turn, [t.X, t.Y, t.Z],
                new[,] { { f, 0, g.Camera.CentreXPx }, { 0, f, g.Camera.CentreYPx }, { 0, 0, 1 } }, [g.Camera.K1, 0, 0, 0], out Point2f[] expected, out _);
            AssertNear(expected[0], g.Project(new(40, 20), 0));
            AssertNear(expected[1], g.Project(new(50, 30), 2));
        }

        // OpenCV hands out floats: 4000 px are kept to 0.0003 px.
        static void AssertNear(Point2f expected, PixelPoint actual)
        {
            Assert.Equal(expected.X, actual.X, 1e-3);
            Assert.Equal(expected.Y, actual.Y, 1e-3);
        }
    }

    [Fact]
    public void Derivatives_of_a_corner_are_those_of_its_projection()
    {
        Random random = new(103);
        double[] dx = new double[CardGeometry.ParameterCount], dy = new double[CardGeometry.ParameterCount], rest = new double[CardGeometry.ParameterCount], step = new double[CardGeometry.ParameterCount];
        foreach (CornerKind kind in Enum.GetValues<CornerKind>())
        {
            CardGeometry g = MadeCard.Draw(random);
            CardCorner corner = new(new(38, 20), new(0, 0), kind, 1);
            CornerProjection.Project(g, corner, dx, dy);
            for (int i = 0; i < CardGeometry.ParameterCount; i++)
            {
                const double h = 1e-6;
                Array.Clear(step);
                step[i] = h;
                PixelPoint after = CornerProjection.Project(g.Moved(step), corner, rest, rest);
                step[i] = -h;
                PixelPoint before = CornerProjection.Project(g.Moved(step), corner, rest, rest);
                // Rounding of 2000 px over 2e-6 is 2e-7 of a pixel per unit: derivatives of up to 2000 are right to 1e-3.
                Assert.Equal((after.X - before.X) / (2 * h), dx[i], 2e-3);
                Assert.Equal((after.Y - before.Y) / (2 * h), dy[i], 2e-3);
            }
        }
    }

    /// <summary>Square to the card, a zoom on the retreat changes nothing but the perspective of what is off the plane: that is why distance needs a prior.</summary>
    [Fact]
    public void Zooming_on_the_retreat_leaves_the_picture_of_a_card_square_to_it()
    {
        CardGeometry g = MadeCard.Geometry(tiltXDeg: 0, tiltYDeg: 0), zoomed = g.Zoomed(0.2);
        PixelPoint a = g.Project(new(35, 20), 0), b = zoomed.Project(new(35, 20), 0);
        Assert.Equal(a.X, b.X, 1e-6);
        Assert.Equal(a.Y, b.Y, 1e-6);
        Assert.Equal(g.PivotInCamera.Z * Math.Exp(0.2), zoomed.PivotInCamera.Z, 1e-9);
    }

    [Fact]
    public void A_turn_of_a_quarter_takes_x_to_y_and_keeps_its_length()
    {
        Rotation3 r = Rotation3.Identity.ThenTurned(new(0, 0, Math.PI / 2));
        Vector3 y = r.Apply(new(1, 0, 0));
        Assert.Equal(0, (y - new Vector3(0, 1, 0)).Length, 1e-12);
        Assert.Equal(0, (r.ApplyInverse(y) - new Vector3(1, 0, 0)).Length, 1e-12);
        Assert.Equal(new Vector3(0, 0, 1), new Vector3(1, 0, 0).Cross(new(0, 1, 0)));
    }
}
