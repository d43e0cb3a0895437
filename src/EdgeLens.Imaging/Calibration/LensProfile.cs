using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using MathNet.Numerics.LinearAlgebra;

namespace EdgeLens.Imaging.Calibration;

/// <summary>A phone with its loupe or macro lens, as several photographs of the card show it. Made by <see cref="LensProfiler"/> or read from a file.</summary>
/// <remarks>Holds for pictures of the same aspect: a scaled picture has a scaled profile, a cropped or turned one has none.</remarks>
public sealed record LensProfile
{
    /// <summary>
    /// Relative standard uncertainty that refocusing adds to the focal length from one photograph to the next. With a magnification m of about 0.3 the
    /// image lies f (1 + m) behind the lens; a distance that differs by 5 % changes m by as much and so the focal length in pixels by
    /// m / (1 + m) times 5 %, about 1 %. k1, measured in units of the focal length squared, is taken to move by twice as much.
    /// </summary>
    public const double RefocusSpread = 0.01;

    /// <summary>Aspects are alike when scaling the picture's width and height by one factor leaves less than a pixel of difference.</summary>
    private const double SizeTolerancePx = 1;

    internal LensProfile(string name, int widthPx, int heightPx, CameraModel camera, ImmutableArray<double> covariance, int photographCount, double cornerResidualPx, DateOnly date) =>
        (Name, WidthPx, HeightPx, Camera, Covariance, PhotographCount, CornerResidualPx, Date) =
        (name, widthPx, heightPx, camera, covariance, photographCount, cornerResidualPx, date);

    /// <summary>Given by the user.</summary>
    public string Name { get; }

    /// <summary>Of the photographs.</summary>
    public int WidthPx { get; }

    /// <summary>Of the photographs.</summary>
    public int HeightPx { get; }

    /// <summary>The lens.</summary>
    public CameraModel Camera { get; }

    /// <summary>Of the errors of focal length (px), k1, principal point x and y (px): 4 x 4, row by row.</summary>
    public ImmutableArray<double> Covariance { get; }

    /// <summary>Photographs that it was made from.</summary>
    public int PhotographCount { get; }

    /// <summary>Root mean square of the corners' residuals, pixels per coordinate.</summary>
    public double CornerResidualPx { get; }

    /// <summary>When it was made, as the caller said.</summary>
    public DateOnly Date { get; }

    /// <summary>When it was held against a thing of known size, the oldest first.</summary>
    public ImmutableArray<LensVerification> Verifications { get; init; } = [];

    /// <summary>The latest verification's date when it is due again; null when there was none.</summary>
    public DateOnly? VerificationDue => Verifications.IsDefaultOrEmpty ? null : Verifications.MaxBy(v => v.Date)!.Due;

    /// <summary>Focal length with its uncertainty, pixels; refocusing not included.</summary>
    public Measured FocalLengthPx => new(Camera.FocalLengthPx, Math.Sqrt(Covariance[0]));

    /// <summary>Radial term with its uncertainty.</summary>
    public Measured K1 => new(Camera.K1, Math.Sqrt(Covariance[5]));

    /// <summary>Principal point with its uncertainty, pixels.</summary>
    public Measured CentreXPx => new(Camera.CentreXPx, Math.Sqrt(Covariance[10]));

    /// <summary>Principal point with its uncertainty, pixels.</summary>
    public Measured CentreYPx => new(Camera.CentreYPx, Math.Sqrt(Covariance[15]));

    /// <summary>The same lens for a picture of another size but the same aspect.</summary>
    /// <returns>The scaled profile, or a refusal <c>lens-profile-size</c>.</returns>
    public Outcome<LensProfile> For(int widthPx, int heightPx)
    {
        double s = (double)widthPx / WidthPx;
        if (Math.Abs(HeightPx * s - heightPx) > SizeTolerancePx)
            return new Refusal(
                "lens-profile-size", FormattableString.Invariant($"The lens profile {Name} is for pictures of {WidthPx} x {HeightPx} px; this one has {widthPx} x {heightPx} px, another aspect."),
                "Take photographs in the same format and the same way up, uncropped, or make a new profile.", (double)widthPx / heightPx, (double)WidthPx / HeightPx, "width over height");
        double[] factor = [s, 1, s, s];
        return new LensProfile(
            Name, widthPx, heightPx,
            new(s * Camera.FocalLengthPx, s * (Camera.CentreXPx + 0.5) - 0.5, s * (Camera.CentreYPx + 0.5) - 0.5, Camera.K1),
            [.. Covariance.Select((c, i) => c * factor[i / 4] * factor[i % 4])], PhotographCount, s * CornerResidualPx, Date)
        {
            Verifications = Verifications,
        };
    }

    /// <summary>Covariance of ln f, k1, cx, cy for one more photograph: with what refocusing adds.</summary>
    internal Matrix<double> PriorCovariance()
    {
        double[] factor = [1 / Camera.FocalLengthPx, 1, 1, 1];
        Matrix<double> c = Matrix<double>.Build.Dense(4, 4, (i, j) => Covariance[4 * i + j] * factor[i] * factor[j]);
        c[0, 0] += RefocusSpread * RefocusSpread;
        // The picture shows k1 / f² far better than 1 %: were k1 taken for fixed, it would pretend to know the focal length as well.
        c[1, 1] += Math.Pow(2 * RefocusSpread * Camera.K1, 2);
        return c;
    }

    /// <summary>The profile as a JSON file.</summary>
    public string ToJson() => LensProfileFile.Write(this);

    /// <summary>Reads and checks a profile file.</summary>
    /// <returns>The profile, or a refusal <c>lens-profile-file</c> that names the field, its value and what it must be.</returns>
    public static Outcome<LensProfile> FromJson(string json) => LensProfileFile.Read(json);
}
