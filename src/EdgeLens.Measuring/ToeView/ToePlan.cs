using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Measuring.ToeView;

/// <summary>The cutting edge at the toe seen square to the face: a U, as its make has it or as the face view of the same day shows it.</summary>
/// <remarks>
/// Places are x along the face line (to the picture's right, the instrument's left edge) from the middle of the toe, and s behind the apex; the toe is kept at equal
/// steps of the azimuth of the edge's normal: 0 at the right side, 90° at the apex, 180° at the left side.
/// </remarks>
internal sealed class ToePlan
{
    /// <summary>Pieces of a quarter of the toe, and of one side behind it.</summary>
    public const int ArcPieces = 16, SidePieces = 5;

    // Curettes' toes have half widths of 0.3 to 0.55 mm (mean blade width 0.86 mm: J Indian Soc Periodontol 2022;26:213-218) and sides that taper by nothing to 2°.
    private const double NominalHalfWidthMm = 0.41, NominalSigmaMm = 0.05, NominalTaper = 0.016, NominalTaperSigma = 0.012, BladeMm = 4.5;

    // A face view shows how its sides run but not how it was laid: the two photographs' axes differ by half a degree.
    private const double MeasuredTaperSigma = 0.005;

    // The normal's azimuth from the outline's points within this arc: its noise of some 3 µm turns it by less than a degree.
    private const double TangentMm = 0.1;

    private const double StepMm = 0.01;

    // Behind the toe the sides begin where they run to within so much of the axis, or at the latest one and a half half widths behind the apex.
    private const double SideRad = 4 * Math.PI / 180;
    private const double FarthestHalfWidths = 1.5;

    private readonly (double X, double S)[] _toe;
    private readonly (double X, double S)[] _right, _left;

    private ToePlan((double X, double S)[] toe, (double X, double S)[] right, (double X, double S)[] left, Measured halfWidthMm, Measured taper) =>
        (_toe, _right, _left, HalfWidthMm, Taper) = (toe, right, left, halfWidthMm, taper);

    /// <summary>Half of the width where toe and sides meet; its uncertainty is that of the whole plan's size.</summary>
    public Measured HalfWidthMm { get; }

    /// <summary>Slope of the sides that is still open, on top of how they are drawn.</summary>
    public Measured Taper { get; }

    /// <summary>Mean slope of the sides as drawn: how the blade widens towards its heel.</summary>
    public double SideSlope => (Slope(_right, _toe[0], 1) + Slope(_left, _toe[^1], -1)) / 2;

    /// <summary>Half a circle, then straight sides: what a curette's toe is ground to.</summary>
    public static ToePlan Nominal { get; } = Made();

    /// <summary>The plan that a face view shows.</summary>
    /// <param name="face">Of the same working end on the same day.</param>
    /// <param name="toeScale">Relative standard uncertainty of the scale at the toe in the toe view.</param>
    /// <returns>Null where its outline does not reach round the toe.</returns>
    public static ToePlan? Of(FaceMeasurement face, double toeScale)
    {
        ImmutableArray<OutlinePoint> points = face.Outline.Points;
        if (points.Length < 50) return null;
        PlaneCurve curve = new([.. points.Select(p => new Vector2(p.Position.XMm, p.Position.ZMm))]);
        double apexZ = face.Outline.Apex.Position.ZMm;
        // Seen from above the U runs from the instrument's left edge (the picture's right) round the toe to its right edge.
        bool leftFirst = points[0].Position.XMm > points[^1].Position.XMm;
        (double Azimuth, double X, double S)[] places = Places(curve, apexZ, leftFirst);
        int apex = Array.FindIndex(places, p => p.Azimuth >= Math.PI / 2);
        if (apex <= 0) return null;
        int right = apex, left = apex;
        double reach = FarthestHalfWidths * (places[0].X - places[^1].X) / 2;
        while (right > 0 && places[right - 1].Azimuth > SideRad && places[right - 1].S < reach) right--;
        while (left < places.Length - 1 && places[left + 1].Azimuth < Math.PI - SideRad && places[left + 1].S < reach) left++;
        // A blade shorter behind its toe than the toe is long shows no side.
        if (places[0].S < 2 * places[right].S || places[^1].S < 2 * places[left].S) return null;
        double middle = (places[right].X + places[left].X) / 2, half = (places[right].X - places[left].X) / 2;
        if (half <= 0) return null;
        (double X, double S)[] toe = new (double, double)[2 * ArcPieces + 1];
        for (int i = 0, at = right; i < toe.Length; i++)
        {
            double azimuth = Math.PI / 2 * i / ArcPieces;
            while (at < left && places[at].Azimuth < azimuth) at++;
            toe[i] = Between(places[Math.Max(right, at - 1)], places[at], azimuth);
        }
        double relative = Quadrature.Sum(face.Scale.RelativeStandardUncertainty, toeScale);
        return new(toe, Side(places[..(right + 1)].Reverse()), Side(places[left..]), new(half, half * relative), new(0, MeasuredTaperSigma));

        (double X, double S) Between((double Azimuth, double X, double S) a, (double Azimuth, double X, double S) b, double azimuth)
        {
            double u = b.Azimuth > a.Azimuth ? Math.Clamp((azimuth - a.Azimuth) / (b.Azimuth - a.Azimuth), 0, 1) : 1;
            return (a.X + u * (b.X - a.X) - middle, a.S + u * (b.S - a.S));
        }

        (double X, double S)[] Side(IEnumerable<(double Azimuth, double X, double S)> side)
        {
            (double Azimuth, double X, double S)[] all = [.. side];
            double from = all[0].S, to = Math.Min(all[^1].S, BladeMm);
            return [.. Enumerable.Range(1, SidePieces).Select(i => all.MinBy(p => Math.Abs(p.S - (from + (to - from) * i / SidePieces)))).Select(p => (p.X - middle, p.S))];
        }
    }

