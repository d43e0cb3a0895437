using EdgeLens.Accuracy.Comparing;
using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Accuracy.Running;

/// <summary>Gives every photograph of a set to the program and holds what it says against the truth.</summary>
/// <param name="set">The photographs.</param>
/// <param name="progress">Told before each photograph.</param>
public sealed class Bench(DatasetReader set, Action<string> progress)
{
    /// <summary>A face view's height limit where the set gives none (photographs to be refused), mm (measurands.md).</summary>
    private const double UsualHeightLimitMm = 1.5;

    private readonly ProgramUser _user = new(ReadCard(set));

    /// <summary>Runs the whole set.</summary>
    /// <exception cref="DatasetException">A truth file is not in the right form, or a family is not known.</exception>
    public BenchRun Run()
    {
        List<GoodPhoto> good = [];
        foreach (WorkingEndEntry end in set.Index.Instruments) good.AddRange(RunWorkingEnd(end));
        List<BadPhoto> bad = [];
        foreach (RefuseEntry photo in set.Index.Refuse)
        {
            progress(photo.File);
            bad.Add(new(photo.File, photo.Reason, _user.Ask(set.PathOf(photo.File), FamilyOf(photo.Family), ViewOf(photo.View), null, Height(0, null), null)));
        }
        return new([.. good], [.. bad]);
    }

    private IEnumerable<GoodPhoto> RunWorkingEnd(WorkingEndEntry end)
    {
        FamilyTraits family = FamilyOf(end.Family);
        BaselineCase? baseline = null;
        foreach (InspectionEntry day in end.Inspections)
        {
            SeenFace? today = null;
            foreach (PhotoEntry photo in day.Photos)
            {
                progress(photo.File);
                PhotographView view = ViewOf(photo.View);
                PrintMeasurement? bars = photo.BarsMeasuredMm is [var x, var y] ? PrintMeasurement.FromReadings(x, y) : null;
                Reply reply = _user.Ask(set.PathOf(photo.File), family, view, bars, Height(photo.HeightOverCardMm, photo.HeightLimitMm), day.AsNew ? null : baseline?.Seen?.Measurement, today?.Measurement);
                today ??= reply.Seen;
                Comparison told = Measurands.Told(reply.View?.ToString(), view.ToString());
                if (view != PhotographView.Face)
                {
                    WorkingEndTruth shape = set.ReadAngles(photo);
                    AngleCase angles = new(family, shape, reply.Angles);
                    Comparison edge = Measurands.Told(reply.Angles?.CuttingEdges?.ToString().ToLowerInvariant(), shape.WorkingEdge);
                    yield return new(photo.File, end.Family, reply, [.. Measurands.All.Select(_ => Comparison.NotApplicable), .. Measurands.Angles.Select(a => a.Compare(angles)), edge, told], []);
                    continue;
                }
                FaceTruth truth = set.ReadTruth(photo);
                FaceCase face = new(family, truth, reply.Seen, day.AsNew ? null : baseline, reply.Drift);
                if (day.AsNew) baseline = new(truth, reply.Seen);
                yield return new(photo.File, end.Family, reply, [.. Measurands.All.Select(m => m.Compare(face)), .. Measurands.Angles.Select(_ => Comparison.NotApplicable), Comparison.NotApplicable, told], [.. EdgeStretch.All(face)]);
            }
        }
    }

    private static CardDescription ReadCard(DatasetReader set) =>
        CardDescription.FromJson(File.ReadAllText(set.PathOf(set.Index.Card))).TryGet(out CardDescription? card, out Refusal? refusal)
            ? card
            : throw new DatasetException($"{set.PathOf(set.Index.Card)}: {refusal}");

    private static FamilyTraits FamilyOf(string name) => FamilyTraits.Named(name) ?? throw new DatasetException($"index.json: there is no family {name}.");

    private static PhotographView ViewOf(string name) => name switch
    {
        "face" => PhotographView.Face,
        "toe" => PhotographView.Toe,
        "side" => PhotographView.Side,
        _ => throw new DatasetException($"index.json: there is no view {name}."),
    };

    private static Measured Height(double nominalMm, double? limitMm) => new(nominalMm, Quadrature.FromLimits(limitMm ?? UsualHeightLimitMm));
}
