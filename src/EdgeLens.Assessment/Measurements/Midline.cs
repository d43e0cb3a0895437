using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>Middle and width of a U at equally spaced z, in a frame whose z runs roughly along the blade.</summary>
internal sealed class Midline
{
    private Midline(double[] z, double[] middle, double[] width, double apexZ) => (Z, Middle, Width, ApexZ) = (z, middle, width, apexZ);

    /// <summary>Heights, increasing.</summary>
    public double[] Z { get; }

    /// <summary>x halfway between the two sides.</summary>
    public double[] Middle { get; }

    /// <summary>Extent along x.</summary>
    public double[] Width { get; }

    /// <summary>z of the farthest point.</summary>
    public double ApexZ { get; }

    /// <summary>From the back end to the apex.</summary>
    public double LengthMm => ApexZ - Z[0];

    /// <summary>Width at the back end.</summary>
    public double BackWidthMm => Width[0];

    /// <summary>Samples the U.</summary>
    /// <returns>Null when both sides are seen together at fewer than 20 heights.</returns>
    public static Midline? Of(ReadOnlySpan<Vector2> blade)
    {
        int apex = 0;
        for (int i = 1; i < blade.Length; i++)
            if (blade[i].Y > blade[apex].Y) apex = i;
        ReadOnlySpan<Vector2> left = blade[..(apex + 1)], right = blade[apex..];
        double back = Math.Max(Lowest(left), Lowest(right)), apexZ = blade[apex].Y;
        int count = (int)Math.Floor((apexZ - back) / HeelFinder.StepMm);
        List<(double Z, double Left, double Right)> rows = [];
        for (int k = 1; k < count; k++)
        {
            double z = back + k * HeelFinder.StepMm;
            IReadOnlyList<Crossing> l = Polyline.CrossingsAtY(left, z), r = Polyline.CrossingsAtY(right, z);
            if (l.Count > 0 && r.Count > 0) rows.Add((z, l.Max(c => c.X), r.Min(c => c.X)));
        }
        if (rows.Count < 20) return null;
        return new([.. rows.Select(w => w.Z)], [.. rows.Select(w => 0.5 * (w.Left + w.Right))], [.. rows.Select(w => w.Left - w.Right)], apexZ);
    }

    /// <summary>Least-squares midline between two heights.</summary>
    public Outcome<StraightLine> Line(double fromZ, double toZ)
    {
        int[] rows = [.. Enumerable.Range(0, Z.Length).Where(i => Z[i] >= fromZ && Z[i] <= toZ)];
        return StraightLine.Fit([.. rows.Select(i => Z[i])], [.. rows.Select(i => Middle[i])]);
    }

    private static double Lowest(ReadOnlySpan<Vector2> side)
    {
        double least = double.PositiveInfinity;
        foreach (Vector2 p in side) least = Math.Min(least, p.Y);
        return least;
    }
}