    /// <summary>As a camera at a distance before the apex sees it: what lies s behind it is smaller by that.</summary>
    public ToePlan InPerspective(double distanceMm)
    {
        return new(Seen(_toe), Seen(_right), Seen(_left), HalfWidthMm, Taper);

        (double, double)[] Seen((double X, double S)[] places) => [.. places.Select(p => (p.X * distanceMm / (distanceMm + p.S), p.S * distanceMm / (distanceMm + p.S)))];
    }

    /// <summary>The place whose normal has an azimuth, in the plan's own size.</summary>
    /// <param name="azimuthRad">0 at the right side, 90° at the apex, 180° at the left side; beyond them the ends of the toe.</param>
    public (double X, double S) At(double azimuthRad)
    {
        double at = Math.Clamp(azimuthRad / (Math.PI / 2) * ArcPieces, 0, 2 * ArcPieces - 1e-9);
        int i = (int)at;
        double u = at - i;
        return (_toe[i].X + u * (_toe[i + 1].X - _toe[i].X), _toe[i].S + u * (_toe[i + 1].S - _toe[i].S));
    }

    /// <summary>The same, the azimuth counted from a side: 0 there, 90° at the apex.</summary>
    /// <param name="side">1 right in the picture, -1 left.</param>
    /// <param name="azimuthRad">Of the edge's normal.</param>
    public (double X, double S) At(int side, double azimuthRad) => At(side > 0 ? azimuthRad : Math.PI - azimuthRad);

    /// <summary>How far behind the apex the toe's edge runs at a place along the face line, in the plan's own size; beyond the toe its end.</summary>
    public double Behind(double x)
    {
        int low = 0, high = _toe.Length - 1;
        if (x >= _toe[low].X) return _toe[low].S;
        if (x <= _toe[high].X) return _toe[high].S;
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            if (_toe[middle].X >= x) low = middle; else high = middle;
        }
        double width = _toe[low].X - _toe[high].X;
        return width <= 0 ? _toe[low].S : _toe[low].S + (_toe[low].X - x) / width * (_toe[high].S - _toe[low].S);
    }

    /// <summary>The U from the end of the left side round the toe to the end of the right side, scaled; x along the face line, s behind the apex.</summary>
    /// <param name="size">Half width wanted over that of the plan.</param>
    /// <param name="taper">Slope of the sides on top of how they are drawn.</param>
    /// <param name="sides">False: the toe only.</param>
    public IEnumerable<(double X, double S)> Places(double size, double taper, bool sides)
    {
        if (sides) for (int i = SidePieces - 1; i >= 0; i--) yield return Tapered(_left[i], _toe[^1].S, -1);
        for (int i = _toe.Length - 1; i >= 0; i--) yield return (size * _toe[i].X, size * _toe[i].S);
        if (sides) foreach ((double, double) place in _right) yield return Tapered(place, _toe[0].S, 1);

        // The sides grow in width with the toe, not in length: where the neck begins has nothing to do with it.
        (double, double) Tapered((double X, double S) place, double from, int side) =>
            (size * place.X + side * taper * (place.S - from), place.S + (size - 1) * from);
    }

    private static double Slope((double X, double S)[] side, (double X, double S) from, int sign) => sign * (side[^1].X - from.X) / (side[^1].S - from.S);

    private static ToePlan Made()
    {
        const double w = NominalHalfWidthMm;
        (double, double)[] toe = [.. Enumerable.Range(0, 2 * ArcPieces + 1).Select(i => Math.SinCos(Math.PI / 2 * i / ArcPieces)).Select(p => (w * p.Cos, w * (1 - p.Sin)))];
        (double, double)[] right = [.. Enumerable.Range(1, SidePieces).Select(i => (w, w + (BladeMm - w) * i / SidePieces))];
        return new(toe, right, [.. right.Select(p => (-p.Item1, p.Item2))], new(w, NominalSigmaMm), new(NominalTaper, NominalTaperSigma));
    }

    /// <summary>
    /// Azimuth of the normal, x and s along the outline, from the picture's right to its left. Round a toe without dents the azimuth rises; noise and nicks are
    /// levelled to the rising course nearest to them.
    /// </summary>
    private static (double Azimuth, double X, double S)[] Places(PlaneCurve curve, double apexZ, bool leftFirst)
    {
        double[] arcs = [.. Enumerable.Range(0, (int)(curve.Length / StepMm) + 1).Select(i => leftFirst ? i * StepMm : curve.Length - i * StepMm)];
        double[] azimuths = IsotonicRegression.Rising([.. arcs.Select(Azimuth)]);
        return [.. arcs.Select((arc, i) => (azimuths[i], curve.At(arc).X, apexZ - curve.At(arc).Y))];

        double Azimuth(double arc)
        {
            Vector2 tangent = (leftFirst ? 1 : -1) * (curve.At(arc + TangentMm) - curve.At(arc - TangentMm)).Unit;
            // Along the right side the edge runs towards +z with its normal to +x, at the apex to -x, along the left side towards -z.
            double azimuth = Math.Atan2(-tangent.X, tangent.Y);
            return azimuth < -Math.PI / 2 ? azimuth + 2 * Math.PI : azimuth;
        }
    }
}
