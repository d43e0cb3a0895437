using System.Diagnostics;
using EdgeLens.Accuracy.Comparing;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Accuracy.Running;

/// <summary>Stands where a user stands: gives the program a file and what is known of it, and takes what comes back. The only place where the bench calls the pipeline.</summary>
/// <param name="card">The card in the photographs.</param>
public sealed class ProgramUser(CardDescription card)
{
    private readonly FaceInspector _faces = new(card, new InspectorOptions());
    private readonly AngleInspector _angles = new(card, new InspectorOptions());

    /// <summary>Measures a photograph; a face view with a baseline is compared and judged too.</summary>
    /// <param name="path">Of the photograph.</param>
    /// <param name="family">As the user states it.</param>
    /// <param name="view">As the user states it.</param>
    /// <param name="bars">The print as measured; null when it was not.</param>
    /// <param name="heightOverCardMm">Nominal, with its standard uncertainty.</param>
    /// <param name="baseline">The as-new measurement, if there is one.</param>
    /// <param name="today">The face view of the same day, if there is one.</param>
    public Reply Ask(string path, FamilyTraits family, PhotographView view, PrintMeasurement? bars, Measured heightOverCardMm, FaceMeasurement? baseline, FaceMeasurement? today = null)
    {
        Stopwatch clock = Stopwatch.StartNew();
        try
        {
            Reply reply = Measure(path, family, view, bars ?? PrintMeasurement.NotMeasured(card), heightOverCardMm, baseline, today);
            return reply with { Seconds = clock.Elapsed.TotalSeconds };
        }
        catch (Exception e) when (e is not OpenCvMissingException)
        {
            // One photograph that breaks the program must not hide what it does with the others: it counts as refused for the wrong reason.
            return new(null, new Refusal(Reply.CrashCode, e.Message, e.StackTrace ?? ""), null, null, null, clock.Elapsed.TotalSeconds);
        }
    }

    private Reply Measure(string path, FamilyTraits family, PhotographView view, PrintMeasurement bars, Measured height, FaceMeasurement? baseline, FaceMeasurement? today)
    {
        if (!PhotographReader.Read(path).TryGet(out Photograph? photograph, out Refusal? refusal)) return Refused(refusal);
        using (photograph)
        {
            if (!CardStage.Calibrate(photograph, card, bars, null).TryGet(out CardCalibration? calibration, out refusal)) return Refused(refusal);
            PhotographView? seen = ViewRecogniser.Recognise(photograph, calibration, card, family.Family);
            if (ViewRecogniser.Contradiction(view, seen) is { } wrong) return Refused(wrong) with { View = seen };
            if (view != PhotographView.Face)
                return _angles.Measure(photograph, calibration, family, view, today).TryGet(out AngleMeasurement? angles, out refusal)
                    ? new(null, null, null, null, null, 0) { Angles = angles, View = seen }
                    : Refused(refusal) with { View = seen };
            if (!_faces.Measure(photograph, calibration, family, height, baseline).TryGet(out FaceResult? face, out refusal)) return Refused(refusal) with { View = seen };
            DriftMeasurement? drift = null;
            Refusal? driftRefusal = null;
            if (baseline is not null) DriftEstimator.Estimate(baseline, face.Measurement).TryGet(out drift, out driftRefusal);
            Verdict verdict = VerdictDecider.Decide(face.Measurement, drift, Policy.Default);
            return new(Seen(face, height.Value), null, drift, driftRefusal, verdict.Kind, 0) { View = seen };
        }
    }

    private static Reply Refused(Refusal refusal) => new(null, refusal, null, null, VerdictKind.Retake, 0);

    private static SeenFace Seen(FaceResult face, double heightMm)
    {
        Similarity cardFromBlade = face.Measurement.Outline.BladeFromCard.Inverse();
        CardCalibration calibration = face.Calibration;
        return new(face.Measurement, place =>
            {
                Vector2 onCard = cardFromBlade.Apply(new(place.XMm, place.ZMm));
                return calibration.Project(new(onCard.X, onCard.Y), heightMm);
            },
            pixel => calibration.MmPerPx(calibration.ToPlane(pixel, heightMm), heightMm));
    }
}
