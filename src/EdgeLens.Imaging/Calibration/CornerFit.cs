using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Edges;

namespace EdgeLens.Imaging.Calibration;

/// <summary>
/// Locates one corner by fitting the card's own pattern round it, blurred, to the picture in linear light: brightness = dark + (white - dark) f,
/// f the sharp pattern seen through the local affine map and a Gaussian of unknown width.
/// </summary>
/// <remarks>
/// Least squares by Gauss-Newton over place, blur and the two levels. The same model serves the board's corners and the markers', sharp or so
/// blurred that neighbouring bits run into each other, and uses the whole length of the edges in the patch; for white noise it is the maximum
/// likelihood estimate, so that its normal equations give the uncertainty of the place. Shape and direction come from the predicted
/// geometry: they are known far better than a patch can tell.
/// </remarks>
internal static class CornerFit
{
    private const int Unknowns = 5, MaxIterations = 12;

    /// <summary>Blur over bin size at which bins are made: sampled at 1.5 to 3 to a standard deviation, a Gaussian edge loses nothing (its spectrum is down to 1e-4 at the bins' limit).</summary>
    private const double BlurPerBin = 1.5;

    /// <summary>What was found.</summary>
    /// <param name="Pixel">Place of the corner.</param>
    /// <param name="SigmaPx">Blur.</param>
    /// <param name="Contrast">White less dark, linear light.</param>
    /// <param name="RelativeResidual">Root mean square of what the model leaves, over the contrast.</param>
    /// <param name="StandardUncertaintyPx">Of the place, per coordinate.</param>
    public readonly record struct Result(PixelPoint Pixel, double SigmaPx, double Contrast, double RelativeResidual, double StandardUncertaintyPx);

    /// <param name="picture">The photograph.</param>
    /// <param name="grid">The pattern round the corner, nominal mm.</param>
    /// <param name="predicted">Where the corner should be; within the patch.</param>
    /// <param name="perX">Nominal card mm per pixel step in x.</param>
    /// <param name="perY">Nominal card mm per pixel step in y.</param>
    /// <param name="sigmaPx">First guess of the blur.</param>
    /// <param name="radiusPx">Half size of the patch.</param>
    /// <returns>Null when the patch leaves the picture or the fit does not settle inside the patch.</returns>
    public static Result? Locate(LinearPicture picture, PatternGrid grid, PixelPoint predicted, Vector2 perX, Vector2 perY, double sigmaPx, int radiusPx)
    {
        // A soft corner says as much in bins of a good part of its blur as in single pixels, and the fit costs far less. From here on, everything in bins.
        int bin = Math.Max(1, (int)(sigmaPx / BlurPerBin)), radius = (radiusPx + bin - 1) / bin, size = 2 * radius + 1, half = bin * size / 2;
        int left = (int)Math.Round(predicted.X) - half, top = (int)Math.Round(predicted.Y) - half;
        if (picture.Patch(left, top, size, bin) is not { } light) return null;
        (perX, perY) = (bin * perX, bin * perY);
        double middle = (bin - 1) / 2.0, mmPerPx = Math.Sqrt(Math.Abs(perX.Cross(perY)));
        double x = (predicted.X - left - middle) / bin, y = (predicted.Y - top - middle) / bin, sigma = sigmaPx / bin, dark = double.NaN, contrast = double.NaN;
        Model model = new(grid, perX, perY, mmPerPx);
        Span<double> matrix = stackalloc double[Unknowns * Unknowns], right = stackalloc double[Unknowns], terms = stackalloc double[Unknowns];
        double squares = 0;
        bool settled = false;
        for (int iteration = 0; iteration < MaxIterations; iteration++)
        {
            if (double.IsNaN(dark) && !FitLevels(model, light, size, x, y, sigma, out dark, out contrast)) return null;
            matrix.Clear();
            right.Clear();
            squares = 0;
            for (int row = 0; row < size; row++)
                for (int column = 0; column < size; column++)
                {
                    double f = model.At(column - x, row - y, sigma, out double fx, out double fy, out double fs);
                    double residual = light[row * size + column] - (dark + contrast * f);
                    squares += residual * residual;
                    (terms[0], terms[1], terms[2], terms[3], terms[4]) = (-contrast * fx, -contrast * fy, contrast * fs, 1, f);
                    for (int i = 0; i < Unknowns; i++)
                    {
                        right[i] += terms[i] * residual;
                        for (int j = 0; j <= i; j++) matrix[i * Unknowns + j] += terms[i] * terms[j];
                    }
                }
            if (!SmallCholesky.TryFactor(matrix, Unknowns)) return null;
            SmallCholesky.Solve(matrix, Unknowns, right);
            // Far from the answer the model is not linear: no step beyond one blur, and the blur changes by at most half.
            double length = Math.Sqrt(right[0] * right[0] + right[1] * right[1]), cut = Math.Min(1, Math.Max(1, sigma) / Math.Max(length, 1e-12));
            x += cut * right[0];
            y += cut * right[1];
            sigma = Math.Clamp(sigma + right[2], 0.6 * sigma, 1.6 * sigma);
            dark += right[3];
            contrast += right[4];
            if (Math.Abs(x - radius) > radius || Math.Abs(y - radius) > radius || !(sigma is > 0.2 and < 60)) return null;
            // Each step leaves a few percent of itself: after one of a hundredth of a pixel less than a thousandth remains.
            if (settled = length < 1e-2 && Math.Abs(right[2]) < 1e-2 * sigma) break;
        }
        if (!settled || contrast <= 0) return null;

        double variance = squares / (size * size - Unknowns);
        Span<double> unit = stackalloc double[Unknowns];
        double place = 0;
        for (int i = 0; i < 2; i++)
        {
            unit.Clear();
            unit[i] = 1;
            SmallCholesky.Solve(matrix, Unknowns, unit);
            place += unit[i] / 2;
        }
        return new(new(x * bin + middle + left, y * bin + middle + top), sigma * bin, contrast, Math.Sqrt(variance) / contrast, bin * Math.Sqrt(variance * place));
    }

