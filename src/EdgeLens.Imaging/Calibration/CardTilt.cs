using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Calibration;

/// <summary>How the camera stands over the card: the card's normal towards the camera, seen in the camera's frame, leans by these angles.</summary>
/// <param name="XDeg">Lean along the picture's x: positive when the right of the picture is farther away.</param>
/// <param name="YDeg">Lean along the picture's y: positive when the bottom of the picture is farther away.</param>
/// <param name="CovarianceXYDeg2">Of the errors of the two, square degrees.</param>
public sealed record CardTilt(Measured XDeg, Measured YDeg, double CovarianceXYDeg2)
{
    /// <summary>Angle between the camera's axis and the card's normal.</summary>
    /// <remarks>
    /// Of a vector of two errors only the part along the lean counts; near zero lean the direction is unknown and the size of the whole error
    /// is an upper limit, so that the larger main axis of the covariance serves there.
    /// </remarks>
    public Measured TotalDeg
    {
        get
        {
            double x = XDeg.Value, y = YDeg.Value, vx = Square(XDeg.StandardUncertainty), vy = Square(YDeg.StandardUncertainty);
            double total = Math.Sqrt(x * x + y * y), largest = (vx + vy) / 2 + Math.Sqrt(Square((vx - vy) / 2) + Square(CovarianceXYDeg2));
            double along = total * total > largest ? (x * x * vx + y * y * vy + 2 * x * y * CovarianceXYDeg2) / (total * total) : largest;
            return new(total, Math.Sqrt(Math.Max(along, 0)));
        }
    }

    private static double Square(double v) => v * v;
}
