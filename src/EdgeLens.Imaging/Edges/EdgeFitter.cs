using System.Numerics;
using System.Runtime.InteropServices;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Imaging.Photographs;

namespace EdgeLens.Imaging.Edges;

/// <summary>
/// Least-squares fit of the edge's forward model to the raw pixels of a block, in tone values, where sensor noise is about even
/// (shot noise grows with the root of the light, the tone curve flattens by about as much).
/// </summary>
/// <remarks>
/// Levenberg-Marquardt over offset, radius, face level and slope, ground level. Offset and light on the edge trade against each other
/// (a line on the edge looks like a step farther out until the blur tells them apart), therefore blur and sharpening are never free
/// per block. Not thread-safe: one per worker.
/// </remarks>
public sealed class EdgeFitter
{
    private const int Unknowns = 5;
    private const int RadiusUnknown = 1;

    // Warm starts end after two or three steps, cold ones after six to eight; what has not come to rest after these is no edge.
    private const int Steps = 12;
    private const int Attempts = 4;

    // A start is good to a pixel or two (HalfLevelSnap); radii beyond 14 px (over 0.1 mm) do not fit into a block.
    private const double GreatestOffsetPx = 5;
    private const double GreatestRadiusPx = 14;

    // The search ends when a step takes less than this share off the sum of squares: with 160 pixels 0.016 in -2 ln L, an eighth of a standard deviation.
    private const double Enough = 1e-4;

    // Steps of the forward differences (px, px, light, light per px, light): each moves the profile by about a tenth of a grey level, so that neither rounding nor curvature counts.
    private static readonly double[] Probe = [0.02, 0.02, 2e-4, 2e-5, 2e-4];

    // Radii of a quarter and of three pixels lie on either side of where the line begins to stand clear of the silhouette.
    private static readonly double[] LitStartsPx = [0.25, 3];
    private static readonly double[] DarkStartsPx = [2];
    private readonly EdgeProfileModel _model = new();
    private readonly List<double> _jacobian = [];
    private List<double> _residuals = [];
    private List<double> _trialResiduals = [];

    /// <summary>Fits a block as an edge that mirrors the light (from a sharp and from a dull start) or as one that does not.</summary>
    /// <param name="block">At least 40 pixels on both sides of the edge.</param>
    /// <param name="optics">Of the photograph.</param>
    /// <param name="isLit">Which of the two.</param>
    /// <param name="start">Where an earlier fit of the same block ended; null to start afresh.</param>
    /// <returns>Null where the block has too few pixels or no step from ground up to face.</returns>
    public EdgeFit? Fit(EdgeBlock block, in EdgeOptics optics, bool isLit, EdgeShape? start = null)
    {
        ArgumentNullException.ThrowIfNull(block);
        if (start is { } warm) return Refine(block, block.Light, optics, warm, isLit);
        if (StartOf(block) is not { } cold) return null;
        EdgeFit? best = null;
        foreach (double radius in isLit ? LitStartsPx : DarkStartsPx)
            if (Refine(block, block.Light, optics, cold with { RadiusPx = radius }, isLit) is { } fit && (best is not { } b || fit.SumOfSquares < b.SumOfSquares)) best = fit;
        return best;
    }

    /// <summary>Fits a block as a dull edge under another light than its own.</summary>
    /// <param name="block">At least 40 pixels on both sides of the edge.</param>
    /// <param name="light">To be tried.</param>
    /// <param name="optics">Of the photograph.</param>
    /// <param name="start">Where a fit under another light ended.</param>
    public EdgeFit? Fit(EdgeBlock block, in RoundingLight light, in EdgeOptics optics, EdgeShape start)
    {
        ArgumentNullException.ThrowIfNull(block);
        return Refine(block, light, optics, start, true);
    }

    /// <summary>Fits a block as a plain step, without any rounding: the border of something printed.</summary>
    /// <param name="block">At least 40 pixels on both sides of the edge.</param>
    /// <param name="optics">Of the photograph.</param>
    /// <returns>Null where the block has too few pixels or no step up to the inside.</returns>
    public EdgeFit? FitStep(EdgeBlock block, in EdgeOptics optics) => FitHeld(block, optics, 0);

