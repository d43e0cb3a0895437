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
        int count = Math.Max(0, (int)Math.Floor((apexZ - back) / HeelFinder.StepMm));
        double?[] lefts = Outermost(left, back, count, 1), rights = Outermost(right, back, count, -1);
        int[] rows = [.. Enumerable.Range(1, count).Where(k => lefts[k] is not null && rights[k] is not null)];
        if (rows.Length < 20) return null;
        return new(
            [.. rows.Select(k => back + k * HeelFinder.StepMm)], [.. rows.Select(k => 0.5 * (lefts[k]!.Value + rights[k]!.Value))], [.. rows.Select(k => lefts[k]!.Value - rights[k]!.Value)], apexZ);
    }

    /// <summary>x of the crossing farthest from the axis for every row, in one walk along the side; null where a row is not crossed.</summary>
    private static double?[] Outermost(ReadOnlySpan<Vector2> side, double back, int count, int sign)
    {
        double?[] x = new double?[count + 1];
        for (int i = 0; i + 1 < side.Length; i++)
        {
            (Vector2 low, Vector2 high) = side[i].Y <= side[i + 1].Y ? (side[i], side[i + 1]) : (side[i + 1], side[i]);
            int from = Math.Max(0, (int)Math.Ceiling((low.Y - back) / HeelFinder.StepMm)), to = Math.Min(count, (int)Math.Floor((high.Y - back) / HeelFinder.StepMm));
            for (int k = from; k <= to && high.Y > low.Y; k++)
            {
                double at = low.X + (back + k * HeelFinder.StepMm - low.Y) / (high.Y - low.Y) * (high.X - low.X);
                if (x[k] is not { } known || sign * at > sign * known) x[k] = at;
            }
        }
        return x;
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
