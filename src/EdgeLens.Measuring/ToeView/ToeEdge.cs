using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Measuring.ToeView;

/// <summary>The cutting edge at the toe as the camera sees it: a flat U in the plane of the face, seen almost on edge.</summary>
/// <param name="Middle">Below the apex, where the chord of the two corners would be: origin of the frame, pixels.</param>
/// <param name="Along">Unit direction of the face line in the picture, pointing right.</param>
/// <param name="TurnSigmaRad">Standard uncertainty of that direction from the fit.</param>
/// <param name="MiddleSigmaMm">Standard uncertainty of the middle's place along the face line.</param>
/// <param name="HalfWidthMm">Half width of the toe, with its uncertainty.</param>
/// <param name="ViewX">View direction along the face line, right positive, as fitted.</param>
/// <param name="ViewY">View direction out of the face, as fitted.</param>
/// <param name="Taper">Slope of the blade's sides in the face, as fitted.</param>
/// <param name="MmPerPx">At the toe.</param>
/// <param name="Seen">How well it is seen: contrast times length, falling with the distance from what is expected.</param>
internal sealed record ToeEdge(
    PixelPoint Middle, Vector2 Along, double TurnSigmaRad, double MiddleSigmaMm, Measured HalfWidthMm, double ViewX, double ViewY, double Taper, double MmPerPx, double Seen)
{
    /// <summary>A place in the picture from millimetres along the face line and out of the face.</summary>
    public PixelPoint At(double alongMm, double outMm)
    {
        Vector2 up = -1 * Along.Perpendicular;
        return new(Middle.X + (alongMm * Along.X + outMm * up.X) / MmPerPx, Middle.Y + (alongMm * Along.Y + outMm * up.Y) / MmPerPx);
    }

    /// <summary>Height of the edge's picture over the frame's origin at a place along the face line, mm: between the corners, on the toe.</summary>
    public double Height(double alongMm)
    {
        // x = w sin u + s vx, s = w (1 - cos u), u from the apex: three rounds leave less than a micrometre, vx being a tenth at most.
        double w = HalfWidthMm.Value, s = 0;
        for (int i = 0; i < 4; i++)
        {
            double sin = Math.Clamp((alongMm - s * ViewX) / w, -1, 1);
            s = w * (1 - Math.Sqrt(1 - sin * sin));
        }
        return s * ViewY;
    }

    /// <summary>Where the edge's picture reaches farthest to a side: the corner at which the lateral surface turns out of sight.</summary>
    /// <param name="side">1 right in the picture, -1 left.</param>
    public (double AlongMm, double OutMm) Corner(int side)
    {
        (double X, double Y) best = (0, 0);
        foreach ((double x, double y) in ToeEdgeModel.Curve(HalfWidthMm.Value, Taper, ViewX, ViewY, HalfWidthMm.Value))
            if (side * x > side * best.X) best = (x, y);
        return best;
    }

    // Without a seen corner the edge's end is where the followed path ended, which may run on along other borders: 6 px rms on rendered toes.
    private const double UnseenEndPx = 6;

    /// <summary>
    /// The edge with the uncertainty that its two ends leave to its width, its middle and, since the U is seen as an arc of curvature vy / w, with the middle to its
    /// direction.
    /// </summary>
    /// <param name="left">What is seen of the left side.</param>
    /// <param name="right">The same on the right.</param>
    public ToeEdge WithEnds(SeenSide left, SeenSide right)
    {
        double sigmaMm = Quadrature.Sum(End(left), End(right)) / 2;
        return this with
        {
            HalfWidthMm = HalfWidthMm.WithAdded(sigmaMm),
            MiddleSigmaMm = Quadrature.Sum(MiddleSigmaMm, sigmaMm),
            TurnSigmaRad = Quadrature.Sum(TurnSigmaRad, ViewY * sigmaMm / HalfWidthMm.Value),
        };

        // A corner that says less than the path's end is no better than none.
        double End(SeenSide side) => Math.Min(UnseenEndPx * MmPerPx, side.Corner is null ? double.MaxValue : side.EndSigmaMm(this));
    }

    /// <summary>A place of the toe's edge in the picture.</summary>
    /// <param name="side">1 right in the picture, -1 left.</param>
    /// <param name="azimuthRad">Of the edge's normal: 0 at the side, 90° at the apex.</param>
    public (double AlongMm, double OutMm) OnEdge(int side, double azimuthRad)
    {
        (double sin, double cos) = Math.SinCos(azimuthRad);
        double w = HalfWidthMm.Value, behind = w * (1 - sin);
        return (side * w * cos + behind * ViewX, behind * ViewY);
    }

    /// <summary>True where the U folds back at the toe on a side, so that the lateral surface there turns out of sight in focus.</summary>
    /// <param name="side">1 right in the picture, -1 left.</param>
    public bool Folds(int side) => ToeEdgeModel.Fold(ToeEdgeModel.Curve(HalfWidthMm.Value, Taper, ViewX, ViewY), side) is not null;
}
