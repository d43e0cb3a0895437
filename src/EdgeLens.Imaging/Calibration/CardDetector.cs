using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Cards;
using OpenCvSharp;

namespace EdgeLens.Imaging.Calibration;

/// <summary>Finds the reference card in a photograph and locates its corners to sub-pixel.</summary>
/// <remarks>
/// Markers are read on a reduced picture; their corners give a first geometry, from which every corner of the card that should be in the picture
/// is predicted; each is then located on the full picture by <see cref="CornerFit"/>. So a marker needs not be readable for its corners to count.
/// </remarks>
public static class CardDetector
{
    /// <summary>
    /// Fewest readable markers that agree. Each gives eight numbers; geometry and lens have nine unknowns that only the picture tells, and one
    /// misread marker must be outvoted: three that agree beside one that does not.
    /// </summary>
    public const int MinMarkers = 4;

    /// <summary>With this many markers that agree no further reduced picture is tried: about half of what a macro photograph shows.</summary>
    private const int EnoughMarkers = 12;

    /// <summary>Half side of a patch without blur, in bits of a marker: less than half, so that a sharp picture shows one corner and nothing else.</summary>
    private const double PatchBits = 0.42;

    /// <summary>
    /// A corner whose fit leaves this multiple of the median residual is something else: shank, shadow, reflection. Residuals of good corners
    /// (noise, JPEG, sharpening) scatter by some tens of percent about their median.
    /// </summary>
    private const double ResidualRatio = 2.5;

    /// <summary>Least uncertainty that a located corner is given, px: pixel response, JPEG and the printer leave errors that the noise of one patch does not show.</summary>
    private const double LeastUncertaintyPx = 0.02;

    /// <summary>Finds the card.</summary>
    /// <param name="grey8">8-bit, one channel: luma of the photograph, upright; borrowed.</param>
    /// <param name="card">Which card to look for.</param>
    /// <returns>The corners, or a refusal <c>no-card</c>.</returns>
    /// <exception cref="ArgumentException">Not an 8-bit picture of one channel.</exception>
    public static Outcome<CardSighting> Detect(Mat grey8, CardDescription card)
    {
        if (grey8.Type() != MatType.CV_8UC1) throw new ArgumentException($"The picture must be 8-bit grey, not {grey8.Type()}.", nameof(grey8));
        int width = grey8.Cols, height = grey8.Rows;
        BundlePriors priors = BundlePriors.UnknownLens(width, height, new(1, 0.005), new(1, 0.005));
        (CardGeometry? geometry, int agreeing) = (null, 0);
        foreach (MarkerReader.Attempt attempt in MarkerReader.Attempts)
        {
            ImmutableArray<CardCorner> corners = MarkerReader.Read(grey8, card, attempt);
            (CardGeometry? tried, int count) = Agree(corners, width, height, priors);
            if (count > agreeing) (geometry, agreeing) = (tried, count);
            if (agreeing >= EnoughMarkers) break;
        }
        if (geometry is null || agreeing < MinMarkers) return NoCard(agreeing);
        return Locate(new LinearPicture(grey8), card, geometry, agreeing);
    }

    private static (CardGeometry? Geometry, int Markers) Agree(ImmutableArray<CardCorner> corners, int width, int height, BundlePriors priors)
    {
        if (PoseStart.From(corners, width, height, priors) is not { } start) return (null, 0);
        CardBundle.Solution coarse = CardBundle.Solve([corners], [start], priors);
        return (coarse.Geometries[0], coarse.UsedCount / 4);
    }

