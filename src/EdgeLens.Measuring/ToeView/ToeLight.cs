using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.ToeView;

/// <summary>Internal angles and face line from the light on the toe: every line of equal brightness there is a ruling of the lateral surface.</summary>
/// <param name="Edge">The toe's edge as the light has moved, turned and widened it.</param>
/// <param name="RightRad">Internal angle of the surface on the picture's right, with the uncertainty from light, edge and view.</param>
/// <param name="LeftRad">The same on the left.</param>
/// <param name="Explained">Share of the brightness's variance that goes with the rulings: 1 for a toe without noise.</param>
internal sealed record ToeLight(ToeEdge Edge, Measured RightRad, Measured LeftRad, double Explained)
{
    // Depths below the face. Above: the rounding of a dull edge (tangent length 1.3 radii, 60 µm for 45 µm). Below: where the smallest toes turn to the back.
    private const double FromMm = 0.07, ToMm = 0.29;

    // Nearer to the middle all rulings are upright, and left and right surface run into each other.
    private const double FarthestRad = 1.05, NearerRad = 0.85;

    // Width of the mirrored rim: the lobe of ground steel, ± 2 to 4° of its normal.
    private const double RimRad = 0.12;
    private const double StepPx = 0.9;
    private const double StartDeg = 75, LeastDeg = 50, GreatestDeg = 92;

    // Samples of a patch of 6 x 6 px share lens blur, sharpening and the unevenness of the steel: a jackknife over five stretches of the toe scattered 2.2 times as
    // much as patches of 3 x 3 px predict (rendered toes).
    private const double Correlation = 36 / (StepPx * StepPx);

    private enum P { Shift, Right, Left, Width, ViewX, ViewY }

    /// <summary>Fits the toe.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="edge">Start and prior: face line, middle, half width, view.</param>
    /// <param name="left">What is seen of the picture's left side.</param>
    /// <param name="right">The same on the right.</param>
    /// <returns>The fit; null where the toe is too small in the picture.</returns>
    /// <remarks>
    /// The lateral surface is ruled: at the place of the toe where the edge's normal has the azimuth ψ it falls along l = (-cos ψ cos β, -sin β, -sin ψ cos β), and its
    /// normal is the same all along that ruling. With lights and camera far away against a third of a millimetre the brightness depends on the normal alone, so it
    /// is constant along rulings: seen along the blade, the pattern at depth d is the pattern at the edge shrunk towards the toe's middle by 1 - d cot β / w.
    /// All are fitted at once: the brightness of each ruling is its mean; gain and offset of each depth (to second order, one set for each side) are free, since a light
    /// is not infinitely far. What is left over is noise and the unevenness of the steel. Needs no contour: also a surface that the camera looks onto is measured.
    /// </remarks>
    public static ToeLight? FitTwice(TonePicture picture, ToeEdge edge, SeenSide left, SeenSide right)
    {
        if (Fit(picture, edge, left, right, FarthestRad) is not { } whole || Fit(picture, edge, left, right, NearerRad) is not { } part) return null;
        // The part holds two thirds of the rulings; of what the model leaves out, which changes along the toe, the whole has about as much as the two differ.
        // The pattern shrinks by cot β / w a depth: it tells the two only together, and what it seems to tell of the width alone is the unevenness of the steel.
        double width = edge.HalfWidthMm.StandardUncertainty / edge.HalfWidthMm.Value;
        return whole with { RightRad = Widened(whole.RightRad, part.RightRad), LeftRad = Widened(whole.LeftRad, part.LeftRad) };

        Measured Widened(Measured all, Measured two) => all.WithAdded(two.Value - all.Value).WithAdded(Math.Sin(2 * all.Value) / 2 * width);
    }

