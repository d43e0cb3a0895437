using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Tests.Inspections;

/// <summary>
/// A working end drawn by formula (straight tapering sides, half a superellipse as toe) that loses metal and reflects light as told. All figures
/// follow from the formula, so a report or verdict can be checked against what went in. The uncertainties are of the size that a macro photograph gives.
/// </summary>
internal sealed record SyntheticWorkingEnd
{
    private const double StepMm = 0.007;
    private const double SampleMm = 0.05;

    public InstrumentFamily Family { get; init; } = InstrumentFamily.UniversalCurette;
    public double LengthMm { get; init; } = 5.4;
    public double HalfWidthAtHeelMm { get; init; } = 0.50;
    public double HalfWidthAtToeMm { get; init; } = 0.42;
    public double ToeLengthMm { get; init; } = 0.42;

    /// <summary>Metal lost along the normal, µm, by part and station.</summary>
    public Func<EdgePart, double, double> LossUm { get; init; } = (_, _) => 0;

    /// <summary>Reflection width, µm, by part and station; null where the light cannot show it.</summary>
    public Func<EdgePart, double, double?> ReflectionUm { get; init; } = (part, _) => part == EdgePart.Toe ? null : 1.2;

    public ImmutableArray<Nick> Nicks { get; init; } = [];

    public FaceMeasurement AsNew() => (this with { LossUm = (_, _) => 0, ReflectionUm = (part, _) => part == EdgePart.Toe ? null : 1.1, Nicks = [] }).Measure("as-new.jpg");

    public FaceMeasurement Today() => Measure("today.jpg");

    public Inspection Inspect(bool withBaseline = true, EdgePart? workingEdge = null, string id = "UC-07", string? note = null)
    {
        FaceMeasurement today = Today();
        DriftMeasurement? drift = withBaseline ? Drift() : null;
        return new()
        {
            InstrumentId = id,
            WorkingEnd = 1,
            Family = Family,
            Date = new(2025, 6, 20),
            WorkingEdge = workingEdge,
            ConditionNote = note,
            Today = today,
            Baseline = withBaseline ? AsNew() : null,
            BaselineDate = withBaseline ? new(2025, 1, 10) : null,
            Drift = drift,
            Verdict = VerdictDecider.Decide(today, drift, Policy.Default, workingEdge),
        };
    }

    public DriftMeasurement Drift()
    {
        FaceMeasurement before = AsNew(), now = Today();
        double endArc = before.Outline.Points[^1].ArcMm;
        List<EdgeLossSample> samples = [];
        for (int i = 0; i * SampleMm <= endArc; i++)
        {
            OutlinePoint p = PointAt(before.Outline, i * SampleMm);
            EdgePart part = PartAt(p.Position);
            double station = Math.Max(LengthMm - p.Position.ZMm, 0);
            samples.Add(new(i * SampleMm, part, station, new Measured(LossUm(part, station) + 1.5 * Math.Sin(i * 1.7), 3)));
        }
        EdgeLossSample[] cutting = [.. samples.Where(s => !FamilyTraits.Of(Family).TipCuts || s.Part == EdgePart.Toe)];
        ImmutableArray<StationWidthLoss> widths =
        [
            .. before.Widths.Zip(now.Widths).Select(w => new StationWidthLoss(
                w.First.StationMm, new((w.First.WidthMm.Value - w.Second.WidthMm.Value) * 1000, 4.2), new(100 * (1 - w.Second.WidthMm.Value / w.First.WidthMm.Value), 0.5))),
        ];
        double areaLoss = 100 * (1 - Area(now.Outline) / Area(before.Outline));
        double length = (before.Outline.Apex.Position.ZMm - now.Outline.Apex.Position.ZMm) * 1000;
        return new(
            Similarity.Identity, 1.9, [.. samples],
            new Measured(cutting.Max(s => s.LossUm.Measured!.Value.Value), 4), new Measured(cutting.Average(s => s.LossUm.Measured!.Value.Value), 2.5), widths,
            new Measured(length, 9), new Measured(areaLoss, 0.4), new Measured(4 + cutting.Max(s => LossUm(s.Part, s.StationMm)) / 10, 1.5))
        {
            Budgets = [new("lengthLossUm", null, new([new("registration", 8), new("apex", 4)])), new("widthLossUm", 2, new([new("noise", 4.2)]))],
        };
    }

