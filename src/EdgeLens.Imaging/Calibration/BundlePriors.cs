using EdgeLens.Geometry.Figures;
using MathNet.Numerics.LinearAlgebra;

namespace EdgeLens.Imaging.Calibration;

/// <summary>What is known before a corner is seen: Gaussian, mean and information (inverse covariance) of the shared parameters of <see cref="CardGeometry"/>.</summary>
/// <param name="Mean">Length <see cref="CardGeometry.SharedCount"/>.</param>
/// <param name="Print">Information that the caliper gives; rows of the print scales.</param>
/// <param name="Lens">Information on the lens and on spread ink.</param>
/// <param name="DistanceMm">Camera to the middle of what is seen of the card, along the optical axis; null when the focal length is known instead.</param>
internal sealed record BundlePriors(Vector<double> Mean, Matrix<double> Print, Matrix<double> Lens, Measured? DistanceMm)
{
    /// <summary>
    /// Camera to card: a phone behind a loupe or macro lens works at 80 to 150 mm (measurands.md), and 115 ± 20 mm is the Gaussian of a
    /// rectangular distribution over that range.
    /// </summary>
    /// <remarks>
    /// Why it is needed: square to the card, the corners lie at f X / Z; only f / Z is seen, one picture cannot tell a long lens far away from a
    /// short one near by. Perspective across a tilt t shows t / Z, foreshortening shows cos t, so that only a tilt of many degrees separates them.
    /// A wrong distance hardly harms lengths in the card's plane; in a plane at height h it costs h u(Z) / Z², 0.09 % at 0.6 mm.
    /// </remarks>
    public static Measured UsualDistanceMm => new(115, 20);

    /// <summary>Principal point off the picture's middle, share of the longer side: sensor and lens of phones are centred to 0.5 to 1 % of the width (common practice).</summary>
    public const double CentreSpread = 0.005;

    /// <summary>Radial term of an unknown lens. Loupes bend the border of a field of r = 0.15 by up to about 1 %, which is k1 = 0.5; twice that is allowed for.</summary>
    public const double K1Spread = 1.0;

    /// <summary>Black spreads over white by up to about a dot of a 600 dpi printer (0.042 mm) at each border; what sharpening in the camera does at a border looks the same.</summary>
    public const double InkSpreadMm = 0.03;

    /// <summary>For a lens about which nothing is known.</summary>
    public static BundlePriors UnknownLens(int widthPx, int heightPx, Measured printX, Measured printY)
    {
        double centre = CentreSpread * Math.Max(widthPx, heightPx);
        Matrix<double> lens = Matrix<double>.Build.Dense(CardGeometry.SharedCount, CardGeometry.SharedCount);
        lens[CardGeometry.K1, CardGeometry.K1] = 1 / (K1Spread * K1Spread);
        lens[CardGeometry.CentreX, CardGeometry.CentreX] = lens[CardGeometry.CentreY, CardGeometry.CentreY] = 1 / (centre * centre);
        lens[CardGeometry.Ink, CardGeometry.Ink] = 1 / (InkSpreadMm * InkSpreadMm);
        Vector<double> mean = Vector<double>.Build.Dense(CardGeometry.SharedCount);
        mean[CardGeometry.CentreX] = (widthPx - 1) / 2.0;
        mean[CardGeometry.CentreY] = (heightPx - 1) / 2.0;
        return new BundlePriors(mean, Matrix<double>.Build.Dense(CardGeometry.SharedCount, CardGeometry.SharedCount), lens, UsualDistanceMm).WithPrint(printX, printY);
    }

    private BundlePriors WithPrint(Measured printX, Measured printY)
    {
        foreach ((int i, Measured scale) in new[] { (CardGeometry.LnPrintX, printX), (CardGeometry.LnPrintY, printY) })
        {
            double relative = scale.StandardUncertainty / scale.Value;
            Mean[i] = Math.Log(scale.Value);
            Print[i, i] = 1 / (relative * relative);
        }
        return this;
    }

    /// <summary>The shared parameters of a geometry, in the order of the vectors here.</summary>
    public static Vector<double> SharedOf(CardGeometry g) => Vector<double>.Build.DenseOfArray(
        [Math.Log(g.Camera.FocalLengthPx), g.Camera.K1, g.Camera.CentreXPx, g.Camera.CentreYPx, Math.Log(g.PrintScaleX), Math.Log(g.PrintScaleY), g.InkSpreadMm]);
}
