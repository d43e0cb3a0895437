using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Drift;

/// <summary>The figures of drift, once today's outline lies in the baseline's frame.</summary>
internal sealed class DriftFigures
{
    private const double UmPerMm = 1000;
    private const double StationStepMm = 0.5;

    // The farthest that an edge may have gone and still be found along the baseline's normal; beyond it, another part of the outline is hit.
    private const double ReachMm = 1;

    private readonly BaselineEdge _edge;
    private readonly OutlineCurve _now;
    private readonly DriftUncertainty _uncertainty;
    private readonly DriftOptions _options;
    private readonly EdgePlace?[] _today;
    private readonly double[] _lossMm;
    private readonly List<FigureBudget> _budgets = [];

    public DriftFigures(BaselineEdge edge, OutlineCurve now, DriftUncertainty uncertainty, DriftOptions options)
    {
        (_edge, _now, _uncertainty, _options) = (edge, now, uncertainty, options);
        _today = new EdgePlace?[edge.Samples.Length];
        _lossMm = new double[edge.Samples.Length];
        for (int i = 0; i < _today.Length; i++)
        {
            EdgePlace s = edge.Samples[i];
            if (now.Line.SmoothCrossing(s.Position, s.Inward, ReachMm, options.HalfWindowMm) is not { } hit) continue;
            _today[i] = now.PlaceAt(hit.Arc) with { ArcMm = s.ArcMm };
            _lossMm[i] = hit.Distance - edge.Offsets[i];
        }
    }

    /// <summary>Of every figure asked for so far, but for the single samples of edge loss.</summary>
    public ImmutableArray<FigureBudget> Budgets => [.. _budgets];

    public ImmutableArray<EdgeLossSample> EdgeLoss() =>
        [.. Enumerable.Range(0, _today.Length).Where(i => _edge.Samples[i].Position.Y >= 0).Select(i =>
            new EdgeLossSample(_edge.Samples[i].ArcMm, _edge.Parts[i], _edge.ApexZMm - _edge.Samples[i].Position.Y, LossUm([i], null)))];

    /// <summary>Over three neighbouring steps, so that the noise of a single place does not pass for a loss.</summary>
    public Figure GreatestEdgeLossUm()
    {
        int[] middles = [.. Enumerable.Range(1, Math.Max(0, _today.Length - 2)).Where(i => _edge.Cuts[i] && Seen(i - 1) && Seen(i) && Seen(i + 1))];
        if (middles.Length == 0) return Figure.Missing("No cutting edge is seen in both photographs.");
        int greatest = middles.MaxBy(i => _lossMm[i - 1] + _lossMm[i] + _lossMm[i + 1]);
        return LossUm([greatest - 1, greatest, greatest + 1], "greatestEdgeLossUm");
    }

    public Figure MeanEdgeLossUm() => Cutting() is { Length: > 0 } cutting ? LossUm(cutting, "meanEdgeLossUm") : Figure.Missing("No cutting edge is seen in both photographs.");

    public ImmutableArray<StationWidthLoss> WidthLosses()
    {
        List<StationWidthLoss> losses = [];
        for (double station = StationStepMm; station < 0.9 * _edge.ApexZMm; station += StationStepMm)
        {
            double z = _edge.ApexZMm - station;
            if (WidthAt(_edge.Curve, z) is not { } was) continue;
            if (WidthAt(_now, z) is not { } now) continue;
            double loss = was.WidthMm - now.WidthMm;
            Measured um = Keep("widthLossUm", _uncertainty.BudgetOf(Times(now.Places, -UmPerMm), Times(was.Places, UmPerMm), loss * UmPerMm), station).Of(loss * UmPerMm);
            double ratio = now.WidthMm / was.WidthMm;
            Measured percent = Keep("widthLossPercent", _uncertainty.BudgetOf(Times(now.Places, -100 / was.WidthMm), Times(was.Places, 100 * ratio / was.WidthMm), 0), station).Of(100 * (1 - ratio));
            losses.Add(new(station, um, percent));
        }
        return [.. losses];
    }

    public Figure LengthLossUm()
    {
        double loss = (_edge.ApexZMm - _now.ApexZMm) * UmPerMm;
        return Keep("lengthLossUm", _uncertainty.BudgetOf(ApexPlaces(_now, UmPerMm), ApexPlaces(_edge.Curve, -UmPerMm), loss)).Of(loss);
    }

    public Figure AreaLossPercent()
    {
        double heel = 0.2 * _edge.ApexZMm;
        if (AreaBeyond(_edge.Curve, heel) is not { } was || AreaBeyond(_now, heel) is not { } now)
            return Figure.Missing("The blade is not seen back to the station at 80 % of its length.");
        int[] beyond = [.. Enumerable.Range(0, _today.Length).Where(i => Seen(i) && _edge.Samples[i].Position.Y > heel)];
        double step = _options.SampleStepMm, ratio = now.AreaMm2 / was.AreaMm2;
        UncertaintyBudget budget = _uncertainty.BudgetOf(
            [.. beyond.Select(i => new Weighted(_today[i]!.Value, 100 * step / was.AreaMm2))],
            [.. beyond.Select(i => new Weighted(_edge.Samples[i], -100 * step * ratio / was.AreaMm2))], 0);
        double perMm = 100 * (now.WidthMm - ratio * was.WidthMm) / was.AreaMm2;
        return Keep("areaLossPercent", new(budget.Contributions.Add(new("place of the heel", 0.2 * (_edge.Curve.Outline.HeelStandardUncertaintyMm ?? _options.HeelPlaceMm), perMm)))).Of(100 * (1 - ratio));
    }