    private FaceMeasurement Measure(string fileName)
    {
        Outline outline = Trace();
        double apexZ = LengthMm;
        ImmutableArray<StationWidth> widths =
        [
            .. Enumerable.Range(1, (int)(0.8 * LengthMm / 0.5)).Select(i => i * 0.5)
                .Select(s => (Station: s, Width: WidthAt(outline, apexZ - s))).Where(w => w.Width > 0)
                .Select(w => new StationWidth(w.Station, new(w.Width, Quadrature.Sum(0.0045 * w.Width, 0.003)), 0.003)),
        ];
        bool isScaler = Family == InstrumentFamily.UniversalScaler, tipCuts = FamilyTraits.Of(Family).TipCuts;
        return new(
            new(fileName, new string('a', 64), 4000, 3000), Family,
            new(0.0067, 0.0045, 188, 0.08, new(4.2, 0.3), new(102, 0.5), new(0, 0.87)), new(new Measured(9.1, 0.6), 0, 0.011, 0.12),
            outline, widths, apexZ,
            isScaler || tipCuts ? Figure.Missing("a toe radius belongs to curettes") : new Measured(419, 6),
            isScaler ? new Measured(142, 5) : Figure.Missing("a tip width belongs to scalers"),
            tipCuts ? new Measured(1.62, 0.05) : Figure.Missing("a tip arc belongs to luxators and elevators"),
            Nicks, Light(outline));
    }

    private Outline Trace()
    {
        List<(BladePoint Position, Vector2 Inward)> left = [];
        double fromZ = 0.2 * LengthMm, shoulderZ = LengthMm - ToeLengthMm;
        for (double z = fromZ; z < shoulderZ; z += StepMm) left.Add(Side(z));
        for (double z = shoulderZ, t = 0; t < 1; t += StepMm / (2 * ToeLengthMm)) left.Add(Toe(Math.Min(t, 1)));
        left.Add(Toe(1));
        List<(BladePoint Position, Vector2 Inward)> whole = [.. left, .. left.AsEnumerable().Reverse().Skip(1).Select(p => (new BladePoint(-p.Position.XMm, p.Position.ZMm), new Vector2(-p.Inward.X, p.Inward.Y)))];

        ImmutableArray<OutlinePoint>.Builder points = ImmutableArray.CreateBuilder<OutlinePoint>(whole.Count);
        double arc = 0;
        for (int i = 0; i < whole.Count; i++)
        {
            (BladePoint p, Vector2 n) = whole[i];
            double loss = LossUm(PartAt(p), Math.Max(LengthMm - p.ZMm, 0)) / 1000;
            BladePoint worn = new(p.XMm + loss * n.X, p.ZMm + loss * n.Y);
            if (i > 0) arc += new Vector2(worn.XMm - points[^1].Position.XMm, worn.ZMm - points[^1].Position.ZMm).Length;
            points.Add(new(worn, arc, n, 1.1));
        }
        int apex = Enumerable.Range(0, points.Count).MaxBy(i => points[i].Position.ZMm);
        return new(points.ToImmutable(), apex, Similarity.Identity);
    }

    private (BladePoint, Vector2) Side(double z)
    {
        double slope = (HalfWidthAtToeMm - HalfWidthAtHeelMm) / (LengthMm - ToeLengthMm);
        return (new(HalfWidthAtHeelMm + slope * z, z), new Vector2(-1, slope).Unit);
    }

