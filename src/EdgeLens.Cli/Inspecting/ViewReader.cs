using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Measuring.Pictures;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Cli.Inspecting;

/// <summary>Reads and measures photographs of any view. Whatever is wrong with one comes back as a refusal, so that it stops no other.</summary>
/// <param name="card">In the photographs.</param>
/// <param name="lens">That they were taken with, if known.</param>
/// <param name="policy">Its sharp limit is measured by.</param>
/// <param name="trace">Told where the program broke down, if it does.</param>
public sealed class ViewReader(CardDescription card, LensProfile? lens, Policy policy, Action<string> trace)
{
    /// <summary>True: each face view is also drawn in the frame of its as-new outline.</summary>
    public bool Registers { get; init; }

    /// <summary>Measures one file.</summary>
    /// <param name="photograph">File, and what the user knows of it.</param>
    /// <param name="family">As the user states it.</param>
    /// <param name="baseline">The as-new face view, if there is one.</param>
    /// <param name="today">The face view of the same day, which a toe or side view's measurement draws on; null where there is none.</param>
    /// <exception cref="OpenCvMissingException">No photograph can be measured on this machine.</exception>
    public ViewReading Read(ListedPhotograph photograph, FamilyTraits family, FaceMeasurement? baseline, FaceMeasurement? today = null)
    {
        string path = photograph.Path;
        PhotographView view = photograph.View ?? PhotographView.Face;
        try
        {
            if (photograph.Opened is { } ready) return Measure(photograph, ready, family, baseline, today);
            if (!Open(photograph).TryGet(out OpenedPhotograph? opened, out Refusal? refusal)) return new(path, view, refusal, ExitCode.Refused);
            using (opened) return Measure(photograph, opened, family, baseline, today);
        }
        catch (PhotographUnreadableException e)
        {
            return new(path, view, new("file-unreadable", $"{Path.GetFileName(path)} cannot be read: it is missing or must not be read.", "Check the file's name and place, and that it may be read."), Told(e, ExitCode.File));
        }
        catch (Exception e) when (e is not OpenCvMissingException)
        {
            // The rim of a batch: a mistake of ours in one photograph is told and does not take the others' reports away.
            return new(path, view, new("program-broke-down", $"The program broke down on this photograph ({e.GetType().Name}).", "This is a mistake in the program: please report it together with the photograph."), Told(e, ExitCode.BrokeDown));
        }
    }

    /// <summary>Decodes a file and looks for its card.</summary>
    /// <param name="photograph">File, and what the user knows of its card.</param>
    /// <returns>Owned by the caller; or why the file cannot be decoded.</returns>
    /// <exception cref="PhotographUnreadableException">The file is not there or cannot be read.</exception>
    public Outcome<OpenedPhotograph> Open(ListedPhotograph photograph)
    {
        if (!PhotographReader.Read(photograph.Path).TryGet(out Photograph? photo, out Refusal? refusal)) return refusal;
        try
        {
            return new OpenedPhotograph(photo, CardStage.Calibrate(photo, card, photograph.Print ?? PrintMeasurement.NotMeasured(card), lens));
        }
        catch
        {
            photo.Dispose();
            throw;
        }
    }

    /// <summary>Which view a photograph shows; null where its card or the steel cannot be seen.</summary>
    /// <param name="opened">By <see cref="Open"/>; borrowed.</param>
    /// <param name="family">As the user states it.</param>
    public PhotographView? ViewOf(OpenedPhotograph opened, FamilyTraits family) =>
        opened.Calibration.TryGet(out CardCalibration? calibration, out _) ? ViewRecogniser.Recognise(opened.Photo, calibration, card, family.Family) : null;

    private ExitCode Told(Exception e, ExitCode code)
    {
        trace(code == ExitCode.BrokeDown ? e.ToString() : e.Message);
        return code;
    }

    private ViewReading Measure(ListedPhotograph listed, OpenedPhotograph opened, FamilyTraits family, FaceMeasurement? baseline, FaceMeasurement? today)
    {
        InspectorOptions options = new() { SharpLimitUm = policy.For(family.Family).SharpLimitUm };
        Photograph photo = opened.Photo;
        PhotographView view = listed.View ?? PhotographView.Face;
        if (!opened.Calibration.TryGet(out CardCalibration? calibration, out Refusal? refusal)) return Refused(refusal);
        PhotographView? seen = ViewRecogniser.Recognise(photo, calibration, card, family.Family);
        view = listed.View ?? seen ?? PhotographView.Face;
        if (ViewRecogniser.Contradiction(listed.View, seen) is { } wrong) return Refused(wrong);
        if (view == PhotographView.Face)
            return new FaceInspector(card, options).Measure(photo, calibration, family, listed.HeightOverCardMm, baseline).TryGet(out FaceResult? face, out refusal)
                ? new(listed.Path, view, null, ExitCode.Done) { Face = face, Picture = WorkingEndPicture.Of(photo, face, baseline) with { Registered = Registers ? RegisteredPicture.Of(photo, face, baseline) : null } }
                : Refused(refusal);
        return new AngleInspector(card, options).Measure(photo, calibration, family, view, today).TryGet(out AngleMeasurement? angles, out refusal)
            ? new(listed.Path, view, null, ExitCode.Done) { Angles = angles, AnglePictures = AnglePicture.Of(photo, angles) }
            : Refused(refusal);

        ViewReading Refused(Refusal why) => new(listed.Path, view, why, ExitCode.Refused) { Picture = view == PhotographView.Face ? WorkingEndPicture.OfRefused(photo) : null };
    }
}
