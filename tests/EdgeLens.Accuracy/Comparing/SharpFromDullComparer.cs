using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>
/// For each later photograph of a working end of which an edge has truly grown dull: does that edge's greatest reflection width stand above the as-new one's?
/// Error 0 when every dull edge that was measured in both photographs is told right, 1 when one is told wrong; missing when none was measured.
/// </summary>
public sealed class SharpFromDullComparer : IMeasurandComparer
{
    /// <summary>A rounding this many times that of as-new is dull: far above any difference between two ground edges, far below the dull edges of the sets.</summary>
    private const double DullRatio = 2;

    /// <summary>Length over which the program, too, takes its greatest reflection width, mm.</summary>
    private const double WindowMm = 0.5;

    /// <inheritdoc />
    public string Name => "toldSharpFromDull";

    /// <inheritdoc />
    public string Unit => "share told wrong";

    /// <inheritdoc />
    public Comparison Compare(FaceCase face)
    {
        if (face.Baseline is not { } baseline) return Comparison.NotApplicable;
        EdgePart[] dull = [.. Enum.GetValues<EdgePart>().Where(part => Cuts(face, part) && GreatestRadiusUm(face.Truth, face, part) > DullRatio * GreatestRadiusUm(baseline.Truth, face, part))];
        if (dull.Length == 0) return Comparison.NotApplicable;
        bool[] told =
        [
            .. from part in dull
               let now = GreatestWidthUm(face.Seen, part)
               let then = GreatestWidthUm(baseline.Seen, part)
               where now is not null && then is not null
               select now > then,
        ];
        return told.Length == 0 ? Comparison.AllMissing(1) : new([new ErrorSample(told.All(right => right) ? 0 : 1, null)], 0);
    }

    private static double? GreatestWidthUm(SeenFace? seen, EdgePart part) =>
        seen?.Measurement.Light.Edges.FirstOrDefault(edge => edge.Part == part)?.GreatestReflectionWidthUm.Measured?.Value;

    private static bool Cuts(FaceCase face, EdgePart part) => part == EdgePart.Toe || !face.Family.TipCuts;

    /// <summary>Greatest mean of the true edge radius over <see cref="WindowMm"/> within a part, µm; 0 where the part is shorter.</summary>
    private static double GreatestRadiusUm(FaceTruth truth, FaceCase face, EdgePart part)
    {
        (double Arc, double RadiusUm)[] within =
        [
            .. from sample in truth.WorkingEnd.EdgeRadiusUm
               let arc = sample[0]
               where truth.IsMeasured(truth.Outline.At(truth.Outline.PlaceAt(arc))) && truth.PartAt(arc, face.Family) == part
               select (arc, sample[1]),
        ];
        double greatest = 0;
        for (int first = 0; first < within.Length; first++)
        {
            (double Arc, double RadiusUm)[] window = [.. within.Skip(first).TakeWhile(sample => sample.Arc <= within[first].Arc + WindowMm)];
            bool isWhole = window[^1].Arc - window[0].Arc > 0.8 * WindowMm;
            if (isWhole) greatest = Math.Max(greatest, window.Average(sample => sample.RadiusUm));
        }
        return greatest;
    }
}
