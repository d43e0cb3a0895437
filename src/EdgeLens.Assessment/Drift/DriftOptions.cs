using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Drift;

/// <summary>What the comparison with the baseline assumes. Lengths in mm, small ones in µm; standard deviations unless said otherwise.</summary>
public sealed record DriftOptions
{
    /// <summary>The assumptions for photographs as the capture guide asks for them.</summary>
    public static DriftOptions Default { get; } = new();

    /// <summary>Distance of the places where the loss is read, along the baseline (measurands.md).</summary>
    public double SampleStepMm { get; init; } = 0.05;

    /// <summary>Half window of arc over which an outline is averaged at such a place: together they just touch, so that no detail is blurred beyond the step.</summary>
    public double HalfWindowMm { get; init; } = 0.04;

    /// <summary>The reference ends here, as a share of the blade's length from the heel: a quarter does not wear (measurands.md).</summary>
    public double ReferenceShare { get; init; } = 0.25;

    /// <summary>The same where only the tip arc cuts: the sides of a luxator or elevator are not ground, so the rear half serves.</summary>
    public double TipCuttingReferenceShare { get; init; } = 0.5;

    /// <summary>How far behind the heel the root of the shank serves. Further back its silhouette leaves the plane of the face.</summary>
    public double NeckReachMm { get; init; } = 0.4;

    /// <summary>The same where only the tip arc cuts: these necks narrow more slowly and leave the plane later.</summary>
    public double TipCuttingNeckReachMm { get; init; } = 0.8;

    /// <summary>Sharpening that runs out towards the heel, where the reference ends: it grows from nothing at half the reference. Too small a value lets worn steel pull the registration.</summary>
    public double WearAtReferenceEndUm { get; init; } = 30;

    /// <summary>Wear of the reference everywhere: handling, polishing.</summary>
    public double WearOfReferenceUm { get; init; } = 0.5;

    /// <summary>
    /// Height of the neck's silhouette over the plane of the face, mm per mm² behind the heel. A shank that stands up from the face leaves its plane in
    /// an arc of about a millimetre's radius, h = d²/(2R); the straight shank of a luxator or elevator sinks towards the middle of its thickness instead.
    /// </summary>
    public Measured NeckClimbPerMm { get; init; } = new(0.6, 0.3);

    /// <summary>The same where only the tip arc cuts.</summary>
    public Measured TipCuttingNeckClimbPerMm { get; init; } = new(-0.3, 0.4);

    /// <summary>By how much that height differs from the mean on either side, per mm²: a shank that leans to one side, as on an area-specific curette.</summary>
    public double NeckClimbUnevenPerMm { get; init; } = 0.1;

    /// <summary>
    /// How far ahead of the heel, as the outline gives it, the neck begins to leave the plane: the heel is put where the width breaks, and up to 0.4 mm
    /// behind the place where a rounded transition begins (rectangular limits ± 0.2 mm about the middle, but mostly nearer).
    /// </summary>
    public Measured NeckBeginsAheadMm { get; init; } = new(0.15, 0.1);

    /// <summary>What that curve leaves unexplained, as a share of it and its uncertainty together.</summary>
    public double NeckClimbScatter { get; init; } = 0.2;

    /// <summary>Arc over which wear of the reference and the neck's height beyond its curve stay alike.</summary>
    public double ReferenceReachMm { get; init; } = 0.3;

    /// <summary>
    /// Offset of the whole outline in one photograph, inwards or outwards: blur, light on the edge. Half widths of rendered photographs differ from the truth by
    /// 0.5 to 1.3 µm once the scale's own error is known and taken out.
    /// </summary>
    public double CommonEdgeErrorUm { get; init; } = 0.8;

    /// <summary>The face is parallel to the card within ± this, rectangular, in pitch and in bank: laid in the window by hand.</summary>
    public double FaceParallelLimitDeg { get; init; } = 1.2;

    /// <summary>Where the heel is taken to be, which fixes the area's hind limit only: the heel is a soft landmark.</summary>
    public double HeelPlaceMm { get; init; } = 0.1;

    /// <summary>Root mean square of the reference after registration above which the two outlines are not of one working end, or its heel is damaged.</summary>
    public double GreatestResidualUm { get; init; } = 25;
}