    public Figure ShapeDriftUm()
    {
        int[] cutting = Cutting();
        if (cutting.Length < 10) return Figure.Missing("Too little of the cutting edge is seen in both photographs.");
        double mean = cutting.Average(i => _lossMm[i]), noise = 0, variance = 0, along = 0;
        foreach (int i in cutting)
        {
            double left = (_lossMm[i] - mean) * UmPerMm, u = LossUm([i], null).Measured!.Value.StandardUncertainty;
            variance += left * left / cutting.Length;
            noise += u * u / cutting.Length;
            along += left * left * u * u / cutting.Length;
        }
        // The errors' own scatter adds to the square and is taken off. Errors correlated along millimetres leave about as many independent ones as the edge has millimetres.
        double rms = Math.Sqrt(Math.Max(0, variance - noise));
        double independent = Math.Max(2, cutting.Length * _options.SampleStepMm);
        double u2 = 4 * along / independent + 2 * noise * noise / independent;
        return new Measured(rms, Math.Sqrt(u2) / (2 * Math.Max(rms, Math.Sqrt(Math.Sqrt(u2)) / 2)));
    }

    private bool Seen(int i) => _today[i] is not null;

    private int[] Cutting() => [.. Enumerable.Range(0, _today.Length).Where(i => _edge.Cuts[i] && Seen(i))];

    // The mean loss over some samples.
    private Figure LossUm(int[] samples, string? figure)
    {
        if (samples.Any(i => !Seen(i))) return Figure.Missing("Today's outline is not seen there.");
        double loss = samples.Average(i => _lossMm[i]) * UmPerMm;
        UncertaintyBudget budget = _uncertainty.BudgetOf(
            [.. samples.Select(i => new Weighted(_today[i]!.Value, UmPerMm / samples.Length))],
            [.. samples.Select(i => new Weighted(_edge.Samples[i], -UmPerMm / samples.Length))], loss);
        return (figure is null ? budget : Keep(figure, budget)).Of(loss);
    }

    private UncertaintyBudget Keep(string figure, UncertaintyBudget budget, double? stationMm = null)
    {
        _budgets.Add(new(figure, stationMm, budget));
        return budget;
    }

    // Extent along x at a height, and how it follows the outline.
    private (double WidthMm, Weighted[] Places)? WidthAt(OutlineCurve curve, double z)
    {
        if (EdgeCrossing.At(curve.Outline, true, z) is not { } left || EdgeCrossing.At(curve.Outline, false, z) is not { } right) return null;
        return (left.XMm - right.XMm, [.. PlacesOf(curve, left, 1), .. PlacesOf(curve, right, -1)]);
    }

    private IEnumerable<Weighted> PlacesOf(OutlineCurve curve, EdgeCrossing crossing, int sign)
    {
        OutlinePoint first = curve.Outline.Points[crossing.FirstIndex];
        double arc = ArcOnBaseline(new(first.Position.XMm, first.Position.ZMm));
        return crossing.Sensitivities.Select((s, i) =>
        {
            OutlinePoint p = curve.Outline.Points[crossing.FirstIndex + i];
            EdgePlace place = new(arc + p.ArcMm - first.ArcMm, new(p.Position.XMm, p.Position.ZMm), p.Inward, crossing.Misfit * p.StandardUncertaintyUm / UmPerMm);
            return new Weighted(place, sign * s);
        });
    }

    private static Weighted[] Times(Weighted[] places, double factor) => [.. places.Select(p => p with { Weight = factor * p.Weight })];

    private Weighted[] ApexPlaces(OutlineCurve curve, double perMm)
    {
        return [.. new[] { -0.6, 0, 0.6 }.Select(u => curve.PlaceAt(curve.ApexArcMm + u * curve.ApexHalfWindowMm)).Select(p => new Weighted(p with { ArcMm = ArcOnBaseline(p.Position) }, perMm / 3))];
    }

    // Enclosed by the outline forward of a height, and the width there.
    private static (double AreaMm2, double WidthMm)? AreaBeyond(OutlineCurve curve, double z)
    {
        if (EdgeCrossing.At(curve.Outline, true, z) is not { } left || EdgeCrossing.At(curve.Outline, false, z) is not { } right) return null;
        Vector2[] ring = [new(left.XMm, z), .. curve.Outline.Points.Where(p => p.Position.ZMm > z).Select(p => new Vector2(p.Position.XMm, p.Position.ZMm)), new(right.XMm, z)];
        return (Polyline.SignedArea(ring), left.XMm - right.XMm);
    }

    // Nearest sample's arc: how far two places of different outlines are apart along the edge.
    private double ArcOnBaseline(Vector2 p) => _edge.Samples.MinBy(s => (s.Position - p).Length).ArcMm;
}