    /// <summary>Dark level and contrast for a given place and blur: a straight-line fit of light over f.</summary>
    private static bool FitLevels(Model model, float[] light, int size, double x, double y, double sigma, out double dark, out double contrast)
    {
        double n = light.Length, sf = 0, sff = 0, sl = 0, slf = 0;
        for (int row = 0; row < size; row++)
            for (int column = 0; column < size; column++)
            {
                double f = model.At(column - x, row - y, sigma, out _, out _, out _), l = light[row * size + column];
                (sf, sff, sl, slf) = (sf + f, sff + f * f, sl + l, slf + l * f);
            }
        double det = n * sff - sf * sf;
        contrast = (n * slf - sf * sl) / det;
        dark = (sl - contrast * sf) / n;
        return det > 1e-9 * n * n && contrast > 0;
    }

    /// <summary>The blurred pattern and its derivatives by place (pixels) and blur (pixels).</summary>
    private readonly struct Model(PatternGrid grid, Vector2 perX, Vector2 perY, double mmPerPx)
    {
        private readonly double[] _phiV = new double[grid.LinesY.Length + 1], _densityV = new double[grid.LinesY.Length + 1], _slopeV = new double[grid.LinesY.Length + 1];

        public double At(double dx, double dy, double sigmaPx, out double fx, out double fy, out double fSigma)
        {
            double u = perX.X * dx + perY.X * dy, v = perX.Y * dx + perY.Y * dy, s = sigmaPx * mmPerPx, f = 0, fu = 0, fv = 0, fs = 0;
            _phiV[0] = 1;
            for (int j = 1; j < _phiV.Length; j++)
            {
                double z = (v - grid.LinesY[j - 1]) / s;
                _phiV[j] = GaussianStep.At(z);
                _densityV[j] = Density(z) / s;
                _slopeV[j] = -z * _densityV[j];
            }
            for (int i = 0; i <= grid.LinesX.Length; i++)
            {
                double sum = 0, sumV = 0, sumS = 0;
                for (int j = 0; j < _phiV.Length; j++)
                {
                    int step = grid.Steps[i, j];
                    if (step == 0) continue;
                    sum += step * _phiV[j];
                    sumV += step * _densityV[j];
                    sumS += step * _slopeV[j];
                }
                if (i == 0)
                {
                    (f, fv, fs) = (sum, sumV, sumS);
                    continue;
                }
                double z = (u - grid.LinesX[i - 1]) / s, phi = GaussianStep.At(z), density = Density(z) / s;
                f += phi * sum;
                fv += phi * sumV;
                fu += density * sum;
                fs += phi * sumS - z * density * sum;
            }
            // The place moves against the coordinates: the caller changes the sign.
            fx = fu * perX.X + fv * perX.Y;
            fy = fu * perY.X + fv * perY.Y;
            fSigma = fs * mmPerPx;
            return f;
        }

        /// <summary>Of the standard normal distribution; beyond 6 it is below 1e-8, and most of a sharp picture's patch lies there.</summary>
        private static double Density(double z) => Math.Abs(z) > 6 ? 0 : Math.Exp(-z * z / 2) * 0.3989422804014327;
    }
}
