using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>What the bench has of one figure: how far it was from the truth, and how far it said it might be.</summary>
/// <param name="Error">Measured less true.</param>
/// <param name="StandardUncertainty">As stated, same unit; null where the measurand has none.</param>
public readonly record struct ErrorSample(double Error, double? StandardUncertainty)
{
    /// <summary>Of a stated figure.</summary>
    public static ErrorSample Of(Measured measured, double truth) => new(measured.Value - truth, measured.StandardUncertainty);
}

/// <summary>One measurand in one photograph.</summary>
/// <param name="Samples">Of what was measured.</param>
/// <param name="Missing">How many figures should have been measured and were not.</param>
public sealed record Comparison(ImmutableArray<ErrorSample> Samples, int Missing)
{
    /// <summary>The measurand does not exist in this photograph.</summary>
    public static Comparison NotApplicable { get; } = new([], 0);

    /// <summary>One figure that should have been measured.</summary>
    public static Comparison Of(Measured? measured, double truth) => measured is { } m ? new([ErrorSample.Of(m, truth)], 0) : AllMissing(1);

    /// <summary>Nothing was measured.</summary>
    public static Comparison AllMissing(int count) => new([], count);
}
