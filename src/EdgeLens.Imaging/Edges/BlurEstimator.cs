using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Edges;

/// <summary>
/// The blur of a photograph from its own edges: the one standard deviation under which the blocks' profiles together are most likely,
/// each with its own offset, light, levels and noise.
/// </summary>
/// <remarks>
/// Profile likelihood: with noise variance free per block, -2 ln L = Σ n ln(S / n). The uncertainty is its curvature, widened by the
/// correlation of neighbouring pixels' noise (sharpening and JPEG leave about one independent value in <see cref="PixelsPerDegree"/>).
/// </remarks>
public static class BlurEstimator
{
    /// <summary>Pixels per independent noise value.</summary>
    public const double PixelsPerDegree = 3;

    // A pixel's own square is worth 0.29 px and no lens is sharper than a pixel's diffraction adds; beyond 5 px no edge is worth fitting (17 µm, the gate's limit, are 1 to 4 px).
    private const double LeastPx = 0.4;
    private const double GreatestPx = 5;

    /// <summary>Best blur for the blocks.</summary>
    /// <param name="blocks">A sample of the edge, some tens.</param>
    /// <param name="sharpening">Of the photograph.</param>
    public static Measured Estimate(IReadOnlyList<EdgeBlock> blocks, Sharpening sharpening)
    {
        ArgumentNullException.ThrowIfNull(blocks);
        // Every fit starts afresh: from a solution under a smaller blur the way leads into a rounding that stands in for the rest of the blur.
        (double best, double curvature) = ParabolicMinimum.Search(Cost, LeastPx, GreatestPx);
        double sigma = curvature > 0 ? Math.Sqrt(2 * PixelsPerDegree / curvature) : best;
        return new Measured(best, Math.Min(sigma, best));

        double Cost(double blurPx)
        {
            double[] costs = new double[blocks.Count];
            Parallel.For(0, costs.Length, () => new EdgeFitter(), (i, _, fitter) =>
            {
                EdgeOptics optics = new(blurPx, sharpening);
                // Without light on it an edge does not bound the blur from above (docs/physics/edge-profile.md) unless its radius is held as new.
                if ((blocks[i].FacesPanel ? fitter.Fit(blocks[i], optics, true) : fitter.FitHeld(blocks[i], optics, EdgeStrip.UnseenRadiusPx)) is { } fit) costs[i] = fit.PixelCount * Math.Log(Math.Max(fit.SumOfSquares, 1e-12) / fit.PixelCount);
                return fitter;
            }, _ => { });
            // Summed in order, so that the result does not depend on the threads.
            return costs.Sum();
        }
    }
}