    /// <summary>Fits a block as an edge of given radius that mirrors no light.</summary>
    /// <param name="block">At least 40 pixels on both sides of the edge.</param>
    /// <param name="optics">Of the photograph.</param>
    /// <param name="radiusPx">Of the rounding.</param>
    /// <returns>Null where the block has too few pixels or no step up to the inside.</returns>
    public EdgeFit? FitHeld(EdgeBlock block, in EdgeOptics optics, double radiusPx)
    {
        ArgumentNullException.ThrowIfNull(block);
        return StartOf(block) is { } start ? Refine(block, block.Light, optics, start with { RadiusPx = radiusPx }, false, isRounded: false) : null;
    }

    private static EdgeShape? StartOf(EdgeBlock block)
    {
        if (block.Tones.Length < 40) return null;
        double inner = 0, outer = 0;
        int inside = 0, outside = 0;
        double depth = -0.6 * Math.Min(EdgeProfileModel.ReachPx, -Least(block.DistancesPx));
        for (int i = 0; i < block.Tones.Length; i++)
        {
            if (block.DistancesPx[i] > 4) (outer, outside) = (outer + block.Tones[i], outside + 1);
            else if (block.DistancesPx[i] < depth) (inner, inside) = (inner + block.Tones[i], inside + 1);
        }
        if (inside < 4 || outside < 4) return null;
        double face = LinearLight.Decode(inner / inside), ground = LinearLight.Decode(outer / outside);
        return face > ground ? new EdgeShape(0, 0, face, 0, ground) : null;
    }

    private static double Least(ReadOnlySpan<double> values)
    {
        double least = double.MaxValue;
        foreach (double v in values) least = Math.Min(least, v);
        return least;
    }

    private EdgeFit? Refine(EdgeBlock block, in RoundingLight light, in EdgeOptics optics, EdgeShape start, bool isLit, bool isRounded = true)
    {
        int count = block.Tones.Length;
        Span<double> unknowns = [start.OffsetPx, start.RadiusPx, start.FaceLevel, start.FaceSlope, start.GroundLevel];
        Span<double> normal = stackalloc double[Unknowns * Unknowns], factor = stackalloc double[Unknowns * Unknowns];
        Span<double> gradient = stackalloc double[Unknowns], step = stackalloc double[Unknowns], trial = stackalloc double[Unknowns];
        double damping = 1e-3, sum = Residuals(block, light, optics, isLit, unknowns, _residuals);
        for (int iteration = 0; iteration < Steps; iteration++)
        {
            Linearise(block, light, optics, isLit, unknowns, normal, gradient);
            if (!isRounded) Hold(RadiusUnknown, normal, gradient);
            bool improved = false, done = false;
            for (int attempt = 0; attempt < Attempts && !improved; attempt++)
            {
                normal.CopyTo(factor);
                for (int i = 0; i < Unknowns; i++) factor[i * Unknowns + i] *= 1 + damping;
                gradient.CopyTo(step);
                if (!SmallCholesky.TryFactor(factor, Unknowns))
                {
                    damping *= 10;
                    continue;
                }
                SmallCholesky.Solve(factor, Unknowns, step);
                for (int i = 0; i < Unknowns; i++) trial[i] = unknowns[i] + step[i];
                Confine(trial);
                double tried = Residuals(block, light, optics, isLit, trial, _trialResiduals);
                if (tried >= sum)
                {
                    damping *= 8;
                    continue;
                }
                improved = true;
                done = sum - tried < Enough * sum;
                sum = tried;
                trial.CopyTo(unknowns);
                (_residuals, _trialResiduals) = (_trialResiduals, _residuals);
                damping = Math.Max(damping * 0.1, 1e-6);
            }
            if (!improved || done) break;
        }
        // The last linearisation stands within the final step of the solution: good enough for the covariance.
        double variance = sum / Math.Max(1, count - Unknowns);
        // The radius is held at zero from below: a hair of the prior "at most 14 px" keeps the matrix regular there.
        normal[RadiusUnknown * (Unknowns + 1)] += variance / (GreatestRadiusPx * GreatestRadiusPx);
        if (!SmallCholesky.TryFactor(normal, Unknowns)) return null;
        return new EdgeFit(Shape(unknowns), Sigma(normal, 0, variance), Sigma(normal, RadiusUnknown, variance), sum, count, isLit);
    }

