using EdgeLens.Geometry.Figures;
using MathNet.Numerics.LinearAlgebra;

namespace EdgeLens.Assessment.Drift;

/// <summary>
/// Budget of any figure of drift. A figure is, to first order, a weighted sum of displacements of today's and the baseline's outline at some
/// places; the registration adds -g·A times the displacements of the reference (<see cref="OutlineRegistration"/>), g being what a movement of
/// today's outline does to the figure. Every error source is put through that sum as a whole, so correlations are kept.
/// </summary>
internal sealed class DriftUncertainty
{
    // JCGM 100 G.4.2: a standard deviation believed to within a quarter has 1/2 · (1/4)^-2 = 8 degrees of freedom.
    private const double Believed = 8;

    private readonly OutlineRegistration _registration;
    private readonly double _baselineScale;
    private readonly Source[] _sources;
    private readonly Vector<double> _scaleAtReference;
    private readonly Vector<double>[] _patternsAtReference;

    /// <param name="registration">With its reference.</param>
    /// <param name="baselineScale">Relative standard uncertainty of the baseline's lengths, which a loss in µm inherits.</param>
    public DriftUncertainty(OutlineRegistration registration, double baselineScale)
    {
        (_registration, _baselineScale) = (registration, baselineScale);
        Matrix<double> a = registration.Gain;
        (ReferenceOutline today, ReferenceOutline baseline) = (registration.Reference.Today, registration.Reference.Baseline);
        _sources =
        [
            new("noise of today's outline", double.PositiveInfinity, today.Places, today.Noise.Fast, a, OfToday: true),
            new("noise of the as-new outline", double.PositiveInfinity, baseline.Places, baseline.Noise.Fast, a, OfToday: false),
            new("light on today's edge", Believed, today.Places, today.Noise.Slow, a, OfToday: true),
            new("light on the as-new edge", Believed, baseline.Places, baseline.Noise.Slow, a, OfToday: false),
        ];
        _scaleAtReference = a * At(Errors.Scale, baseline.Places);
        _patternsAtReference = [.. Errors.Patterns.Select(p => a * At(p, baseline.Places))];
    }

    private EdgeErrors Errors => _registration.Reference.Errors;

    /// <summary>Budget of a figure in the unit of the weights.</summary>
    /// <param name="today">Change of the figure per mm that today's outline is displaced inwards.</param>
    /// <param name="baseline">The same for the baseline.</param>
    /// <param name="lengthInFigure">The figure itself where it is a length (it inherits the baseline's scale), 0 where it is a ratio.</param>
    public UncertaintyBudget BudgetOf(IReadOnlyList<Weighted> today, IReadOnlyList<Weighted> baseline, double lengthInFigure)
    {
        Vector<double> weights = Vector<double>.Build.DenseOfEnumerable(today.Select(w => w.Weight));
        Vector<double> g = OutlineRegistration.Jacobian([.. today.Select(w => w.Place)], Errors.Pivot).TransposeThisAndMultiply(weights);
        List<UncertaintyContribution> lines = [];
        foreach (Source s in _sources) lines.Add(new(s.Name, Math.Sqrt(s.Variance(s.OfToday ? today : baseline, s.OfToday ? g : -g)), 1, s.DegreesOfFreedom) { Origin = OriginOf(!s.OfToday), Remedy = RemedyOf(!s.OfToday) });
        Vector<double> own = g * _registration.Gain;
        lines.Add(new("wear of the reference and height of the neck", Math.Sqrt(own * _registration.OwnCovariance * own), 1, Believed));
        if (_registration.Reference.FaceEnd is { } end) lines.Add(new("end of the face at the heel", end.UncertaintyMm, g * _registration.FaceEndGain, Believed));
        double perScale = Line(Errors.Scale, today, g, _scaleAtReference).Sensitivity;
        foreach (UncertaintyContribution part in Errors.ScaleParts) lines.Add(part with { Sensitivity = perScale });
        for (int i = 0; i < Errors.Patterns.Count; i++) lines.Add(Line(Errors.Patterns[i], today, g, _patternsAtReference[i]));
        if (lengthInFigure != 0) lines.Add(new("scale of the as-new photograph", _baselineScale, lengthInFigure) { Origin = ContributionOrigin.AsNew });
        return new([.. lines]);
    }

    private static UncertaintyContribution Line(ErrorPattern pattern, IReadOnlyList<Weighted> today, Vector<double> g, Vector<double> gainTimesReference) =>
        new(pattern.Name, pattern.Amount.StandardUncertainty, today.Sum(w => w.Weight * pattern.DisplacementMm(w.Place)) - g.DotProduct(gainTimesReference)) { Origin = OriginOf(pattern.IsOfAsNew), Remedy = RemedyOf(pattern.IsOfAsNew) };

    private static ContributionRemedy RemedyOf(bool isOfAsNew) => isOfAsNew ? ContributionRemedy.None : ContributionRemedy.AnotherPhotograph;

    private static ContributionOrigin OriginOf(bool isOfAsNew) => isOfAsNew ? ContributionOrigin.AsNew : ContributionOrigin.Today;

    private static Vector<double> At(ErrorPattern pattern, EdgePlace[] places) => Vector<double>.Build.DenseOfEnumerable(places.Select(pattern.DisplacementMm));

    /// <summary>An error that varies along one photograph's edge, with its covariance between places.</summary>
    private sealed record Source(string Name, double DegreesOfFreedom, EdgePlace[] Reference, Func<EdgePlace, EdgePlace, double> Covariance, Matrix<double> Gain, bool OfToday)
    {
        // A K Aᵀ, once for all figures.
        private readonly Matrix<double> _throughGain =
            Gain * Matrix<double>.Build.Dense(Reference.Length, Reference.Length, (i, k) => Covariance(Reference[i], Reference[k])) * Gain.Transpose();

        public double Variance(IReadOnlyList<Weighted> places, Vector<double> g)
        {
            Vector<double> own = g * Gain;
            double direct = 0, cross = 0;
            for (int i = 0; i < places.Count; i++)
            {
                (EdgePlace place, double w) = places[i];
                direct += w * w * Covariance(place, place);
                for (int k = 0; k < i; k++) direct += 2 * w * places[k].Weight * Covariance(place, places[k].Place);
                for (int k = 0; k < Reference.Length; k++) cross += w * own[k] * Covariance(place, Reference[k]);
            }
            return Math.Max(0, direct - 2 * cross + g * _throughGain * g);
        }
    }
}
