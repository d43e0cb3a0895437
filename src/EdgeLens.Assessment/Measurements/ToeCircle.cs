using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Assessment.Measurements;

/// <summary>
/// Least-distance circle through the outline within a half angle either side of the toe apex, seen from the circle's centre (measurands.md: 60°). On a circle the
/// apex lies straight ahead of the centre along z; that direction stands for it, because the apex itself wanders by ±5° on a flat toe with 1 µm of noise.
/// </summary>
/// <param name="Circle">The circle, mm.</param>
/// <param name="FirstIndex">First outline point on the arc.</param>
/// <param name="LastIndex">Last outline point on the arc.</param>
/// <param name="Amplification">
/// Factor on the circle's sensitivities: a greater radius takes in a longer arc, and on a toe that is not a circle that changes the radius again, 1/(1 - g).
/// </param>
public sealed record ToeCircle(FittedCircle Circle, int FirstIndex, int LastIndex, double Amplification)
{
    /// <summary>Half angle of the toe (measurands.md).</summary>
    public const double ToeHalfAngleDeg = 60;

    /// <summary>First guess of the arc: what lies within this distance behind the apex; a toe of the trade has a radius of 0.3 to 0.5 mm.</summary>
    private const double StartDepthMm = 0.3;

    /// <summary>The arc has settled when the radius changes by less, a thousandth of the outline's noise.</summary>
    private const double SettledMm = 2e-6;

    /// <summary>Greatest feedback of the arc on the radius: beyond it no radius belongs to the toe.</summary>
    private const double GreatestFeedback = 0.75;

    private const int MostIterations = 60;

    /// <summary>Fits the circle, the arc following the circle until both agree.</summary>
    /// <param name="outline">In its frame.</param>
    /// <param name="halfAngleDeg">Of the arc.</param>
    /// <returns>The circle, or the fit's refusal, or <c>toe-not-round</c>.</returns>
    public static Outcome<ToeCircle> Fit(Outline outline, double halfAngleDeg = ToeHalfAngleDeg)
    {
        double cos = Math.Cos(halfAngleDeg * Math.PI / 180), apexZ = outline.Apex.Position.ZMm;
        Vector2[] places = [.. outline.Points.Select(p => new Vector2(p.Position.XMm, p.Position.ZMm))];
        Range arc = Around(outline.ApexIndex, places, p => p.Y > apexZ - StartDepthMm);
        Range fitted = arc;
        FittedCircle? circle = null;
        for (int k = 0; k < MostIterations; k++)
        {
            if (!LeastDistanceCircle.Fit(places.AsSpan(arc)).TryGet(out FittedCircle? next, out Refusal? refusal)) return refusal;
            fitted = arc;
            bool settled = circle is not null && Math.Abs(next.Radius - circle.Radius) < SettledMm;
            // Late on, half steps: the arc's ends may jump between two points for ever.
            circle = circle is null || k < MostIterations / 2 ? next : next with { Radius = 0.5 * (next.Radius + circle.Radius), Centre = 0.5 * (next.Centre + circle.Centre) };
            Range nextArc = Arc(circle, 1);
            if (settled || nextArc.Equals(arc)) break;
            arc = nextArc;
        }

        double feedback = 0;
        const double longer = 1.1;
        if (LeastDistanceCircle.Fit(places.AsSpan(Arc(circle!, longer))).TryGet(out FittedCircle? wide, out _)) feedback = (wide.Radius / circle!.Radius - 1) / (longer - 1);
        if (feedback > GreatestFeedback)
            return new Refusal("toe-not-round", "The toe has no radius: its roundness depends on how much of it is looked at", "Compare the outline with the as-new outline instead.", feedback, GreatestFeedback, "");
        return new ToeCircle(circle!, fitted.Start.Value, fitted.End.Value - 1, 1 / (1 - feedback));

        Range Arc(FittedCircle c, double factor)
        {
            double limit = factor == 1 ? cos : Math.Cos(factor * halfAngleDeg * Math.PI / 180);
            return Around(outline.ApexIndex, places, p => (p - c.Centre) is var v && v.Y > limit * v.Length);
        }
    }

    /// <summary>Standard uncertainty of the radius from the outline's noise, mm, without scale.</summary>
    public double RadiusUncertaintyMm(Outline outline, OutlineNoise noise) => Amplification * Propagate(outline, noise, s => s.Radius);

    /// <summary>z of the circle's foremost place with its standard uncertainty, mm, without scale.</summary>
    public Measured ForemostZMm(Outline outline, OutlineNoise noise)
    {
        return new(Circle.Centre.Y + Circle.Radius, Propagate(outline, noise, s => s.CentreY + s.Radius));
    }

    /// <remarks>Grown by the root of the reduced chi square where the arc is no circle (Birge 1932): there the choice of points moves the circle as noise does.</remarks>
    private double Propagate(Outline outline, OutlineNoise noise, Func<CircleSensitivity, double> of)
    {
        double[] weights = new double[LastIndex - FirstIndex + 1];
        for (int i = 0; i < weights.Length; i++)
        {
            OutlinePoint p = outline.Points[FirstIndex + i];
            Vector2 outward = (new Vector2(p.Position.XMm, p.Position.ZMm) - Circle.Centre).Unit;
            weights[i] = of(Circle.Sensitivities[i]) * outward.Dot(p.Inward);
        }
        double mean = outline.Points.AsSpan()[FirstIndex..(LastIndex + 1)].ToArray().Average(p => p.StandardUncertaintyUm) / 1000;
        double misfit = Math.Max(1, Circle.ResidualSd / Quadrature.Sum(mean, noise.SystematicSdUm / 1000));
        return misfit * noise.Propagate(outline.Points.AsSpan()[FirstIndex..(LastIndex + 1)], weights);
    }

    /// <summary>The unbroken run of points round the apex for which the claim holds.</summary>
    private static Range Around(int apex, Vector2[] places, Func<Vector2, bool> holds)
    {
        int from = apex, to = apex + 1;
        while (from > 0 && holds(places[from - 1])) from--;
        while (to < places.Length && holds(places[to])) to++;
        return from..to;
    }
}
