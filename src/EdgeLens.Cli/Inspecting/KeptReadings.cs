using EdgeLens.Assessment.Instruments;
using EdgeLens.Cli.Folders;

namespace EdgeLens.Cli.Inspecting;

/// <summary>
/// As-new photographs that were measured lately: every later photograph of a working end is compared with the same ones. Only for photographs whose path tells their content, as in a
/// book, and with one card, lens and policy: the one that holds this holds those.
/// </summary>
/// <param name="capacity">Days kept, a few megabytes each; those that were not asked for longest go.</param>
public sealed class KeptReadings(int capacity)
{
    private readonly Lock _gate = new();
    private readonly LinkedList<(InstrumentFamily Family, ListedInspection Day, DayReadings Readings)> _kept = [];

    /// <summary>The day as it was measured; measured now where it is not kept.</summary>
    internal DayReadings Of(InstrumentFamily family, ListedInspection day, Func<DayReadings> measure)
    {
        lock (_gate)
        {
            for (var node = _kept.First; node is not null; node = node.Next)
            {
                if (node.Value.Family != family || !node.Value.Day.Photographs.SequenceEqual(day.Photographs)) continue;
                _kept.Remove(node);
                _kept.AddFirst(node);
                return node.Value.Readings;
            }
        }
        DayReadings readings = measure();
        // What was not measured may have had a reason that passes, such as a file that was away.
        if (readings.BaselineFace is null) return readings;
        lock (_gate)
        {
            _kept.AddFirst((family, day, readings));
            if (_kept.Count > capacity) _kept.RemoveLast();
        }
        return readings;
    }
}