    /// <summary>The same over one range.</summary>
    internal static ToeLight? Fit(TonePicture picture, ToeEdge edge, SeenSide leftSeen, SeenSide rightSeen, double farthestRad = FarthestRad)
    {
        Side right = Side.Of(edge, 1, rightSeen.Light, farthestRad), left = Side.Of(edge, -1, leftSeen.Light, farthestRad);
        if (right.Count < 100 || left.Count < 100) return null;
        double noise = 1;
        int lights = right.Count + left.Count;
        double[] start = [0, StartDeg * Math.PI / 180, StartDeg * Math.PI / 180, 1, edge.ViewX, edge.ViewY];
        foreach (int side in new[] { 1, -1 }) start[side == 1 ? (int)P.Right : (int)P.Left] = BestStart(side == 1 ? right : left);
        double[] first = new double[lights + 6];
        Residuals(start, first);
        noise = Math.Sqrt(Correlation * first.AsSpan(0, lights).ToArray().Sum(r => r * r) / lights);
        if (noise <= 0) return null;
        DampedLeastSquares? fit = null;
        // The second round weighs with what the first one left over.
        for (int round = 0; round < 2; round++)
        {
            fit = DampedLeastSquares.Solve(Residuals, lights + 6, fit?.Parameters ?? start, [1e-3, 2e-3, 2e-3, 2e-3, 1e-3, 1e-3],
                [-0.15, LeastDeg * Math.PI / 180, LeastDeg * Math.PI / 180, 0.7, -0.6, -0.6], [0.15, GreatestDeg * Math.PI / 180, GreatestDeg * Math.PI / 180, 1.3, 0.6, 0.6], 15);
            Residuals(fit.Parameters, first);
            noise *= Math.Sqrt(Correlation * first.AsSpan(0, lights).ToArray().Sum(r => r * r) / lights);
        }
        double[] p = fit!.Parameters;
        ToeEdge fitted = Moved(edge, p) with
        {
            MiddleSigmaMm = Math.Min(1, fit.UnitSd((int)P.Shift)),
            HalfWidthMm = new(edge.HalfWidthMm.Value * p[(int)P.Width], Math.Min(1, edge.HalfWidthMm.Value * fit.UnitSd((int)P.Width))),
        };
        double scatter = noise * noise / Correlation, pattern = right.Pattern(picture, fitted, p[(int)P.Right]) + left.Pattern(picture, fitted, p[(int)P.Left]);
        return new(fitted, new(p[(int)P.Right], Math.Min(1, fit.UnitSd((int)P.Right))), new(p[(int)P.Left], Math.Min(1, fit.UnitSd((int)P.Left))), pattern / (pattern + 2 * scatter));

        void Residuals(ReadOnlySpan<double> at, Span<double> r)
        {
            ToeEdge moved = Moved(edge, at);
            right.Residuals(picture, moved, at[(int)P.Right], noise, r[..right.Count]);
            left.Residuals(picture, moved, at[(int)P.Left], noise, r[right.Count..lights]);
            r[lights] = at[(int)P.Shift] / edge.MiddleSigmaMm;
            r[lights + 1] = (at[(int)P.Width] - 1) * edge.HalfWidthMm.Value / edge.HalfWidthMm.StandardUncertainty;
            r[lights + 2] = (at[(int)P.ViewX] - edge.ViewX) / AngleLimits.AlignmentSigmaRad;
            r[lights + 3] = (at[(int)P.ViewY] - edge.ViewY) / AngleLimits.AlignmentSigmaRad;
            r[lights + 4] = Corner(moved, rightSeen, 1);
            r[lights + 5] = Corner(moved, leftSeen, -1);
        }

        double BestStart(Side side)
        {
            double[] r = new double[side.Count];
            double best = StartDeg * Math.PI / 180, least = double.MaxValue;
            for (double beta = (LeastDeg + 6) * Math.PI / 180; beta < (GreatestDeg - 2) * Math.PI / 180; beta += 0.0174)
            {
                side.Residuals(picture, edge, beta, 1, r);
                double sum = r.Sum(v => v * v);
                if (sum < least) (least, best) = (sum, beta);
            }
            return best;
        }
    }

    /// <summary>Distance of a seen corner from the model's, over its uncertainty; 0 where none is seen.</summary>
    private static double Corner(ToeEdge edge, SeenSide seen, int side)
    {
        if (seen.Corner is not { } corner) return 0;
        return (edge.AlongMm(corner) - edge.OnEdge(side, seen.Light.AzimuthAt(0)).AlongMm) / seen.EndSigmaMm(edge);
    }

    private static ToeEdge Moved(ToeEdge edge, ReadOnlySpan<double> p) =>
        edge with
        {
            Middle = edge.At(p[(int)P.Shift], 0),
            HalfWidthMm = new(edge.HalfWidthMm.Value * p[(int)P.Width], edge.HalfWidthMm.StandardUncertainty),
            ViewX = p[(int)P.ViewX],
            ViewY = p[(int)P.ViewY],
        };

    /// <summary>Rulings by azimuth and depths of one side, equally far apart in the picture; the same places of the steel whatever the parameters.</summary>
    private sealed class Side
    {
        private readonly int _side;
        private readonly double[] _azimuths, _depths, _odd, _even;
        private readonly (double Sin, double Cos, double X, double S)[] _rulings;

        private Side(ToePlan plan, int side, EdgeOfLight light, double[] azimuths, double[] depths)
        {
            (_side, _azimuths, _depths) = (side, azimuths, depths);
            _rulings = [.. azimuths.SelectMany(a => depths.Select(d => Ruling(plan, side, a + Near(light, a) * (d - EdgeOfLight.MiddleDepthMm))))];
            _odd = [.. Enumerable.Range(0, depths.Length).Select(j => 2.0 * j / (depths.Length - 1) - 1)];
            double second = _odd.Sum(v => v * v) / _odd.Length;
            _even = [.. _odd.Select(v => v * v - second)];
        }

