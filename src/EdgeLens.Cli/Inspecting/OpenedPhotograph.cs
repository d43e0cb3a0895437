using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Tags;

namespace EdgeLens.Cli.Inspecting;

/// <summary>A photograph that is decoded and its card looked for, so that what lies beside the blade can be read before it is measured.</summary>
/// <param name="photo">Taken over: disposed with this.</param>
/// <param name="calibration">By its card, or why there is none.</param>
public sealed class OpenedPhotograph(Photograph photo, Outcome<CardCalibration> calibration) : IDisposable
{
    /// <summary>Borrowed.</summary>
    public Photograph Photo => photo;

    /// <summary>By its card, or why there is none.</summary>
    public Outcome<CardCalibration> Calibration => calibration;

    /// <summary>Numbers of the tags that lie on the card; none where there is no card.</summary>
    public ImmutableArray<int> ReadTags() => calibration.TryGet(out CardCalibration? known, out _) ? TagReader.Read(photo, known) : [];

    /// <inheritdoc />
    public void Dispose() => photo.Dispose();
}
