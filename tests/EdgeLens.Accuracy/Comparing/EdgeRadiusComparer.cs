using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>
/// Radius of the rounding per 0.5 mm of cutting edge: mean of the program's samples against the mean of the truth over the same stretch. Places are compared in the picture.
/// </summary>
public sealed class EdgeRadiusComparer : IMeasurandComparer
{
    /// <summary>Length of a stretch, mm.</summary>
    public const double StretchMm = 0.5;

    /// <inheritdoc />
    public string Name => "edgeRadiusUm";

    /// <inheritdoc />
    public string Unit => "µm";

    /// <inheritdoc />
    public Comparison Compare(FaceCase face)
    {
        EdgeStretch[] stretches = [.. EdgeStretch.All(face)];
        return new([.. stretches.Where(s => s.RadiusUm is not null).Select(s => ErrorSample.Of(s.RadiusUm!.Value, s.TrueRadiusUm))], stretches.Count(s => s.RadiusUm is null));
    }
}

/// <summary>0.5 mm of a cutting edge.</summary>
/// <param name="Part">Of the edge.</param>
/// <param name="FromArcMm">Along the true outline.</param>
/// <param name="TrueRadiusUm">Mean over the stretch.</param>
/// <param name="RadiusUm">As the program says; null where the light shows none.</param>
public sealed record EdgeStretch(EdgePart Part, double FromArcMm, double TrueRadiusUm, Measured? RadiusUm)
{
    /// <summary>All stretches of the cutting edges that are measurands.</summary>
    public static IEnumerable<EdgeStretch> All(FaceCase face)
    {
        FaceTruth truth = face.Truth;
        ILookup<int, LightSample> samples = (face.Seen is not { } seen ? [] :
            seen.Measurement.Light.Samples.Select(s => (Arc: truth.Outline.ArcOf(truth.Silhouette.Nearest(seen.PixelAt(s.ArcMm))), Sample: s)))
            .ToLookup(s => (int)(s.Arc / EdgeRadiusComparer.StretchMm), s => s.Sample);
        IEnumerable<IGrouping<(int Stretch, EdgePart Part), double>> wanted =
            from sample in truth.WorkingEnd.EdgeRadiusUm
            let arc = sample[0]
            where truth.IsMeasured(truth.Outline.At(truth.Outline.PlaceAt(arc)))
            let part = truth.PartAt(arc, face.Family)
            where part == EdgePart.Toe ? !face.Family.HasPointedTip : !face.Family.TipCuts
            group sample[1] by ((int)(arc / EdgeRadiusComparer.StretchMm), part);
        foreach (IGrouping<(int Stretch, EdgePart Part), double> stretch in wanted)
        {
            LightSample[] within = [.. samples[stretch.Key.Stretch].Where(s => s.Part == stretch.Key.Part)];
            Measured[] given = [.. within.Select(s => s.RadiusUm.Measured).OfType<Measured>()];
            // Where parts meet, or the measurand ends, a stretch is shorter: too short for a sample of its own it is no stretch.
            if (stretch.Count() < 3 || (within.Length == 0 && face.Seen is not null)) continue;
            // The samples share most of their uncertainty (light), so that it does not average out.
            Measured? mean = 2 * given.Length <= within.Length ? null : new(given.Average(r => r.Value), given.Average(r => r.StandardUncertainty));
            yield return new(stretch.Key.Part, stretch.Key.Stretch * EdgeRadiusComparer.StretchMm, stretch.Average(), mean);
        }
    }
}
