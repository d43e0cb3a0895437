using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Measuring.Pictures;

namespace EdgeLens.Cli.Inspecting;

/// <summary>Reads and measures face views. Whatever is wrong with one comes back as a refusal, so that it stops no other.</summary>
/// <param name="card">In the photographs.</param>
/// <param name="lens">That they were taken with, if known.</param>
/// <param name="policy">Its sharp limit is measured by.</param>
/// <param name="trace">Told where the program broke down, if it does.</param>
public sealed class FaceReader(CardDescription card, LensProfile? lens, Policy policy, Action<string> trace)
{
    /// <summary>Measures one file.</summary>
    /// <param name="path">Of the photograph.</param>
    /// <param name="family">As the user states it.</param>
    /// <param name="print">Null when the bars were not measured.</param>
    /// <param name="heightOverCardMm">Of the face over the card.</param>
    /// <param name="baseline">The as-new measurement, if there is one.</param>
    /// <exception cref="OpenCvMissingException">No photograph can be measured on this machine.</exception>
    public FaceReading Read(string path, FamilyTraits family, PrintMeasurement? print, Measured heightOverCardMm, FaceMeasurement? baseline)
    {
        try
        {
            if (!PhotographReader.Read(path).TryGet(out Photograph? photograph, out Refusal? refusal)) return new(path, null, refusal, null, null, ExitCode.Refused);
            using (photograph) return Measure(path, photograph, family, print, heightOverCardMm, baseline);
        }
        catch (PhotographUnreadableException e)
        {
            return new(path, null, new("file-unreadable", $"{Path.GetFileName(path)} cannot be read: it is missing or must not be read.", "Check the file's name and place, and that it may be read."), null, null, Told(e, ExitCode.File));
        }
        catch (Exception e) when (e is not OpenCvMissingException)
        {
            // The rim of a batch: a mistake of ours in one photograph is told and does not take the others' reports away.
            return new(
                path, null, new("program-broke-down", $"The program broke down on this photograph ({e.GetType().Name}).", "This is a mistake in the program: please report it together with the photograph."), null, null, Told(e, ExitCode.BrokeDown));
        }
    }

    private ExitCode Told(Exception e, ExitCode code)
    {
        trace(code == ExitCode.BrokeDown ? e.ToString() : e.Message);
        return code;
    }

    private FaceReading Measure(string path, Photograph photograph, FamilyTraits family, PrintMeasurement? print, Measured heightOverCardMm, FaceMeasurement? baseline)
    {
        DateOnly? takenOn = photograph.Source.TakenAt is { } time ? DateOnly.FromDateTime(time) : null;
        FaceInspector inspector = new(card, new InspectorOptions { SharpLimitUm = policy.For(family.Family).SharpLimitUm });
        return inspector.Measure(photograph, family, print ?? PrintMeasurement.NotMeasured(card), heightOverCardMm, lens, baseline).TryGet(out FaceResult? face, out Refusal? refusal)
            ? new(path, face, null, WorkingEndPicture.Of(photograph, face, baseline), takenOn, ExitCode.Done)
            : new(path, null, refusal, WorkingEndPicture.OfRefused(photograph), takenOn, ExitCode.Refused);
    }
}
