using EdgeLens.Assessment.Decision;
using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Inspections;

/// <summary>Where the figures of an inspection come from. Only the first speaks of real steel.</summary>
public enum FigureOrigin
{
    /// <summary>Measured in photographs.</summary>
    Photographs,

    /// <summary>Measured in rendered photographs of a demonstration.</summary>
    RenderedPhotographs,

    /// <summary>Invented for a demonstration: nothing was measured.</summary>
    Invented,
}

/// <summary>When in an instrument's round a photograph was taken.</summary>
public enum InspectionMoment
{
    /// <summary>After a procedure, cleaned.</summary>
    AfterProcedure,

    /// <summary>At the bench, before it is sharpened.</summary>
    BeforeSharpening,

    /// <summary>At the bench, after it was sharpened.</summary>
    AfterSharpening,
}

/// <summary>One working end, inspected on one day by one version of the program. Measuring its photographs again makes a new row.</summary>
public sealed record InspectionEntry : WorkingEndEvent
{
    /// <summary>True for the inspection that later ones are compared with.</summary>
    public bool IsAsNew { get; init; }

    /// <summary>What the user wrote about the condition.</summary>
    public string? Note { get; init; }

    /// <summary>When it was taken; null: not noted.</summary>
    public InspectionMoment? Moment { get; init; }

    /// <summary>Of the program that measured it.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>Whose limits.</summary>
    public required string PolicyName { get; init; }

    /// <summary>Tells policies of one name apart: the first 12 hex digits of the SHA-256 of the family's limits.</summary>
    public required string PolicyFingerprint { get; init; }

    /// <summary>What to do.</summary>
    public required VerdictKind Verdict { get; init; }

    /// <summary>The same in a few words.</summary>
    public required string Headline { get; init; }

    /// <summary>Why, one reason a line.</summary>
    public required string Reasons { get; init; }

    /// <summary>What to do next, one step a line.</summary>
    public required string NextSteps { get; init; }

    /// <summary>Where the figures come from.</summary>
    public required FigureOrigin Origin { get; init; }

    /// <summary>The first inspection of these photographs, where this one measured them again; null for a first one.</summary>
    public long? Remeasures { get; init; }

    /// <summary>The same for all rows about the same photographs.</summary>
    public long Occasion => Remeasures ?? Id;
}
