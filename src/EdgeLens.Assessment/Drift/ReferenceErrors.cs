using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;

namespace EdgeLens.Assessment.Drift;

/// <summary>The reference's places on one photograph's outline, with its noise there.</summary>
/// <param name="Places">The same places on the baseline in either photograph.</param>
/// <param name="Noise">The photograph's.</param>
internal sealed record ReferenceOutline(EdgePlace[] Places, EdgeNoise Noise);

/// <summary>The end of the ground face at the heel in both photographs: it does not wear and tells the place along z.</summary>
/// <param name="Place">On the baseline, at the middle of the blade, looking along z.</param>
/// <param name="TodayZMm">In today's own frame.</param>
/// <param name="UncertaintyMm">Standard uncertainty of the difference.</param>
internal sealed record FaceEnd(EdgePlace Place, double TodayZMm, double UncertaintyMm);

/// <summary>The error model worked out on the reference's places. Lengths in mm.</summary>
internal sealed record ReferenceErrors
{
    private ReferenceErrors(ReferenceOutline baseline, ReferenceOutline today, EdgeErrors errors)
    {
        (Baseline, Today, Errors) = (baseline, today, errors);
        Own = Patterns = Shared = null!;
        ExpectedMm = Spread = [];
    }

    public ReferenceOutline Baseline { get; }

    public ReferenceOutline Today { get; }

    public EdgeErrors Errors { get; }

    public EdgePlace[] Places => Baseline.Places;

    /// <summary>Where the ground face ends at the heel, if both photographs show it.</summary>
    public FaceEnd? FaceEnd { get; init; }

    /// <summary>Covariance of what only the reference suffers.</summary>
    public Matrix<double> Own { get; private init; }

    /// <summary>Covariance of what the whole outline suffers.</summary>
    public Matrix<double> Shared { get; private init; }

    /// <summary>Places x patterns: displacement for one standard uncertainty of each.</summary>
    public Matrix<double> Patterns { get; private init; }

    /// <summary>Displacement that the patterns' expected amounts make.</summary>
    public double[] ExpectedMm { get; private init; }

    /// <summary>Standard deviation at each place but for the patterns.</summary>
    public double[] Spread { get; private init; }

    public static ReferenceErrors Of(ReferenceOutline baseline, ReferenceOutline today, EdgeErrors errors, FaceEnd? faceEnd = null)
    {
        EdgePlace[] places = baseline.Places;
        int n = places.Length;
        Matrix<double> own = DenseMatrix.Create(n, n, (i, k) => errors.OfReference(places[i], places[k]));
        Matrix<double> varying = DenseMatrix.Create(n, n, (i, k) => baseline.Noise.Both(places[i], places[k]) + today.Noise.Both(today.Places[i], today.Places[k]));
        Matrix<double> patterns = DenseMatrix.Create(n, errors.Patterns.Count, (i, k) => errors.Patterns[k].Amount.StandardUncertainty * errors.Patterns[k].DisplacementMm(places[i]));
        return new(baseline, today, errors)
        {
            FaceEnd = faceEnd,
            Own = own,
            Shared = varying + patterns.TransposeAndMultiply(patterns),
            Patterns = patterns,
            ExpectedMm = [.. places.Select(p => errors.Patterns.Sum(f => f.Amount.Value * f.DisplacementMm(p)))],
            Spread = [.. (own + varying).Diagonal().Select(Math.Sqrt)],
        };
    }

    /// <summary>The same spread and patterns, taken as independent from place to place.</summary>
    public ReferenceErrors Independent() => new(Baseline, Today, Errors)
    {
        FaceEnd = FaceEnd,
        Own = DenseMatrix.Create(Places.Length, Places.Length, 0),
        Shared = DenseMatrix.Build.DiagonalOfDiagonalArray([.. Spread.Select(s => s * s)]) + Patterns.TransposeAndMultiply(Patterns),
        Patterns = Patterns,
        ExpectedMm = ExpectedMm,
        Spread = Spread,
    };
}
