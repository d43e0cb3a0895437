using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using Xunit;

namespace EdgeLens.Tests.FaceView;

/// <summary>Seeded photographs of a blade by formula, measured from the raw silhouette on; errors against the formula are held against the stated uncertainties.</summary>
internal sealed class Trials
{
    private readonly List<(FaceFigures Figures, double ApexZMm)> _runs = [];

    public Trials(ShapedBlade blade, InstrumentFamily family, int seed, int count)
    {
        FamilyTraits traits = FamilyTraits.Of(family);
        Random random = new(seed);
        for (int k = 0; k < count; k++)
        {
            Similarity cardFromBlade = new(1, 2 * Math.PI * random.NextDouble(), 40, 27);
            Outline outline = FrameFinder.Find(blade.Photograph(cardFromBlade, random, k % 2 == 1), traits).Value;
            _runs.Add((FaceFigures.Measure(outline, traits, 0, null, ShapedBlade.Noise), (outline.BladeFromCard * cardFromBlade).Apply(new(0, blade.LengthMm)).Y));
        }
    }

    public IEnumerable<FaceFigures> Figures => _runs.Select(r => r.Figures);

    /// <summary>Bias, scatter and coverage of one figure.</summary>
    /// <param name="figure">From the figures and the apex's true z.</param>
    /// <param name="truth">Same unit.</param>
    /// <param name="modelBias">Predicted bias of the estimator itself.</param>
    public void Hold(Func<FaceFigures, double, Measured> figure, double truth, double modelBias = 0)
    {
        Measured[] all = [.. _runs.Select(r => figure(r.Figures, r.ApexZMm))];
        double bias = all.Average(m => m.Value) - truth, u = Math.Sqrt(all.Average(m => m.StandardUncertainty * m.StandardUncertainty));
        double sd = Math.Sqrt(all.Average(m => Math.Pow(m.Value - truth - bias, 2)));
        int covered = all.Count(m => Math.Abs(m.Value - truth) <= m.ExpandedUncertainty);
        int n = all.Length;
        string found = FormattableString.Invariant($"bias {bias:g3}, sd {sd:g3}, u {u:g3}, {covered} of {n} within k = 2");
        Assert.True(Math.Abs(bias) <= 3 * u / Math.Sqrt(n) + modelBias, found);
        // Chi square, 99.8 %: sd/u within 1 ± 3.09/√(2n). Too large an uncertainty is wrong as well.
        Assert.True(Math.Abs(sd / u - 1) < 3.09 / Math.Sqrt(2 * n), found);
        Assert.True(covered >= LeastCovered(n), found);
    }

    /// <summary>Of n errors 95.45 % lie within k = 2; this many at least in 99.9 of 100 sets (binomial, normal approximation).</summary>
    public static int LeastCovered(int n) => (int)Math.Floor(0.9545 * n - 3.09 * Math.Sqrt(n * 0.9545 * 0.0455));
}
