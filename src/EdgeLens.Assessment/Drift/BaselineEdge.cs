using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Assessment.Drift;

/// <summary>The as-new outline read at even steps, and which of it is reference and which cuts.</summary>
internal sealed class BaselineEdge
{
    // A cutting arc ends where its normal has turned this far from the axis: 60° from a toe's centre (measurands.md); the tip arc of a
    // luxator or elevator is taken on to where it runs into the side.
    private const double ToeHalfAngleDeg = 60, TipHalfAngleDeg = 75;

    private BaselineEdge(OutlineCurve curve, EdgePlace[] samples, double[] offsets, EdgePart[] parts, bool[] cuts, double referenceEndZMm)
    {
        Curve = curve;
        Samples = samples;
        Offsets = offsets;
        Parts = parts;
        Cuts = cuts;
        ReferenceEndZMm = referenceEndZMm;
    }

    public OutlineCurve Curve { get; }

    /// <summary>Every step of arc from the first point.</summary>
    public EdgePlace[] Samples { get; }

    /// <summary>Where the averaged outline lies at each sample, mm inwards of the raw one.</summary>
    public double[] Offsets { get; }

    public EdgePart[] Parts { get; }

    /// <summary>True on the cutting edges.</summary>
    public bool[] Cuts { get; }

    public double ReferenceEndZMm { get; }

    public double ApexZMm => Curve.ApexZMm;

    public double ApexArcMm => Curve.ApexArcMm;

    /// <summary>Indices of the samples that do not wear.</summary>
    public required int[] Reference { get; init; }

    public static BaselineEdge Of(FaceMeasurement baseline, FamilyTraits traits, DriftOptions options)
    {
        OutlineCurve curve = OutlineCurve.Of(baseline.Outline);
        (double apexZ, double apexArc) = (curve.ApexZMm, curve.ApexArcMm);
        double end = apexZ * (traits.TipCuts ? options.TipCuttingReferenceShare : options.ReferenceShare);
        int count = (int)(curve.Line.Length / options.SampleStepMm) + 1;
        EdgePlace[] samples = [.. Enumerable.Range(0, count).Select(i => curve.PlaceAt(i * options.SampleStepMm))];
        double[] offsets = [.. samples.Select(s => curve.Line.SmoothCrossing(s.Position, s.Inward, options.HalfWindowMm, options.HalfWindowMm)?.Distance ?? 0)];
        EdgePart[] parts = [.. samples.Select(s => s.ArcMm < apexArc ? EdgePart.Left : EdgePart.Right)];
        bool[] turned = [.. samples.Select(s => -s.Inward.Y > Math.Cos((traits.TipCuts ? TipHalfAngleDeg : ToeHalfAngleDeg) * Math.PI / 180))];
        int apex = Math.Clamp((int)Math.Round(apexArc / options.SampleStepMm), 0, count - 1);
        for (int i = apex; i < count && turned[i]; i++) parts[i] = EdgePart.Toe;
        for (int i = apex; i >= 0 && turned[i]; i--) parts[i] = EdgePart.Toe;
        // Where only the tip cuts, whatever faces forward cuts: the tip arc, and the wing fronts of a winged elevator.
        bool[] cuts = [.. samples.Select((s, i) => traits.TipCuts ? turned[i] && s.Position.Y > end : s.Position.Y > end)];
        int[] reference = [.. Enumerable.Range(0, count).Where(i => samples[i].Position.Y <= end && samples[i].Position.Y >= -(traits.TipCuts ? options.TipCuttingNeckReachMm : options.NeckReachMm))];
        return new(curve, samples, offsets, parts, cuts, end) { Reference = reference };
    }
}
