using System.Collections.Immutable;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>Makes an outline from places in the frame of the working end: arc lengths, inward normals, apex.</summary>
public static class OutlineBuilder
{
    /// <summary>
    /// Half length of the stretch that gives a point its tangent. Noise of 2 µm with a correlation of 30 µm turns the tangent by about 2° there; on a tip
    /// of 40 µm radius the stretch still follows the turn, because a parabola in arc goes through it.
    /// </summary>
    public const double TangentHalfWindowMm = 0.05;

    /// <summary>Builds the outline.</summary>
    /// <param name="places">From the heel's left edge round the apex to the heel's right edge (turning from x towards z), at least 7.</param>
    /// <param name="sigmaUm">Standard uncertainty of each along the normal.</param>
    /// <param name="bladeFromCard">How they came from the card.</param>
    public static Outline Build(ReadOnlySpan<Vector2> places, ReadOnlySpan<double> sigmaUm, Similarity bladeFromCard)
    {
        if (places.Length < 7 || places.Length != sigmaUm.Length) throw new ArgumentException("An outline has at least 7 points, each with its uncertainty.", nameof(places));
        double[] arc = Polyline.ArcLengths(places), x = new double[places.Length], z = new double[places.Length];
        int apex = 0;
        for (int i = 0; i < places.Length; i++)
        {
            (x[i], z[i]) = (places[i].X, places[i].Y);
            if (z[i] > z[apex]) apex = i;
        }
        ImmutableArray<OutlinePoint>.Builder points = ImmutableArray.CreateBuilder<OutlinePoint>(places.Length);
        for (int i = 0, first = 0, end = 0; i < places.Length; i++)
        {
            while (arc[first] < arc[i] - TangentHalfWindowMm) first++;
            while (end < arc.Length && arc[end] <= arc[i] + TangentHalfWindowMm) end++;
            int from = Math.Min(first, Math.Max(0, i - 3)), to = Math.Max(end, Math.Min(arc.Length, i + 4));
            Vector2 tangent = new Vector2(Slope(x), Slope(z)).Unit;
            points.Add(new(new(x[i], z[i]), arc[i], tangent.Perpendicular, sigmaUm[i]));

            double Slope(double[] coordinate) => PolynomialFit.Of(arc.AsSpan(from..to), coordinate.AsSpan(from..to), 2, arc[i])?.SlopeAt(arc[i])
                ?? coordinate[Math.Min(i + 1, coordinate.Length - 1)] - coordinate[Math.Max(i - 1, 0)];
        }
        return new(points.MoveToImmutable(), apex, bladeFromCard);
    }
}
