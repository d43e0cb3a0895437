using System.Collections.Immutable;
using EdgeLens.Accuracy.Comparing;
using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Tests.AccuracyBench;

/// <summary>
/// A made working end: sides ± 0.5 mm from the heel to z = 4.5, closed by a half circle to the apex at z = 5; and a program that measures it with a known error.
/// The true camera looks down from 100 mm with f = 10000 px: 0.01 mm per pixel. The program counts z from somewhere else, as it may.
/// </summary>
internal sealed class MadeFace
{
    public const double HalfWidthMm = 0.5, ApexZMm = 5, MmPerPx = 0.01, OtherOriginMm = 0.37;

    /// <summary>Along the true U.</summary>
    public static double ApexArcMm => 4.5 + HalfWidthMm * Math.PI / 2;

    /// <summary>The truth, with metal taken off all round (mm), nicks and edge radii.</summary>
    public static FaceTruth Truth(double lossMm = 0, ImmutableArray<NickTruth>? nicks = null, Func<double, double>? edgeRadiusUm = null)
    {
        Vector2[] outline = Outline(lossMm, 700, 0);
        double[] arcs = [.. new Curve([.. outline]).Arcs];
        WorkingEndTruth end = new(
            ApexZMm - lossMm, ApexZMm, [0.5, 1.0], [2 * Side(ApexZMm - 0.5, lossMm), 2 * Side(ApexZMm - 1.0, lossMm)], HalfWidthMm - lossMm, 0.7, Pairs(outline),
            [.. arcs.Select(arc => ImmutableArray.Create(arc, edgeRadiusUm?.Invoke(arc) ?? 3))], arcs[Array.IndexOf(outline, outline.MaxBy(p => p.Y))], nicks ?? []);
        DriftTruth? drift = lossMm == 0 ? null : new([2000 * lossMm, 2000 * lossMm], 1000 * lossMm, 10);
        // Right of the picture is +z of the blade, down is -x, and the face (+y) looks at the camera: no mirror, as in every photograph.
        ImmutableArray<ImmutableArray<double>> camera = [[0, 0, 1, -2.5], [-1, 0, 0, 0], [0, -1, 0, 100], [0, 0, 0, 1]];
        return new(new PhotoTruth(new(10000, 1199.5, 899.5, 0.1), camera, end, drift));
    }

    /// <summary>A measurement whose outline stands outside the true one by <paramref name="outsideMm"/> everywhere.</summary>
    public static SeenFace Seen(FaceTruth truth, double outsideMm = 0, double standardUncertaintyUm = 2, double lossMm = 0, double fromArcMm = 0,
        IEnumerable<(double ArcMm, double DepthUm)>? nicks = null, double? leftLightUm = null)
    {
        Vector2[] outline = Outline(lossMm - outsideMm, 1500, fromArcMm);
        Curve curve = new([.. outline]);
        OutlinePoint[] points = [.. outline.Select((p, i) => new OutlinePoint(new(p.X, p.Y - OtherOriginMm), curve.Arcs[i], curve.DirectionAt(i).Perpendicular, standardUncertaintyUm))];
        Figure none = Figure.Missing("not made");
        EdgeLightSummary[] light = leftLightUm is { } um ? [new(EdgePart.Left, none, new Measured(um, 1), [], EdgeRadiusSummary.Missing("not made"))] : [];
        FaceMeasurement measurement = new(
            new("made.jpg", "", 2400, 1800), InstrumentFamily.UniversalCurette,
            new(MmPerPx, 0.008, 100, 0.1, new(0, 0.1), new(100, 1), new(0, 0.9)), new(new(10, 1), 0, 0.02, 0.2),
            new([.. points], Array.IndexOf(points, points.MaxBy(p => p.Position.ZMm)), Similarity.Identity), [], ApexZMm - OtherOriginMm, none, none, none,
            [.. (nicks ?? []).Select(n => new Nick(EdgePart.Left, 0, n.ArcMm, new(n.DepthUm, 3), new(0.3, 0.05)))], new([], [.. light], "made"));
        return new(measurement, place => ToPixel(truth.Pixel(new(place.XMm, place.ZMm + OtherOriginMm))), _ => MmPerPx * 1.002);
    }

    public static FaceCase Case(FaceTruth truth, SeenFace? seen, BaselineCase? baseline = null, DriftMeasurement? drift = null) =>
        new(FamilyTraits.Of(InstrumentFamily.UniversalCurette), truth, seen, baseline, drift);

    private static PixelPoint ToPixel(Vector2 p) => new(p.X, p.Y);

    private static ImmutableArray<ImmutableArray<double>> Pairs(Vector2[] points) => [.. points.Select(p => ImmutableArray.Create(p.X, p.Y))];

    private static double Side(double z, double loss) => z <= 4.5 ? HalfWidthMm - loss : Math.Sqrt((HalfWidthMm - loss) * (HalfWidthMm - loss) - (z - 4.5) * (z - 4.5));

    /// <summary>The U at a distance inside the as-new one, evenly along its arc; left side first.</summary>
    private static Vector2[] Outline(double inside, int count, double fromArcMm)
    {
        double radius = HalfWidthMm - inside, length = 9 + Math.PI * radius;
        return
        [
            .. Enumerable.Range(0, count).Select(i => fromArcMm + (length - fromArcMm) * i / (count - 1)).Select(s =>
            {
                double turn = Math.Clamp((s - 4.5) / radius, 0, Math.PI), along = s <= 4.5 ? s : s - 4.5 < Math.PI * radius ? 4.5 : length - s;
                return new Vector2(radius * Math.Cos(turn), along + radius * Math.Sin(turn));
            }),
        ];
    }
}
