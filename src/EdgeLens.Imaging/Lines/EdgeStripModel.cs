using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Fitting;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;

namespace EdgeLens.Imaging.Lines;

/// <summary>Tones of a strip along a blurred straight edge: the model behind <see cref="StraightEdgeFitter"/>.</summary>
/// <remarks>Parameters: offset at the middle, slope (outwards at the end), ln blur, ground at both ends, ramp at both ends, turn and place of the form's if there is one, steel at the knots.</remarks>
internal sealed class EdgeStripModel
{
    /// <summary>Indices of a form's turn and place.</summary>
    public const int Turn = Fixed, Place = Fixed + 1;

    private const int Fixed = 7;

    // The steel's level may change along the line within this distance: texture of the ground surface, mirrored surroundings.
    private const double KnotPx = 16;
    private const double GridPx = 0.5;

    // Four radii of the phone's smoothing, in cells: what it takes from farther off is below a thousandth.
    private const int Band = 10;
    private const int Margin = 5;

    // How far a line may turn from its start, pixels at its ends.
    private const double Turning = 6;

    // Greatest slope of a bent part, 30°: more is no second bevel but another surface. A circle turns on as far as its parabola holds, 45°.
    private const double GreatestTurn = 0.577, GreatestRoundTurn = 1;

    private readonly LineStrip _strip;
    private readonly EdgeForm? _form;
    private readonly int _steel;
    private readonly double[] _grid;
    private readonly double[] _weights;
    private readonly double[] _tones;
    private readonly int _knots;

    /// <param name="strip">Tones.</param>
    /// <param name="amount">The phone's sharpening.</param>
    /// <param name="form">How the edge departs from its straight line; null where it does not.</param>
    public EdgeStripModel(LineStrip strip, double amount, EdgeForm? form = null)
    {
        (_strip, _form) = (strip, form);
        _steel = Fixed + (form is null ? 0 : form.Value.PlaceIsFree ? 2 : 1);
        _knots = Math.Max(2, (int)Math.Round(strip.Stretch.LengthPx / KnotPx) + 1);
        int cells = (int)((strip.Columns - 1 + 2 * Margin) / GridPx) + 1;
        _grid = [.. Enumerable.Range(0, cells).Select(i => -strip.InwardPx - Margin + i * GridPx)];
        _tones = new double[cells];
        _weights = Sharpened(amount);
    }

    private int Samples => _strip.Rows * _strip.Columns;

    /// <summary>Least squares from a start.</summary>
    /// <param name="leastBlurPx">Of the range.</param>
    /// <param name="greatestBlurPx">Of the range.</param>
    /// <param name="offsetPx">Start of the offset at the stretch's middle.</param>
    /// <param name="slope">Start of its slope.</param>
    /// <param name="turn">Start of the form's turn, as a slope.</param>
    public DampedLeastSquares Solve(double leastBlurPx, double greatestBlurPx, double offsetPx = 0, double slope = 0, double turn = 0)
    {
        int n = _steel + _knots;
        (double ground, double steel) = Levels();
        double middle = Math.Log(Math.Sqrt(leastBlurPx * greatestBlurPx)), length = _strip.Stretch.LengthPx, half = length / 2;
        double leastTurn = _form?.LeastTurn ?? 0, greatestTurn = _form is { IsRound: true } ? GreatestRoundTurn : GreatestTurn, place = _form?.PlacePx ?? 0;
        double[] start = new double[n], probe = new double[n], lower = new double[n], upper = new double[n];
        for (int i = 0; i < n; i++)
            (start[i], probe[i], lower[i], upper[i]) = i switch
            {
                0 => (offsetPx, 1e-2, offsetPx - 4, offsetPx + 4),
                1 => (slope * length / 2, 1e-2, slope * length / 2 - Turning, slope * length / 2 + Turning),
                2 => (middle, 1e-2, Math.Log(leastBlurPx), Math.Log(greatestBlurPx)),
                3 or 4 => (ground, 1e-4, 0, 1),
                5 or 6 => (0, 1e-4, -0.2, 0.2),
                Turn when _form is not null => (Math.Clamp(turn, leastTurn, greatestTurn) * half, 1e-2, leastTurn * half, greatestTurn * half),
                Place when _form is { PlaceIsFree: true } => (place, 0.1, 1, length - 1),
                _ => (steel, 1e-4, 0, 2),
            };
        return DampedLeastSquares.Solve(Residuals, Samples, start, probe, lower, upper);
    }

    /// <summary>The line, with what was fitted to its light.</summary>
    public StraightEdge Line(DampedLeastSquares fit, double greatestBlurPx)
    {
        double half = _strip.Stretch.LengthPx / 2, sd = Math.Sqrt(fit.Variance), slope = fit.Parameters[1] / half;
        double step = fit.Parameters.AsSpan(_steel, _knots).ToArray().Average(f => Tone(f)) - (Tone(fit.Parameters[3]) + Tone(fit.Parameters[4])) / 2;
        bool atLimit = fit.Parameters[2] > Math.Log(greatestBlurPx) - 1e-3;
        return new(_strip.Stretch.Moved(fit.Parameters[0], slope), sd * fit.UnitSd(1) / half, sd * fit.UnitSd(0), Math.Exp(fit.Parameters[2]), atLimit, sd, step);
    }

