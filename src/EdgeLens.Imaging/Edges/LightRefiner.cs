namespace EdgeLens.Imaging.Edges;

/// <summary>
/// Finds the level of lit steel on the edge itself where the shank does not tell it (no highlight, or a clipped one) and the edge is dull enough: a band as wide as
/// the blur has a plateau, and the level under which the dull blocks are most likely is weighed against what was supposed.
/// </summary>
public static class LightRefiner
{
    // A highlight's plateau is known to a tenth, better than a narrow band tells (on rendered photographs a band of 0.7 px told a level 20 % off): only a level less sure is refined.
    private const double SureRelative = 0.15;

    // From this radius on the lit band (a third of it) is about as wide as the blur, and its height tells apart from its width.
    private const double DullRadiusPx = 3;

    // Fewer blocks may be a nick or a scratch; beyond 24 the 5 % below are the limit, not noise.
    private const int LeastBlocks = 4;
    private const int MostBlocks = 24;

    // Two to three standard deviations of the most uncertain level that is handed in (0.3, relative).
    private const double FactorLimit = 1.8;

    /// <summary>The refined light; the given one where the edge is sharp.</summary>
    /// <param name="light">From the shank.</param>
    /// <param name="blocks">Of the edge.</param>
    /// <param name="facing">Indices of the blocks that mirror the whole of this panel.</param>
    /// <param name="points">Their fit under that light.</param>
    /// <param name="optics">Of the photograph.</param>
    public static SteelLight Refine(SteelLight light, IReadOnlyList<EdgeBlock> blocks, IReadOnlyList<int> facing, IReadOnlyList<EdgeTracePoint?> points, EdgeOptics optics)
    {
        ArgumentNullException.ThrowIfNull(light);
        if (light.LitLevelRelativeUncertainty <= SureRelative) return light;
        int[] dull = [.. facing.Where(i => points[i] is { IsLit: true } p && p.RadiusPx > DullRadiusPx)];
        if (dull.Length < LeastBlocks) return light;
        int stride = Math.Max(1, dull.Length / MostBlocks);
        int[] sample = [.. dull.Where((_, k) => k % stride == 0)];
        EdgeFitter fitter = new();
        EdgeShape[] starts = [.. sample.Select(i => new EdgeShape(0, points[i]!.Value.RadiusPx, points[i]!.Value.FaceLevel, 0, points[i]!.Value.GroundLevel))];
        double prior = light.LitLevelRelativeUncertainty;
        (double factor, double curvature) = ParabolicMinimum.Search(Cost, 1 / FactorLimit, FactorLimit);
        // Curvature of -2 ln L in the factor; never better than the model itself, which knows steel's brightness along a band to about 5 %.
        double relative = Math.Max(0.05, curvature > 0 ? Math.Min(prior, Math.Sqrt(2 / curvature) / factor) : prior);
        return light with { LitLevel = light.LitLevel * factor, LitLevelRelativeUncertainty = relative, Source = light.Source + ", refined on the dull edge" };

        double Cost(double f)
        {
            double cost = Math.Pow(Math.Log(f) / prior, 2);
            for (int k = 0; k < sample.Length; k++)
            {
                EdgeBlock block = blocks[sample[k]];
                if (fitter.Fit(block, block.Light with { LitLevel = block.Light.LitLevel * f }, optics, starts[k]) is not { } fit) continue;
                starts[k] = fit.Shape;
                cost += fit.PixelCount / BlurEstimator.PixelsPerDegree * Math.Log(Math.Max(fit.SumOfSquares, 1e-12) / fit.PixelCount);
            }
            return cost;
        }
    }
}