    /// <summary>Superellipse of exponent 2.4; t runs from the shoulder (0) to the apex (1).</summary>
    private (BladePoint, Vector2) Toe(double t)
    {
        const double Exponent = 2.4;
        (double s, double c) = Math.SinCos(t * Math.PI / 2);
        double x = HalfWidthAtToeMm * Math.Pow(Math.Max(c, 0), 2 / Exponent), z = ToeLengthMm * Math.Pow(s, 2 / Exponent);
        Vector2 gradient = new(Math.Pow(x / HalfWidthAtToeMm, Exponent - 1) / HalfWidthAtToeMm, Math.Pow(z / ToeLengthMm, Exponent - 1) / ToeLengthMm);
        return (new(x, LengthMm - ToeLengthMm + z), -1 * gradient.Unit);
    }

    private EdgePart PartAt(BladePoint p)
    {
        Vector2 fromToeCentre = new(p.XMm, p.ZMm - (LengthMm - ToeLengthMm));
        if (fromToeCentre.Y > 0 && Math.Atan2(Math.Abs(fromToeCentre.X), fromToeCentre.Y) <= Math.PI / 3) return EdgePart.Toe;
        return p.XMm > 0 ? EdgePart.Left : EdgePart.Right;
    }

    // A third of the radius is as bright as fully lit steel (docs/physics/edge-profile.md).
    private const double RadiusPerWidth = 3;

    private EdgeLight Light(Outline outline)
    {
        PolicyLimits limits = Policy.Default.For(Family);
        EdgeLightFigures figures = new(limits.SharpLimitUm, 0.04, 0.04);
        List<LightSample> samples = [];
        for (double arc = 0; arc <= outline.Points[^1].ArcMm; arc += EdgeLightFigures.StepMm)
        {
            BladePoint p = PointAt(outline, arc).Position;
            EdgePart part = PartAt(p);
            double station = Math.Max(LengthMm - p.ZMm, 0);
            Figure width = ReflectionUm(part, station) is { } w ? new Measured(w + 0.3 * Math.Sin(arc * 40), 0.3 + 0.04 * w) : Figure.Missing("no panel stands where this part of the edge would mirror it");
            samples.Add(new(arc, part, station, width, width.Measured is { } m ? m.Scale(RadiusPerWidth) : width));
        }
        EdgePart[] cutting = FamilyTraits.Of(Family).TipCuts ? [EdgePart.Toe] : [EdgePart.Left, EdgePart.Toe, EdgePart.Right];
        return new([.. samples], [.. cutting.Select(p => figures.Sum(p, [.. samples.Where(s => s.Part == p)]))], "fully lit steel, from the shank") { SharpLimitUm = limits.SharpLimitUm };
    }

    private static OutlinePoint PointAt(Outline outline, double arcMm)
    {
        int after = outline.Points.BinarySearch(new OutlinePoint(default, arcMm, default, 0), Comparer<OutlinePoint>.Create((a, b) => a.ArcMm.CompareTo(b.ArcMm)));
        return outline.Points[Math.Min(after < 0 ? ~after : after, outline.Points.Length - 1)];
    }

    private static double WidthAt(Outline outline, double z)
    {
        // The point nearest in z: points lie 7 µm apart, and the sides run along z, so x is right to a fraction of a micrometre.
        double X(IEnumerable<OutlinePoint> side) => side.MinBy(p => Math.Abs(p.Position.ZMm - z)).Position.XMm;
        return z >= outline.Apex.Position.ZMm ? 0 : X(outline.Points.Take(outline.ApexIndex + 1)) - X(outline.Points.Skip(outline.ApexIndex));
    }

    private static double Area(Outline outline)
    {
        double twice = 0;
        for (int i = 0; i < outline.Points.Length; i++)
        {
            BladePoint a = outline.Points[i].Position, b = outline.Points[(i + 1) % outline.Points.Length].Position;
            twice += a.XMm * b.ZMm - b.XMm * a.ZMm;
        }
        return Math.Abs(twice) / 2;
    }
}