    /// <summary>Turn of the form, radians at its start, with its standard uncertainty for residuals of the variance given.</summary>
    public Measured TurnRad(DampedLeastSquares fit, double variance)
    {
        double half = _strip.Stretch.LengthPx / 2, slope = fit.Parameters[Turn] / half;
        return new(Math.Atan(slope), Math.Sqrt(variance) * fit.UnitSd(Turn) / half / (1 + slope * slope));
    }

    /// <summary>
    /// By how much neighbouring residuals that go together (JPEG, interpolation, texture) make the variance of a mean greater than that of independent ones: the sum of their
    /// correlations up to three samples off, at least 1.
    /// </summary>
    public double Correlation(DampedLeastSquares fit)
    {
        const int Reach = 3;
        int rows = _strip.Rows, columns = _strip.Columns;
        double[] r = new double[Samples];
        Residuals(fit.Parameters, r);
        double own = r.Sum(v => v * v), sum = 0;
        for (int dt = -Reach; dt <= Reach; dt++)
            for (int dj = -Reach; dj <= Reach; dj++)
            {
                double product = 0;
                for (int t = Math.Max(0, -dt); t < Math.Min(rows, rows - dt); t++)
                    for (int j = Math.Max(0, -dj); j < Math.Min(columns, columns - dj); j++) product += r[t * columns + j] * r[(t + dt) * columns + j + dj];
                sum += product / own;
            }
        return Math.Max(1, sum);
    }

    private static double Tone(double light) => 255 * FastTone.Of(light);

    // Ground and steel, linear, from the strip's rims.
    private (double Ground, double Steel) Levels()
    {
        double inner = 0, outer = 0;
        for (int t = 0; t < _strip.Rows; t++)
        {
            ReadOnlySpan<double> row = _strip.Row(t);
            (inner, outer) = (inner + row[0] + row[1], outer + row[^1] + row[^2]);
        }
        double n = 2 * _strip.Rows * 255.0;
        return (LinearLight.Decode(Math.Clamp(outer / n, 0, 1)), LinearLight.Decode(Math.Clamp(inner / n, 0, 1)));
    }

    // How far the form leads the edge inwards of its straight line, pixels. The blur acts along the edge as well: it rounds a bend, whose ramp and parabola are taken with it.
    private double Inwards(ReadOnlySpan<double> p, double along, double sigma)
    {
        if (_form is not { } form) return 0;
        double place = form.PlaceIsFree ? p[Place] : form.PlacePx, z = place - along, slope = p[Turn] / (_strip.Stretch.LengthPx / 2);
        double step = GaussianStep.At(z / sigma), bell = Math.Exp(-0.5 * z * z / (sigma * sigma)) * sigma / Math.Sqrt(2 * Math.PI);
        return slope * (form.IsRound ? ((z * z + sigma * sigma) * step + z * bell) / (2 * place) : z * step + bell);
    }

    private void Residuals(ReadOnlySpan<double> p, Span<double> residuals)
    {
        double sigma = Math.Exp(p[2]);
        int knots = _knots, columns = _strip.Columns, cells = _grid.Length;
        for (int t = 0; t < _strip.Rows; t++)
        {
            double share = Math.Min(1, t / _strip.Stretch.LengthPx);
            double at = p[0] + p[1] * (2 * share - 1) - Inwards(p, t, sigma);
            double ground = p[3] + share * (p[4] - p[3]), ramp = 0.1 * (p[5] + share * (p[6] - p[5]));
            double place = share * (knots - 1);
            int k = Math.Min(knots - 2, (int)place);
            double steel = p[_steel + k] + (place - k) * (p[_steel + k + 1] - p[_steel + k]);
            for (int i = 0; i < cells; i++)
            {
                double z = at - _grid[i], q = z / sigma, step = GaussianStep.At(q), bell = Math.Abs(q) < GaussianStep.Reach ? Math.Exp(-0.5 * q * q) * sigma / Math.Sqrt(2 * Math.PI) : 0;
                _tones[i] = 255 * FastTone.Of(ground + (steel - ground) * step + ramp * (z * step + bell));
            }
            ReadOnlySpan<double> row = _strip.Row(t);
            for (int j = 0; j < columns; j++)
            {
                double sum = 0;
                ReadOnlySpan<double> near = _tones.AsSpan((int)((j + Margin) / GridPx) - Band, _weights.Length);
                for (int i = 0; i < near.Length; i++) sum += _weights[i] * near[i];
                residuals[t * columns + j] = sum - row[j];
            }
        }
    }

    // Weights about a column that take the fine profile to its sharpened tone.
    private static double[] Sharpened(double amount)
    {
        double[] weights = [.. Enumerable.Range(-Band, 2 * Band + 1).Select(i => Math.Exp(-0.5 * Math.Pow(i * GridPx / Sharpening.RadiusPx, 2)))];
        double sum = weights.Sum();
        for (int i = 0; i < weights.Length; i++) weights[i] *= -amount / sum;
        weights[Band] += 1 + amount;
        return weights;
    }
}
