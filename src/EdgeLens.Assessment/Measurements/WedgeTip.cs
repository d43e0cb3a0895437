using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Measurements;

/// <summary>The thickness of a ground tip at 0.05 mm from it (measurands.md), from its wedge angle and the rounding of its edge.</summary>
/// <remarks>
/// Face along z, bevel at the angle β below it, both touched by a circle of radius r: they meet r / tan(β/2) before the points of touch, and the circle reaches forward to r (1 / tan(β/2) - 1) behind
/// that corner. The thickness is taken square to the face.
/// </remarks>
public static class WedgeTip
{
    /// <summary>From the tip, mm.</summary>
    public const double StationMm = 0.05;

    // The radius along the tip's arc from the apex to either side, and how many of its places must be known.
    private const double HalfArcMm = 0.35;
    private const int FewestPlaces = 3;

    /// <summary>The radius of the edge at the apex, as the face view tells it.</summary>
    /// <param name="face">Of the same day; null where there is none.</param>
    /// <returns>Micrometres; missing, with the reason.</returns>
    public static Figure ApexRadiusUm(FaceMeasurement? face)
    {
        if (face is null) return Figure.Missing("It follows from the wedge angle and from how round the edge is: take the face view of the same day too, with the lamps ahead of the tip.");
        double apex = face.Outline.Apex.ArcMm;
        LightSample[] near = [.. face.Light.Samples.Where(s => Math.Abs(s.ArcMm - apex) <= HalfArcMm)];
        Measured[] known = [.. near.Select(s => s.RadiusUm.Measured).OfType<Measured>()];
        if (known.Length < FewestPlaces || 2 * known.Length < near.Length)
            return Figure.Missing("It follows from the wedge angle and from how round the edge is, and the light of the day's face view does not tell that at the tip: photograph the face with the lamps ahead of the tip.");
        double mean = known.Average(r => r.Value), spread = Math.Sqrt(known.Sum(r => (r.Value - mean) * (r.Value - mean)) / (known.Length - 1));
        // Level and size of the panels are common to all places: their mean is no surer than one of them. What they differ by is the edge's own unevenness.
        return new Measured(mean, Quadrature.Sum(known.Average(r => r.StandardUncertainty), spread));
    }

    /// <summary>Thickness, micrometres.</summary>
    /// <param name="wedgeDeg">Angle between face and bevel.</param>
    /// <param name="radiusUm">Of the rounding between them.</param>
    public static Measured ThicknessUm(Measured wedgeDeg, Measured radiusUm)
    {
        double byAngle = (At(wedgeDeg.Value + wedgeDeg.StandardUncertainty, radiusUm.Value) - At(wedgeDeg.Value - wedgeDeg.StandardUncertainty, radiusUm.Value)) / 2;
        double byRadius = (At(wedgeDeg.Value, radiusUm.Value + radiusUm.StandardUncertainty) - At(wedgeDeg.Value, Math.Max(0, radiusUm.Value - radiusUm.StandardUncertainty))) / (radiusUm.Value < radiusUm.StandardUncertainty ? 1 : 2);
        return new(At(wedgeDeg.Value, radiusUm.Value), Quadrature.Sum(byAngle, byRadius));
    }

    private static double At(double wedgeDeg, double radiusUm)
    {
        double beta = wedgeDeg * Math.PI / 180, touch = radiusUm / Math.Tan(beta / 2);
        // How far behind the corner of face and bevel the place lies: the circle's front, then 50 µm.
        double behind = touch - radiusUm + 1000 * StationMm;
        double dip = Math.Sqrt(Math.Max(0, radiusUm * radiusUm - (behind - touch) * (behind - touch)));
        double top = behind >= touch ? 0 : radiusUm - dip, bottom = behind >= touch * Math.Cos(beta) ? behind * Math.Tan(beta) : radiusUm + dip;
        return bottom - top;
    }
}
