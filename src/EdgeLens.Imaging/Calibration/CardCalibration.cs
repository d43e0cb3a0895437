using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Cards;
using MathNet.Numerics.LinearAlgebra;

namespace EdgeLens.Imaging.Calibration;

/// <summary>Maps pixels of one photograph to true millimetres in planes parallel to the card and back, with the uncertainty of that.</summary>
/// <remarks>
/// Camera frame: x right, y down, z forward. Card frame: x right, y down, z into the card, so that a place h above the card (towards the
/// camera) has z = -h. Immutable, safe to share, holds no native memory.
/// </remarks>
public sealed class CardCalibration
{
    private readonly CardGeometry _geometry;
    private readonly Matrix<double> _covariance;
    private readonly BundlePriors _priors;
    private readonly DesignPoint _windowCentre;

    internal CardCalibration(CardGeometry geometry, Matrix<double> covariance, BundlePriors priors, CardDescription card, double cornerResidualPx, int cornerCount)
    {
        (_geometry, _covariance, _priors, _windowCentre) = (geometry, covariance, priors, card.Window.Centre);
        (CornerResidualPx, CornerCount) = (cornerResidualPx, cornerCount);
    }

    /// <summary>The lens.</summary>
    public CameraModel Camera => _geometry.Camera;

    /// <summary>Turns card axes into the camera's.</summary>
    public Rotation3 CameraFromCardRotation => _geometry.CameraFromCard;

    /// <summary>Where the card's top left corner is in the camera's frame, mm.</summary>
    public Vector3 CameraFromCardTranslationMm => _geometry.InCamera(new(0, 0), 0);

    /// <summary>Printed over nominal along x: the caliper's reading, slightly improved by the picture where that knows better.</summary>
    public Measured PrintScaleX => new(_geometry.PrintScaleX, _geometry.PrintScaleX * Math.Sqrt(_covariance[CardGeometry.LnPrintX, CardGeometry.LnPrintX]));

    /// <summary>Printed over nominal along y.</summary>
    public Measured PrintScaleY => new(_geometry.PrintScaleY, _geometry.PrintScaleY * Math.Sqrt(_covariance[CardGeometry.LnPrintY, CardGeometry.LnPrintY]));

    /// <summary>Radial term of the lens.</summary>
    public Measured K1 => new(Camera.K1, Math.Sqrt(_covariance[CardGeometry.K1, CardGeometry.K1]));

    /// <summary>Focal length, pixels.</summary>
    public Measured FocalLengthPx => new(Camera.FocalLengthPx, Camera.FocalLengthPx * Math.Sqrt(_covariance[CardGeometry.LnFocal, CardGeometry.LnFocal]));

    /// <summary>How far black reaches over its nominal border: spread ink and what the camera's sharpening adds, mm.</summary>
    public Measured InkSpreadMm => new(_geometry.InkSpreadMm, Math.Sqrt(_covariance[CardGeometry.Ink, CardGeometry.Ink]));

    /// <summary>Root mean square of the used corners' residuals, pixels per coordinate.</summary>
    public double CornerResidualPx { get; }

    /// <summary>Corners that were used.</summary>
    public int CornerCount { get; }

    /// <summary>The readings of the bars that it was made with; null where it was made from a known geometry.</summary>
    public PrintMeasurement? Print { get; init; }

    /// <summary>Camera to the card's plane, along the card's normal.</summary>
    public Measured DistanceMm => new(Distance(_geometry), Math.Sqrt(Variance(Gradient(Distance), _covariance)));

    /// <summary>How the camera leans.</summary>
    public CardTilt Tilt
    {
        get
        {
            Vector<double> x = Gradient(g => Lean(g).XDeg), y = Gradient(g => Lean(g).YDeg);
            (double xDeg, double yDeg) = Lean(_geometry);
            return new(new(xDeg, Math.Sqrt(Variance(x, _covariance))), new(yDeg, Math.Sqrt(Variance(y, _covariance))), x * _covariance * y);
        }
    }

    /// <summary>Angle of the camera's axis from the card's normal.</summary>
    public Measured TiltDeg => Tilt.TotalDeg;

    /// <summary>A place of the design on the printed card.</summary>
    public CardPoint Printed(DesignPoint p) => _geometry.Printed(p);

    /// <summary>Pixel of a place <paramref name="heightMm"/> above the card (towards the camera).</summary>
    public PixelPoint Project(CardPoint p, double heightMm) => _geometry.Project(p, heightMm);

    /// <summary>Where the line of sight of a pixel meets the plane <paramref name="heightMm"/> above the card: the exact inverse of <see cref="Project"/>.</summary>
    public CardPoint ToPlane(PixelPoint p, double heightMm) => _geometry.ToPlane(p, heightMm);

