using System.Collections.Immutable;

namespace EdgeLens.Assessment.Decision;

/// <summary>What to do with a working end, from the mildest to the most severe: of several findings that are clear, the most severe one holds.</summary>
public enum VerdictKind
{
    /// <summary>Every figure that would call for work is shown to be inside its limit.</summary>
    Keep,

    /// <summary>Nothing calls for work, but the photograph does not prove that nothing does; or it was refused.</summary>
    Retake,

    /// <summary>A few light strokes on the stretch that is named.</summary>
    TouchUp,

    /// <summary>The edge is ground along its whole length.</summary>
    Resharpen,

    /// <summary>Too much metal is gone. Only ever said when the loss is clear of its limit.</summary>
    Retire,
}

/// <summary>The judgement on one working end.</summary>
/// <param name="Kind">What to do.</param>
/// <param name="Headline">The same in a few words, with the edge that is meant.</param>
/// <param name="Reasons">What decided, the most severe first; then what is open. For <see cref="VerdictKind.Keep"/>: what proves it.</param>
/// <param name="Remarks">What the verdict does not rest on, and why: no baseline, working edge not known ...</param>
/// <param name="NextSteps">What to do now, in order, one sentence each or a little more.</param>
/// <param name="Checks">Every figure that was held against a limit.</param>
/// <param name="PolicyName">Whose limits.</param>
public sealed record Verdict(
    VerdictKind Kind,
    string Headline,
    ImmutableArray<VerdictReason> Reasons,
    ImmutableArray<string> Remarks,
    ImmutableArray<string> NextSteps,
    ImmutableArray<LimitCheck> Checks,
    string PolicyName)
{
    /// <summary>Name of the verdict in files and on the command line: keep, retake, touch-up, resharpen, retire.</summary>
    public string KindName => Kind switch
    {
        VerdictKind.Keep => "keep",
        VerdictKind.Retake => "retake",
        VerdictKind.TouchUp => "touch-up",
        VerdictKind.Resharpen => "resharpen",
        _ => "retire",
    };
}

/// <summary>One reason.</summary>
/// <param name="Words">Which figure, value ± U with unit, limit, state, which edge and which stretch; whole sentences.</param>
/// <param name="Check">The comparison behind it; null for a refused photograph.</param>
/// <param name="Open">A more severe limit of the same figure that is not decidable; null for none.</param>
public sealed record VerdictReason(string Words, LimitCheck? Check, LimitCheck? Open = null);
