using System.Collections.Immutable;
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

    public DriftFigures(BaselineEdge edge, OutlineCurve now, DriftUncertainty uncertainty, DriftOptions options)
    {
        (_edge, _now, _uncertainty, _options) = (edge, now, uncertainty, options);
        _today = new EdgePlace?[edge.Samples.Length];
        _lossMm = new double[edge.Samples.Length];
        for (int i = 0; i < _today.Length; i++)
        {
            EdgePlace s = edge.Samples[i];
            if (now.Line.SmoothCrossing(s.Position, s.Inward, ReachMm, options.HalfWindowMm) is not { } hit) continue;
            _today[i] = now.PlaceAt(hit.Arc, options.HalfWindowMm) with { ArcMm = s.ArcMm };
            _lossMm[i] = hit.Distance - edge.Offsets[i];
        }
    }

    public ImmutableArray<EdgeLossSample> EdgeLoss() =>
        [.. Enumerable.Range(0, _today.Length).Where(i => _edge.Samples[i].Position.Y >= 0).Select(i =>
            new EdgeLossSample(_edge.Samples[i].ArcMm, _edge.Parts[i], _edge.ApexZMm - _edge.Samples[i].Position.Y, LossUm([i])))];

    /// <summary>Over three neighbouring steps, so that the noise of a single place does not pass for a loss.</summary>
    public Figure GreatestEdgeLossUm()
    {
        int[] middles = [.. Enumerable.Range(1, Math.Max(0, _today.Length - 2)).Where(i => _edge.Cuts[i] && Seen(i - 1) && Seen(i) && Seen(i + 1))];
        if (middles.Length == 0) return Figure.Missing("No cutting edge is seen in both photographs.");
        int greatest = middles.MaxBy(i => _lossMm[i - 1] + _lossMm[i] + _lossMm[i + 1]);
        return LossUm([greatest - 1, greatest, greatest + 1]);
    }

    public Figure MeanEdgeLossUm() => Cutting() is { Length: > 0 } cutting ? LossUm(cutting) : Figure.Missing("No cutting edge is seen in both photographs.");

    public ImmutableArray<StationWidthLoss> WidthLosses()
    {
        List<StationWidthLoss> losses = [];
        for (double station = StationStepMm; station < 0.9 * _edge.ApexZMm; station += StationStepMm)
        {
            double z = _edge.ApexZMm - station;
            if (WidthAt(_edge.Curve, _edge.ApexArcMm, z) is not { } was) continue;
            double apexNow = _now.Apex().ArcMm;
            if (WidthAt(_now, apexNow, z) is not { } now) continue;
            double loss = was.WidthMm - now.WidthMm;
            Measured um = _uncertainty.BudgetOf(Times(now.Places, UmPerMm), Times(was.Places, -UmPerMm), loss * UmPerMm).Of(loss * UmPerMm);
            double ratio = now.WidthMm / was.WidthMm;
            Measured percent = _uncertainty.BudgetOf(Times(now.Places, 100 / was.WidthMm), Times(was.Places, -100 * ratio / was.WidthMm), 0).Of(100 * (1 - ratio));
            losses.Add(new(station, um, percent));
        }
        return [.. losses];
    }

    public Figure LengthLossUm()
    {
        double loss = (_edge.ApexZMm - _now.Apex().ZMm) * UmPerMm;
        return _uncertainty.BudgetOf(ApexPlaces(_now, UmPerMm), ApexPlaces(_edge.Curve, -UmPerMm), loss).Of(loss);
    }

    public Figure AreaLossPercent()
    {
        double heel = 0.2 * _edge.ApexZMm;
        if (AreaBeyond(_edge.Curve, _edge.ApexArcMm, heel) is not { } was || AreaBeyond(_now, _now.Apex().ArcMm, heel) is not { } now)
            return Figure.Missing("The blade is not seen back to the station at 80 % of its length.");
        int[] beyond = [.. Enumerable.Range(0, _today.Length).Where(i => Seen(i) && _edge.Samples[i].Position.Y > heel)];
        double step = _options.SampleStepMm, ratio = now.AreaMm2 / was.AreaMm2;
        UncertaintyBudget budget = _uncertainty.BudgetOf(
            [.. beyond.Select(i => new Weighted(_today[i]!.Value, 100 * step / was.AreaMm2))],
            [.. beyond.Select(i => new Weighted(_edge.Samples[i], -100 * step * ratio / was.AreaMm2))], 0);
        double perMm = 100 * (now.WidthMm - ratio * was.WidthMm) / was.AreaMm2;
        return new UncertaintyBudget(budget.Contributions.Add(new("place of the heel", 0.2 * _options.HeelPlaceMm, perMm))).Of(100 * (1 - ratio));
    }

    public Figure ShapeDriftUm()
    {
        int[] cutting = Cutting();
        if (cutting.Length < 10) return Figure.Missing("Too little of the cutting edge is seen in both photographs.");
        double mean = cutting.Average(i => _lossMm[i]), noise = 0, variance = 0, along = 0;
        foreach (int i in cutting)
        {
            double left = (_lossMm[i] - mean) * UmPerMm, u = LossUm([i]).Measured!.Value.StandardUncertainty;
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
    private Figure LossUm(int[] samples)
    {
        if (samples.Any(i => !Seen(i))) return Figure.Missing("Today's outline is not seen there.");
        double loss = samples.Average(i => _lossMm[i]) * UmPerMm;
        return _uncertainty.BudgetOf(
            [.. samples.Select(i => new Weighted(_today[i]!.Value, UmPerMm / samples.Length))],
            [.. samples.Select(i => new Weighted(_edge.Samples[i], -UmPerMm / samples.Length))], loss).Of(loss);
    }

    // Extent along x at a height z: the outermost crossing on each side of the apex.
    private (double WidthMm, EdgePlace[] Places)? WidthAt(OutlineCurve curve, double apexArc, double z)
    {
        if (Side(curve, 0, apexArc, z, 1) is not { } left || Side(curve, apexArc, curve.Line.Length, z, -1) is not { } right) return null;
        return (left.X - right.X, [left.Place, right.Place]);
    }

    private (double X, EdgePlace Place)? Side(OutlineCurve curve, double fromArc, double toArc, double z, int sign)
    {
        DriftPolyline line = curve.Line;
        double? outermost = null;
        for (int i = line.FirstAt(fromArc); i + 1 < line.Points.Length && line.Arc[i + 1] <= toArc; i++)
        {
            (Vector2 a, Vector2 b) = (line.Points[i], line.Points[i + 1]);
            if (a.Y > z == b.Y > z) continue;
            double x = a.X + (z - a.Y) / (b.Y - a.Y) * (b.X - a.X);
            if (outermost is not { } o || sign * x > sign * o) outermost = x;
        }
        if (outermost is not { } raw || line.SmoothCrossing(new(raw, z), new(1, 0), _options.HalfWindowMm, _options.HalfWindowMm) is not { } hit) return null;
        EdgePlace place = curve.PlaceAt(hit.Arc, _options.HalfWindowMm);
        return (raw + hit.Distance, place with { ArcMm = ArcOnBaseline(place.Position) });
    }

    // Weights of a width: x changes by e / n.x when the outline is displaced by e along its normal; both sides inwards make it less.
    private static Weighted[] Times(EdgePlace[] places, double perMm) => [.. places.Select(p => new Weighted(p, perMm / Math.Max(0.05, Math.Abs(p.Inward.X))))];

    private Weighted[] ApexPlaces(OutlineCurve curve, double perMm)
    {
        (_, double arc, double half) = curve.Apex();
        return [.. new[] { -0.6, 0, 0.6 }.Select(u => curve.PlaceAt(arc + u * half, half)).Select(p => new Weighted(p with { ArcMm = ArcOnBaseline(p.Position) }, perMm / 3))];
    }

    private (double AreaMm2, double WidthMm)? AreaBeyond(OutlineCurve curve, double apexArc, double z)
    {
        if (Side(curve, 0, apexArc, z, 1) is not { } left || Side(curve, apexArc, curve.Line.Length, z, -1) is not { } right) return null;
        List<Vector2> ring = [new(left.X, z), .. Enumerable.Range(0, curve.Line.Points.Length)
            .Where(i => curve.Line.Points[i].Y > z).Select(i => curve.Line.Points[i]), new(right.X, z)];
        double twice = 0;
        for (int i = 0; i < ring.Count; i++) twice += ring[i].Cross(ring[(i + 1) % ring.Count]);
        return (Math.Abs(twice) / 2, left.X - right.X);
    }

    // Nearest sample's arc: how far two places of different outlines are apart along the edge.
    private double ArcOnBaseline(Vector2 p) => _edge.Samples.MinBy(s => (s.Position - p).Length).ArcMm;
}