    /// <summary>Local scale: root of the area that one pixel covers in the plane, mm.</summary>
    public double MmPerPx(CardPoint p, double heightMm)
    {
        (Vector2 x, Vector2 y) = _geometry.PlanePerPixel(Project(p, heightMm), heightMm);
        return Math.Sqrt(Math.Abs(x.Cross(y)));
    }

    /// <summary>Unit vector from a place to the camera, card axes (x right, y down, z into the card; so z is negative).</summary>
    public Vector3 ViewDirection(CardPoint p, double heightMm) => _geometry.CameraFromCard.ApplyInverse(-1 * _geometry.InCamera(p, heightMm)).Unit;

    /// <summary>What lengths in the plane of the face are worth, at the window's middle.</summary>
    /// <param name="heightMm">Of the face over the card.</param>
    /// <param name="direction">Direction of the lengths on the card, any size; null for the less certain of x and y.</param>
    public ScaleBudget ScaleBudget(Measured heightMm, Vector2? direction = null)
    {
        if (direction is { } d) return Along(d.Unit, heightMm);
        ScaleBudget x = Along(new(1, 0), heightMm), y = Along(new(0, 1), heightMm);
        return x.RelativeStandardUncertainty > y.RelativeStandardUncertainty ? x : y;
    }

    /// <summary>
    /// The estimate is linear in what it was made of: an error e of a prior with information Λ moves it by C Λ e, so that gᵀ C Λ C g is the
    /// prior's part of the variance gᵀ C g, and the corners' part is what remains.
    /// </summary>
    private ScaleBudget Along(Vector2 direction, Measured height)
    {
        // A short stretch of the picture that today's geometry puts along the direction; what it covers on the card is then followed.
        PixelPoint pixel = Project(Printed(_windowCentre), height.Value);
        (Vector2 perX, Vector2 perY) = _geometry.PlanePerPixel(pixel, height.Value);
        Vector2 stretch = new(direction.Cross(perY) / perX.Cross(perY), perX.Cross(direction) / perX.Cross(perY));
        Vector<double> gradient = Gradient(g => LogLength(g, pixel, height.Value, stretch));
        Vector<double> reach = _covariance * gradient, shared = reach.SubVector(0, CardGeometry.SharedCount);
        double total = gradient * reach, print = shared * _priors.Print * shared, lens = shared * _priors.Lens * shared;
        if (_priors.DistanceMm is { } distance) lens += Square(reach[CardGeometry.Shift + 2] / distance.StandardUncertainty);
        const double h = 0.05;
        double perMm = (LogLength(_geometry, pixel, height.Value + h, stretch) - LogLength(_geometry, pixel, height.Value - h, stretch)) / (2 * h);
        return new(Math.Sqrt(Math.Max(0, total - print - lens)), Math.Sqrt(print), Math.Sqrt(lens), Math.Abs(perMm) * height.StandardUncertainty);
    }

    /// <summary>Logarithm of the millimetres that a stretch of the picture (pixels) covers in a plane.</summary>
    private static double LogLength(CardGeometry g, PixelPoint pixel, double heightMm, Vector2 stretch)
    {
        (Vector2 perX, Vector2 perY) = g.PlanePerPixel(pixel, heightMm);
        return Math.Log((stretch.X * perX + stretch.Y * perY).Length);
    }

    private Vector<double> Gradient(Func<CardGeometry, double> figure)
    {
        Vector<double> gradient = Vector<double>.Build.Dense(CardGeometry.ParameterCount);
        Span<double> step = stackalloc double[CardGeometry.ParameterCount];
        for (int i = 0; i < gradient.Count; i++)
        {
            // A hundredth of a standard deviation: small against any curvature, large against rounding.
            double h = 0.01 * Math.Sqrt(_covariance[i, i]);
            step[i] = h;
            double after = figure(_geometry.Moved(step));
            step[i] = -h;
            gradient[i] = (after - figure(_geometry.Moved(step))) / (2 * h);
            step[i] = 0;
        }
        return gradient;
    }

    private static double Distance(CardGeometry g) => g.CameraFromCard.Z.Dot(g.PivotInCamera);

    private static (double XDeg, double YDeg) Lean(CardGeometry g)
    {
        Vector3 n = g.CameraFromCard.Z;
        double sine = Math.Sqrt(n.X * n.X + n.Y * n.Y), perSine = (sine > 1e-9 ? Math.Atan2(sine, n.Z) / sine : 1) * 180 / Math.PI;
        return (-n.X * perSine, -n.Y * perSine);
    }

    private static double Variance(Vector<double> gradient, Matrix<double> covariance) => Math.Max(0, gradient * covariance * gradient);

    private static double Square(double v) => v * v;
}