    /// <summary>Takes an unknown out of the system: it keeps its value.</summary>
    private static void Hold(int unknown, Span<double> normal, Span<double> gradient)
    {
        for (int k = 0; k < Unknowns; k++) normal[unknown * Unknowns + k] = normal[k * Unknowns + unknown] = 0;
        normal[unknown * Unknowns + unknown] = 1;
        gradient[unknown] = 0;
    }

    private static double Sigma(ReadOnlySpan<double> factor, int unknown, double variance)
    {
        Span<double> e = stackalloc double[Unknowns];
        e.Clear();
        e[unknown] = 1;
        SmallCholesky.Solve(factor, Unknowns, e);
        return Math.Sqrt(variance * e[unknown]);
    }

    private double Residuals(EdgeBlock block, in RoundingLight light, in EdgeOptics optics, bool isLit, ReadOnlySpan<double> unknowns, List<double> residuals)
    {
        ReadOnlySpan<double> profile = _model.Evaluate(Shape(unknowns), optics, light, isLit);
        CollectionsMarshal.SetCount(residuals, block.Tones.Length);
        Span<double> r = CollectionsMarshal.AsSpan(residuals);
        ReadOnlySpan<double> tones = block.Tones;
        ReadOnlySpan<EdgeProfileModel.GridPlace> places = block.Places;
        double sum = 0;
        for (int i = 0; i < r.Length; i++)
        {
            r[i] = tones[i] - places[i].In(profile);
            sum += r[i] * r[i];
        }
        return sum;
    }

    /// <summary>Normal equations about the unknowns, whose residuals stand in <see cref="_residuals"/>; derivatives by forward difference of whole profiles.</summary>
    private void Linearise(EdgeBlock block, in RoundingLight light, in EdgeOptics optics, bool isLit, ReadOnlySpan<double> unknowns, Span<double> normal, Span<double> gradient)
    {
        ReadOnlySpan<double> tones = block.Tones;
        ReadOnlySpan<EdgeProfileModel.GridPlace> places = block.Places;
        int count = tones.Length;
        CollectionsMarshal.SetCount(_jacobian, Unknowns * count);
        Span<double> jacobian = CollectionsMarshal.AsSpan(_jacobian);
        ReadOnlySpan<double> residuals = CollectionsMarshal.AsSpan(_residuals);
        Span<double> moved = stackalloc double[Unknowns];
        for (int k = 0; k < Unknowns; k++)
        {
            unknowns.CopyTo(moved);
            moved[k] += Probe[k];
            ReadOnlySpan<double> profile = _model.Evaluate(Shape(moved), optics, light, isLit);
            double perProbe = 1 / Probe[k];
            Span<double> column = jacobian.Slice(k * count, count);
            for (int i = 0; i < count; i++) column[i] = (places[i].In(profile) - (tones[i] - residuals[i])) * perProbe;
        }
        for (int a = 0; a < Unknowns; a++)
        {
            ReadOnlySpan<double> ja = jacobian.Slice(a * count, count);
            gradient[a] = Dot(ja, residuals);
            for (int b = 0; b <= a; b++) normal[a * Unknowns + b] = normal[b * Unknowns + a] = Dot(ja, jacobian.Slice(b * count, count));
        }
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        Vector<double> sums = Vector<double>.Zero;
        int i = 0;
        for (; i <= a.Length - Vector<double>.Count; i += Vector<double>.Count) sums += new Vector<double>(a[i..]) * new Vector<double>(b[i..]);
        double sum = Vector.Sum(sums);
        for (; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }

    private static void Confine(Span<double> unknowns)
    {
        unknowns[0] = Math.Clamp(unknowns[0], -GreatestOffsetPx, GreatestOffsetPx);
        unknowns[1] = Math.Clamp(unknowns[1], 0, GreatestRadiusPx);
        unknowns[2] = Math.Clamp(unknowns[2], 0, 1.5);
        unknowns[4] = Math.Clamp(unknowns[4], 0, 1);
    }

    private static EdgeShape Shape(ReadOnlySpan<double> u) => new(u[0], u[1], u[2], u[3], u[4]);
}
