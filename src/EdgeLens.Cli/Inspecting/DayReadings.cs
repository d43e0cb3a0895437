using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Folders;

namespace EdgeLens.Cli.Inspecting;

/// <summary>The photographs of one day: one of the face, one that shows the angles; what is more is left out.</summary>
/// <param name="Face">Null when there is none.</param>
/// <param name="Angles">Toe or side view; null when there is none.</param>
/// <param name="LeftOut">Second photographs of a view.</param>
internal sealed record DayReadings(ViewReading? Face, ViewReading? Angles, ImmutableArray<PhotographNotMeasured> LeftOut)
{
    /// <summary>The mean of several as-new face views; null on other days and where there is one only.</summary>
    public BaselineAverage? Average { get; private init; }

    /// <summary>What later face views are compared with.</summary>
    public FaceMeasurement? BaselineFace => Average?.Mean ?? Face?.Face?.Measurement;

    /// <summary>
    /// Reads them in the order of the list, toe and side views last, since a toe view's measurement draws on the face view; the first of each view counts, but on the as-new day
    /// further face views make a mean with it.
    /// </summary>
    public static DayReadings Read(ViewReader reader, FamilyTraits family, ListedInspection day, FaceMeasurement? baseline, Action<string> progress)
    {
        ViewReading? face = null, angles = null;
        ListedPhotograph? readAlone = null;
        List<PhotographNotMeasured> leftOut = [];
        List<FaceMeasurement> further = [];
        foreach (ListedPhotograph photograph in day.Photographs.OrderBy(p => p.View is PhotographView.Toe or PhotographView.Side))
        {
            progress(photograph.Path);
            if (photograph.View is { } stated && IsTaken(stated) && !(day.IsAsNew && stated == PhotographView.Face))
            {
                LeaveOut(photograph, stated);
                continue;
            }
            ViewReading reading = reader.Read(photograph, family, baseline, face?.Face?.Measurement);
            if (day.IsAsNew && reading is { View: PhotographView.Face, Face: { } more } && face is not null) further.Add(more.Measurement);
            else if (IsTaken(reading.View)) LeaveOut(photograph, reading.View);
            else if (reading.View == PhotographView.Face) face = reading;
            else
            {
                angles = reading;
                if (face is null) readAlone = photograph;
            }
        }
        // Nobody had stated that it is a toe or side view, and it came before the face view.
        if (readAlone is not null && face?.Face is { } today) angles = reader.Read(readAlone, family, baseline, today.Measurement);
        return new(face, angles, [.. leftOut])
        {
            Average = further.Count > 0 && face?.Face is { } first ? BaselineAverage.Of([first.Measurement, .. further]) : null,
        };

        bool IsTaken(PhotographView view) => (view == PhotographView.Face ? face : angles) is not null;

        void LeaveOut(ListedPhotograph photograph, PhotographView view)
        {
            string file = Path.GetFileName(photograph.Path), name = view.ToString().ToLowerInvariant();
            leftOut.Add(new(file, view, $"A second {name} view ({file}) was left out: one is used for each day."));
        }
    }
}
