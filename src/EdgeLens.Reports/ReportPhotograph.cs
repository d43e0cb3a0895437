using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Reports;

/// <summary>A crop of today's photograph round the working end, small enough to be part of the report, with the outlines in its own pixels.</summary>
/// <remarks>The caller maps; the report needs neither camera nor pictures library. Pixel centres are whole numbers, as everywhere.</remarks>
public sealed record ReportPhotograph
{
    /// <param name="jpeg">The crop as a JPEG file.</param>
    /// <param name="widthPx">Of the crop.</param>
    /// <param name="heightPx">Of the crop.</param>
    /// <param name="outlinePx">Today's outline in the crop, point by point as in today's measurement.</param>
    /// <param name="mmPerPx">Scale of the crop at the blade's middle; null where it is not known (a refused photograph).</param>
    /// <exception cref="ArgumentException">The bytes are no JPEG file, or a size or the scale is not above 0.</exception>
    public ReportPhotograph(ReadOnlyMemory<byte> jpeg, int widthPx, int heightPx, ImmutableArray<PixelPoint> outlinePx, double? mmPerPx)
    {
        if (mmPerPx is { } scale && (!(scale > 0) || !double.IsFinite(scale))) throw new ArgumentException("The scale must be above 0.", nameof(mmPerPx));
        Jpeg = EmbeddedJpeg.Checked(jpeg, widthPx, heightPx);
        WidthPx = widthPx;
        HeightPx = heightPx;
        OutlinePx = outlinePx;
        MmPerPx = mmPerPx;
    }

    /// <summary>The crop as a JPEG file.</summary>
    public ReadOnlyMemory<byte> Jpeg { get; }

    /// <summary>Width of the crop.</summary>
    public int WidthPx { get; }

    /// <summary>Height of the crop.</summary>
    public int HeightPx { get; }

    /// <summary>Today's outline in the crop, point by point as in today's measurement; empty when the photograph was refused.</summary>
    public ImmutableArray<PixelPoint> OutlinePx { get; }

    /// <summary>Scale of the crop at the blade's middle; null where it is not known.</summary>
    public double? MmPerPx { get; }

    /// <summary>The as-new outline, laid over by registration, in the crop's pixels; empty when there is none.</summary>
    public ImmutableArray<PixelPoint> BaselineOutlinePx { get; init; } = [];

    /// <summary>Each cutting edge unrolled straight; empty for none.</summary>
    public ImmutableArray<ReportEdgeStrip> Edges { get; init; } = [];
}

/// <summary>An edge of the photograph unrolled straight, the surroundings above and the steel below.</summary>
/// <param name="Part">Which edge.</param>
/// <param name="Jpeg">The file.</param>
/// <param name="FromMm">Place of its left border, as the drawings along the edge count it.</param>
/// <param name="ToMm">Place of its right border.</param>
/// <param name="EdgeShare">Where the edge lies, 0 top to 1 bottom.</param>
public sealed record ReportEdgeStrip(EdgePart Part, ReadOnlyMemory<byte> Jpeg, double FromMm, double ToMm, double EdgeShare);
