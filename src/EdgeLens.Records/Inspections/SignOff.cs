using EdgeLens.Records.Entries;

namespace EdgeLens.Records.Inspections;

/// <summary>The lead clinician's word on an inspection. A plain comment leaves <see cref="Agrees"/> open.</summary>
public sealed record SignOff : Entry
{
    /// <summary>The inspection's row.</summary>
    public required long InspectionId { get; init; }

    /// <summary>True: do as the verdict says; false: do as the comment says; null: a comment only.</summary>
    public bool? Agrees { get; init; }

    /// <summary>In the clinician's words; must be there unless <see cref="Agrees"/> is true.</summary>
    public string? Comment { get; init; }
}