        private static (double, double, double, double) Ruling(ToePlan plan, int side, double azimuth)
        {
            (double sin, double cos) = Math.SinCos(azimuth);
            (double x, double s) = plan.At(side, azimuth);
            return (sin, cos, x, s);
        }

        public int Count => _azimuths.Length * _depths.Length;

        public static Side Of(ToeEdge edge, int side, EdgeOfLight light, double farthestRad)
        {
            double step = StepPx * edge.MmPerPx / edge.HalfWidthMm.Value, contour = Math.Max(0, EdgeOfLight.AtContour(edge, side).AzimuthRad);
            // A ruling so near to the contour that it lies beside the steel if the toe is narrower by twice its uncertainty is left out.
            double beside = Math.Acos(1 / (1 + 2 * edge.HalfWidthMm.StandardUncertainty / edge.HalfWidthMm.Value));
            List<double> azimuths = [], depths = [];
            for (double x = Math.Cos(farthestRad); x < Math.Cos(contour + beside); x += step) azimuths.Add(Math.Acos(x));
            for (double d = FromMm; d <= ToMm; d += StepPx * edge.MmPerPx) depths.Add(d);
            return new(edge.Plan, side, light, [.. azimuths], [.. depths]);
        }

        /// <summary>How the azimuth of equal light changes with depth, rad/mm: next to the rim of the mirrored window as the rim does, away from it not at all.</summary>
        private static double Near(EdgeOfLight light, double azimuthRad)
        {
            double away = (azimuthRad - light.AzimuthRad) / RimRad;
            return light.PerMm * Math.Exp(-away * away);
        }

        /// <summary>Brightness less its ruling's mean, gain and offset of each depth taken away, over the noise.</summary>
        public void Residuals(TonePicture picture, ToeEdge edge, double beta, double noise, Span<double> r)
        {
            int n = _depths.Length;
            double[] mean = Means(picture, edge, beta, r);
            double all = mean.Average();
            // Depth's odd and even term times the constant and the pattern: four terms square to each other.
            Span<double> with = stackalloc double[4], norm = stackalloc double[4];
            with.Clear();
            norm.Clear();
            for (int i = 0; i < mean.Length; i++)
                for (int j = 0; j < n; j++)
                {
                    double d = r[i * n + j] -= mean[i], pattern = mean[i] - all;
                    Add(with, norm, 0, d, _odd[j]);
                    Add(with, norm, 1, d, _odd[j] * pattern);
                    Add(with, norm, 2, d, _even[j]);
                    Add(with, norm, 3, d, _even[j] * pattern);
                }
            for (int k = 0; k < 4; k++) with[k] = norm[k] > 0 ? with[k] / norm[k] : 0;
            for (int i = 0; i < mean.Length; i++)
                for (int j = 0; j < n; j++)
                {
                    double pattern = mean[i] - all;
                    r[i * n + j] = (r[i * n + j] - _odd[j] * (with[0] + with[1] * pattern) - _even[j] * (with[2] + with[3] * pattern)) / noise;
                }
        }

        /// <summary>Samples every place and returns the mean of each ruling.</summary>
        private double[] Means(TonePicture picture, ToeEdge edge, double beta, Span<double> r)
        {
            int n = _depths.Length;
            (double s, double c) = Math.SinCos(beta);
            double size = edge.Size;
            double[] mean = new double[_azimuths.Length];
            for (int i = 0; i < _azimuths.Length; i++)
            {
                for (int j = 0; j < n; j++)
                {
                    (double sin, double cos, double x, double behind) = _rulings[i * n + j];
                    double inward = _depths[j] * c / s, back = size * behind + inward * sin;
                    PixelPoint p = edge.At(size * x - _side * inward * cos + back * edge.ViewX, -_depths[j] + back * edge.ViewY);
                    r[i * n + j] = picture.Sample(p.X, p.Y);
                    mean[i] += r[i * n + j] / n;
                }
            }
            return mean;
        }

        /// <summary>Variance of the rulings' means, square tones.</summary>
        public double Pattern(TonePicture picture, ToeEdge edge, double beta)
        {
            double[] r = new double[Count];
            double[] mean = Means(picture, edge, beta, r);
            double all = mean.Average();
            return mean.Sum(m => (m - all) * (m - all)) / mean.Length;
        }

        private static void Add(Span<double> with, Span<double> norm, int k, double d, double term) => (with[k], norm[k]) = (with[k] + d * term, norm[k] + term * term);
    }
}