    private static CardSighting Locate(LinearPicture picture, CardDescription card, CardGeometry geometry, int markers)
    {
        CardPattern pattern = new(card);
        ImmutableArray<Prediction> predictions = Predict(card, geometry, picture.Width, picture.Height);
        double mmPerPx = Median(predictions.Select(p => Math.Sqrt(Math.Abs(p.PerX.Cross(p.PerY)))));
        double blur = GuessBlur(picture, pattern, card, predictions, mmPerPx);

        CornerFit.Result?[] results = FitAll(picture, pattern, card, predictions, mmPerPx, [blur]);
        double[] residuals = [.. results.OfType<CornerFit.Result>().Select(r => r.RelativeResidual)];
        double limit = residuals.Length == 0 ? 0 : ResidualRatio * Median(residuals);
        ImmutableArray<CardCorner> corners =
        [
            .. from pair in predictions.Zip(results, (prediction, result) => (prediction, result))
               where pair.result?.RelativeResidual <= limit
               let r = pair.result.GetValueOrDefault()
               select new CardCorner(pair.prediction.Design, r.Pixel, pair.prediction.Kind, Quadrature.Sum(r.StandardUncertaintyPx, LeastUncertaintyPx)),
        ];
        double sigma = results.OfType<CornerFit.Result>().Select(r => r.SigmaPx).DefaultIfEmpty(blur).Order().ElementAt(residuals.Length / 2);
        return new(picture.Width, picture.Height, markers, corners, sigma);
    }

    /// <summary>Blur from about thirty corners all over the picture, each tried from sharp, soft and very soft.</summary>
    private static double GuessBlur(LinearPicture picture, CardPattern pattern, CardDescription card, ImmutableArray<Prediction> predictions, double mmPerPx)
    {
        int every = Math.Max(1, predictions.Length / 30);
        ImmutableArray<Prediction> some = [.. predictions.Where((_, i) => i % every == 0)];
        double[] found = [.. FitAll(picture, pattern, card, some, mmPerPx, [1, 3, 8]).OfType<CornerFit.Result>().Select(r => r.SigmaPx)];
        return found.Length == 0 ? 1 : Median(found);
    }

    private static CornerFit.Result?[] FitAll(
        LinearPicture picture, CardPattern pattern, CardDescription card, ImmutableArray<Prediction> predictions, double mmPerPx, double[] blurs)
    {
        var results = new CornerFit.Result?[predictions.Length];
        Parallel.For(0, predictions.Length, i =>
        {
            Prediction p = predictions[i];
            foreach (double blur in blurs)
            {
                int radius = (int)Math.Ceiling(PatchBits * card.Board.BitMm / mmPerPx + 2 * blur);
                PatternGrid grid = pattern.Around(p.Design, (1.5 * radius + 4 * blur) * mmPerPx);
                if (CornerFit.Locate(picture, grid, p.Pixel, p.PerX, p.PerY, blur, radius) is { } r && (results[i] is not { } best || r.RelativeResidual < best.RelativeResidual))
                    results[i] = r;
            }
        });
        return results;
    }

    /// <summary>All corners of the card that should lie in the picture, with the local map from pixels to nominal card millimetres.</summary>
    private static ImmutableArray<Prediction> Predict(CardDescription card, CardGeometry geometry, int width, int height)
    {
        var all = ImmutableArray.CreateBuilder<Prediction>();
        foreach (DesignPoint p in card.BoardCorners) Add(p, CornerKind.Board);
        foreach (int id in card.StandingMarkers)
        {
            ImmutableArray<DesignPoint> corners = card.MarkerCorners(id);
            for (int k = 0; k < 4; k++) Add(corners[k], MarkerReader.KindOf(k));
        }
        return all.ToImmutable();

        void Add(DesignPoint design, CornerKind kind)
        {
            PixelPoint pixel = geometry.Project(geometry.Printed(design), 0);
            if (!(pixel.X > 0 && pixel.X < width - 1 && pixel.Y > 0 && pixel.Y < height - 1)) return;
            (Vector2 x, Vector2 y) = geometry.PlanePerPixel(pixel, 0);
            all.Add(new(design, kind, pixel, new(x.X / geometry.PrintScaleX, x.Y / geometry.PrintScaleY), new(y.X / geometry.PrintScaleX, y.Y / geometry.PrintScaleY)));
        }
    }

    private static Refusal NoCard(int markers) => new(
        "no-card", markers == 0 ? "The reference card cannot be found in the photograph." : "Too few markers of the reference card can be read in the photograph.",
        "Lay the card flat, the blade in its window, squares in view on all sides, in focus and evenly lit, and retake the photograph.",
        markers, MinMarkers, "markers read");

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }

    private readonly record struct Prediction(DesignPoint Design, CornerKind Kind, PixelPoint Pixel, Vector2 PerX, Vector2 PerY);
}
