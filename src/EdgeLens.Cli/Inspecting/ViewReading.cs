using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Measuring.Pictures;

namespace EdgeLens.Cli.Inspecting;

/// <summary>What came of one photograph: a result or a refusal, never an exception.</summary>
/// <param name="Path">Of the file.</param>
/// <param name="View">As stated; as recognised where nothing was stated; the face view where neither could be.</param>
/// <param name="Refusal">Null when measured.</param>
/// <param name="Code">What this photograph alone would end the program with.</param>
public sealed record ViewReading(string Path, PhotographView View, Refusal? Refusal, ExitCode Code)
{
    /// <summary>Of a face view; null when refused.</summary>
    public FaceResult? Face { get; init; }

    /// <summary>Of a toe or side view; null when refused.</summary>
    public AngleMeasurement? Angles { get; init; }

    /// <summary>Face view to be shown; null when the file could not be read.</summary>
    public WorkingEndPicture? Picture { get; init; }

    /// <summary>Toe or side view to be shown, with its lines.</summary>
    public ImmutableArray<AnglePicture> AnglePictures { get; init; } = [];
}
