using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Reports;

/// <summary>A crop of today's toe or side view with the fitted lines in its own pixels. The caller maps, as for <see cref="ReportPhotograph"/>.</summary>
public sealed record ReportAnglePhotograph
{
    /// <param name="jpeg">The crop as a JPEG file.</param>
    /// <param name="widthPx">Of the crop.</param>
    /// <param name="heightPx">Of the crop.</param>
    /// <param name="lines">In the crop.</param>
    /// <exception cref="ArgumentException">The bytes are no JPEG file, or a size is not above 0.</exception>
    public ReportAnglePhotograph(ReadOnlyMemory<byte> jpeg, int widthPx, int heightPx, ImmutableArray<FittedLine> lines)
    {
        (Jpeg, WidthPx, HeightPx, Lines) = (EmbeddedJpeg.Checked(jpeg, widthPx, heightPx), widthPx, heightPx, lines);
    }

    /// <summary>The crop as a JPEG file.</summary>
    public ReadOnlyMemory<byte> Jpeg { get; }

    /// <summary>Width of the crop.</summary>
    public int WidthPx { get; }

    /// <summary>Height of the crop.</summary>
    public int HeightPx { get; }

    /// <summary>Fitted lines in the crop's pixels.</summary>
    public ImmutableArray<FittedLine> Lines { get; }
}
