using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Space;
using EdgeLens.Measuring.SideView;
using EdgeLens.Measuring.ToeView;
using Xunit;

namespace EdgeLens.Tests.Angles;

/// <summary>What tilt does to angles in the picture, against constructions in space that use none of the program's formulas.</summary>
public sealed class ViewGeometryTests
{
    private const double Degree = Math.PI / 180;

    [Theory]
    [InlineData(0, 0.1, 0.12)]
    [InlineData(20, -0.08, 0.05)]
    [InlineData(-25, 0.06, -0.1)]
    public void The_offset_of_the_face_is_recovered_from_the_planes_that_camera_and_lines_span(double offsetDeg, double cameraX, double cameraY)
    {
        // Blade turned by 7° in the picture; a camera 100 mm away and to the side; points of the two lines in space.
        const double lean = 25;
        Vector3 x = new(Math.Cos(7 * Degree), Math.Sin(7 * Degree), 0), y = new(-Math.Sin(7 * Degree), Math.Cos(7 * Degree), 0), z = new(0, 0, 1);
        double t = offsetDeg * Degree, l = (90 + lean) * Degree;
        Vector3 shank = Math.Sin(t) * Math.Sin(l) * x + Math.Cos(t) * Math.Sin(l) * y + Math.Cos(l) * z;
        Vector3 camera = new(100 * cameraX, 100 * cameraY, 105), toe = new(0.3, -0.2, 5), heel = new(0.1, 0.1, -0.6);
        Vector3 Plane(Vector3 a, Vector3 b) => (a - camera).Cross(b - camera).Unit;
        double found = FaceToShank.OffsetDeg(Plane(toe, toe + x), Plane(heel + 2 * shank, heel + 9 * shank), z, lean);
        Assert.Equal(offsetDeg, found, 9);
    }

    /// <summary>Issue of the toe view: a sideways tilt δ turns the shank's picture against the face line by about δ tan 25°, by plain projection along the view.</summary>
    [Fact]
    public void A_blade_set_off_the_cards_normal_shows_up_times_the_tangent_of_the_lean()
    {
        const double lean = 25, delta = 1;
        double l = (90 + lean) * Degree;
        Vector3 x = new(1, 0, 0), z = new(0, 0, 1), shank = new(0, Math.Sin(l), Math.Cos(l)), face = new(0, 1, 0), axis = shank.Cross(z).Unit;
        double turned = FaceToShank.OffsetDeg(face, axis, new Vector3(Math.Sin(delta * Degree), 0, Math.Cos(delta * Degree)), lean);
        Assert.Equal(delta * Math.Tan(lean * Degree), Math.Abs(turned), 2);
        Assert.Equal(0, FaceToShank.OffsetDeg(face, axis, z, lean), 9);
        Assert.Equal(1, x.Length, 12);
    }

    /// <summary>The bevel as a cloud of points in space, projected along the view; its contour is the outermost place at each of two heights.</summary>
    [Theory]
    [InlineData(45, 0, 0)]
    [InlineData(45, 0.08, 0.06)]
    [InlineData(38, -0.1, 0.1)]
    [InlineData(50, 0.1, -0.07)]
    public void The_contour_of_a_ruled_bevel_is_seen_under_the_angle_that_projecting_its_points_gives(double wedgeDeg, double vy, double vz)
    {
        const double arcMm = 1.6;
        double b = wedgeDeg * Degree;
        double Outermost(double height)
        {
            double best = double.MinValue;
            for (double phi = -0.6; phi <= 0.6; phi += 1e-4)
            {
                // A place at distance q down the ruling from the tip arc, q chosen so that its picture has the wanted height.
                double px = arcMm * Math.Sin(phi), pz = arcMm * (Math.Cos(phi) - 1);
                double lx = -Math.Sin(phi) * Math.Cos(b), ly = -Math.Sin(b), lz = -Math.Cos(phi) * Math.Cos(b);
                double q = (height + px * vy) / (ly - lx * vy);
                double zz = pz + q * lz - (px + q * lx) * vz;
                if (zz > best) best = zz;
            }
            return best;
        }

        double seen = Math.Atan2(0.3, Outermost(-0.1) - Outermost(-0.4));
        Assert.Equal(seen, WedgeProjection.Seen(b, vy, vz), 4);
        Measured back = WedgeProjection.Wedge(new Measured(seen, 0), vy, vz);
        Assert.Equal(wedgeDeg, back.Value, 2);
    }

    [Fact]
    public void The_curve_of_the_cutting_edge_is_the_picture_of_a_half_circle()
    {
        // Seen straight from above (vx = 0, vy = 1) the U is a circle of the toe's half width about (0, w).
        foreach ((double px, double py) in ToeEdgeModel.Curve(ToePlan.Nominal, 0.4, 0, 0, 1, sides: false)) Assert.Equal(0.4, Math.Sqrt(px * px + (py - 0.4) * (py - 0.4)), 12);
    }
}
