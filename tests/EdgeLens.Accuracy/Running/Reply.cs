using EdgeLens.Accuracy.Comparing;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Accuracy.Running;

/// <summary>What the program said to one photograph.</summary>
/// <param name="Seen">The measurement; null when it was refused.</param>
/// <param name="Refusal">Why.</param>
/// <param name="Drift">Against the baseline, if there was one.</param>
/// <param name="DriftRefusal">Why there is no drift though there was a baseline.</param>
/// <param name="Verdict">Null after a crash.</param>
/// <param name="Seconds">From the file to the verdict.</param>
public sealed record Reply(SeenFace? Seen, Refusal? Refusal, DriftMeasurement? Drift, Refusal? DriftRefusal, VerdictKind? Verdict, double Seconds)
{
    /// <summary>From a toe or side view; null when it was refused.</summary>
    public AngleMeasurement? Angles { get; init; }

    /// <summary>The view that the program took the photograph for without being told; null when it saw no steel.</summary>
    public PhotographView? View { get; init; }

    /// <summary>Stands for a refusal's code when the program threw.</summary>
    public const string CrashCode = "crashed";
}
