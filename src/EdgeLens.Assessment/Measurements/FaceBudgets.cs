using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Measurements;

/// <summary>Where the uncertainty of a single photograph's figures comes from.</summary>
public static class FaceBudgets
{
    // JCGM 100 G.4.2: the light's part is believed to within a quarter, 8 degrees of freedom.
    private const double Believed = 8;

    /// <summary>One budget for each width, the toe's or tip's figure, each nick and each edge's light.</summary>
    /// <remarks>
    /// Lengths: the scale's parts, each with the length as sensitivity, and the outline's own part (noise, blur, light on the edge), which is what the figure's uncertainty has beside
    /// the scale. Figures of light have one line: they don't hang on the scale.
    /// </remarks>
    public static ImmutableArray<FigureBudget> Of(FaceMeasurement face)
    {
        ArgumentNullException.ThrowIfNull(face);
        List<FigureBudget> budgets = [.. face.Widths.Select(w => new FigureBudget("widthMm", w.StationMm, Length(face.Scale, w.WidthMm)))];
        foreach ((string name, Figure figure) in new[] { ("toeRadiusUm", face.ToeRadiusUm), ("tipWidthUm", face.TipWidthUm), ("tipArcRadiusMm", face.TipArcRadiusMm) })
            if (figure.Measured is { } m) budgets.Add(new(name, null, Length(face.Scale, m)));
        budgets.AddRange(face.Nicks.Select(n => new FigureBudget("nickDepthUm", n.StationMm, Length(face.Scale, n.DepthUm))));
        foreach (EdgeLightSummary edge in face.Light.Edges)
        {
            string part = edge.Part.ToString().ToLowerInvariant();
            foreach ((string name, Figure figure) in new[] { ("reflectingFractionPercent", edge.ReflectingFractionPercent), ("greatestReflectionWidthUm", edge.GreatestReflectionWidthUm), ("edgeRadiusUm", edge.Radius.GreatestUm) })
                if (figure.Measured is { } m) budgets.Add(new($"{name}, {part}", null, new([new("light on the edge, noise and blur", m.StandardUncertainty, 1, Believed) { Remedy = ContributionRemedy.AnotherPhotograph }])));
        }
        return [.. budgets];
    }

    private static UncertaintyBudget Length(ScaleSummary scale, Measured length)
    {
        double size = Math.Abs(length.Value), whole = scale.RelativeStandardUncertainty * size;
        double own = Math.Sqrt(Math.Max(0, length.StandardUncertainty * length.StandardUncertainty - whole * whole));
        UncertaintyContribution outline = new("outline: noise, blur and light on the edge", own, 1, Believed) { Remedy = ContributionRemedy.AnotherPhotograph };
        return scale.Parts is not { } parts
            ? new([outline, new("scale", scale.RelativeStandardUncertainty, size)])
            : new(
            [
                outline,
                new("scale: corners of the card", parts.Corners, size) { Remedy = ContributionRemedy.AnotherPhotograph }, new("scale: print", parts.Print, size) { Remedy = ContributionRemedy.MeasuredCard },
                new("scale: lens", parts.Lens, size) { Remedy = ContributionRemedy.LensProfile }, new("scale: height of the face", parts.Height, size) { Remedy = ContributionRemedy.KnownHeight },
            ]);
    }
}
