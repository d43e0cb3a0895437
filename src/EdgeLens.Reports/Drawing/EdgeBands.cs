using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Reports.Drawing;

/// <summary>How a place of the outline is drawn. Each has its own colour, width and dash, and its words in the legend.</summary>
internal enum Band
{
    /// <summary>Not a cutting edge.</summary>
    Plain,

    /// <summary>Nothing was measured here.</summary>
    Unseen,

    /// <summary>Nothing is wrong.</summary>
    Calm,

    /// <summary>First step.</summary>
    Slight,

    /// <summary>Second step.</summary>
    Marked,

    /// <summary>Third step.</summary>
    Heavy,
}

/// <summary>Today's outline, each point with its band: metal lost when there is an as-new outline, else the light on the edge.</summary>
/// <param name="IsLoss">True for metal lost, false for light.</param>
/// <param name="AtPoint">One for each point of today's outline.</param>
internal sealed record EdgeBands(bool IsLoss, ImmutableArray<Band> AtPoint)
{
    // Steps of the legend, µm. One sharpening takes some 30 to 60 µm off each side (common practice): one, two, more than two.
    private const double MarkedLossUm = 50;
    private const double HeavyLossUm = 100;

    // An outline point farther than this from every place where a loss was measured belongs to none: four sample steps of 0.05 mm.
    private const double FarthestMm = 0.2;

    /// <summary>Bands in the order of the legend, with their words; only those that occur.</summary>
    public IEnumerable<(Band Band, string Words)> Legend => Enum.GetValues<Band>().Where(b => AtPoint.Contains(b)).OrderBy(b => b is Band.Plain or Band.Unseen).ThenBy(b => b).Select(b => (b, Words(b)));

    /// <summary>Bands for an inspection that has today's measurement.</summary>
    public static EdgeBands Of(Inspection inspection, FaceMeasurement today)
    {
        ImmutableArray<EdgePart> cutting = CuttingParts.Of(inspection.Family, inspection.WorkingEdge).Judged;
        return inspection is { Baseline: { } baseline, Drift: { } drift }
            ? new(true, OfLoss(today.Outline, baseline.Outline, drift, cutting))
            : new(false, OfLight(today, inspection.Verdict, cutting));
    }

    private static ImmutableArray<Band> OfLoss(Outline today, Outline baseline, DriftMeasurement drift, ImmutableArray<EdgePart> cutting)
    {
        // Where each measured loss ended up on today's outline, in the baseline's frame; the nearest one speaks for an outline point.
        (Vector2 Place, EdgeLossSample Sample)[] landed = [.. drift.EdgeLoss.Select(s => (OutlinePlaces.Landing(baseline, s), s))];
        return
        [
            .. today.Points.Select(p =>
            {
                Vector2 place = drift.BaselineFromToday.Apply(new(p.Position.XMm, p.Position.ZMm));
                (Vector2 Place, EdgeLossSample Sample) nearest = landed.MinBy(l => (l.Place - place).Length);
                return (nearest.Place - place).Length > FarthestMm ? Band.Plain : cutting.Contains(nearest.Sample.Part) ? OfLoss(nearest.Sample.LossUm) : Band.Plain;
            }),
        ];
    }

    private static Band OfLoss(Figure loss) => loss.Measured switch
    {
        null => Band.Unseen,
        { } m when m.Value - m.ExpandedUncertainty <= 0 => Band.Calm,
        { Value: < MarkedLossUm } => Band.Slight,
        { Value: < HeavyLossUm } => Band.Marked,
        _ => Band.Heavy,
    };

    private static ImmutableArray<Band> OfLight(FaceMeasurement today, Verdict verdict, ImmutableArray<EdgePart> cutting)
    {
        double? heavyUm = verdict.Checks.FirstOrDefault(c => c.What == CheckedFigure.GreatestReflectionWidth)?.Limit;
        return
        [
            .. today.Outline.Points.Select(p =>
            {
                LightSample nearest = today.Light.Samples.MinBy(s => Math.Abs(s.ArcMm - p.ArcMm))!;
                return cutting.Contains(nearest.Part) ? OfLight(nearest.ReflectionWidthUm, today.Light.SharpLimitUm, heavyUm) : Band.Plain;
            }),
        ];
    }

    private static Band OfLight(Figure width, double? sharpUm, double? heavyUm)
    {
        if (width.Measured is not { } m || sharpUm is not { } sharp) return Band.Unseen;
        return ConformityRule.Judge(m, sharp) switch
        {
            Conformity.Inside => Band.Calm,
            Conformity.NotDecidable => Band.Slight,
            _ => heavyUm is { } h && m.Value > h ? Band.Heavy : Band.Marked,
        };
    }

    private string Words(Band band) => (IsLoss, band) switch
    {
        (_, Band.Plain) => "outline alone: not a cutting edge",
        (true, Band.Unseen) => "not seen in both photographs",
        (true, Band.Calm) => "no loss that can be measured",
        (true, Band.Slight) => FormattableString.Invariant($"up to {MarkedLossUm} µm lost"),
        (true, Band.Marked) => FormattableString.Invariant($"{MarkedLossUm} to {HeavyLossUm} µm lost"),
        (true, Band.Heavy) => FormattableString.Invariant($"more than {HeavyLossUm} µm lost"),
        (false, Band.Unseen) => "the light cannot show it",
        (false, Band.Calm) => "no line of light: sharp",
        (false, Band.Slight) => "a faint line: sharp or dull, not decidable",
        (false, Band.Marked) => "a line of light: dull",
        _ => "a wide line of light: very dull",
    };
}
