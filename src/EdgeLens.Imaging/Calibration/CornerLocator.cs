using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Imaging.Calibration;

/// <summary>Predicts every corner of the card that should lie in the picture and locates it there.</summary>
internal sealed class CornerLocator(LinearPicture picture, CardDescription card, BundlePriors priors)
{
    /// <summary>Half side of a patch without blur, in bits of a marker: less than half, so that a sharp picture shows one corner and nothing else.</summary>
    private const double PatchBits = 0.42;

    /// <summary>What blur adds to a patch's half side, in its standard deviations: three take in 99.7 % of each edge.</summary>
    private const double PatchBlurs = 3;

    /// <summary>
    /// A corner whose fit leaves this multiple of the median residual is something else: shank, shadow, reflection. Residuals of good corners
    /// (noise, JPEG, sharpening) scatter by some tens of percent about their median.
    /// </summary>
    private const double ResidualRatio = 2.5;

    /// <summary>Least uncertainty that a located corner is given, px: pixel response, JPEG and the printer leave errors that the noise of one patch does not show.</summary>
    public const double LeastUncertaintyPx = 0.02;

    /// <summary>Corners all over the picture from which blur and geometry are learned before the rest: twice as many as a fit needs, since some are hidden.</summary>
    private const int SampleCount = 2 * CardCalibrator.MinCorners;

    /// <summary>Blurs to start from while nothing is known, px: sharp, soft, and a card 15 mm behind the focus. Each leads to the answer from half to twice of it.</summary>
    private static readonly double[] FirstBlursPx = [1, 3, 8];

    private readonly CardPattern _pattern = new(card);

    /// <summary>Locates all corners.</summary>
    /// <param name="coarse">From the markers on a reduced picture.</param>
    /// <param name="markers">How many of them.</param>
    /// <remarks>
    /// The directions of the edges come from the geometry. One that is wrong by an angle a moves a marker's corner, whose edges go one way only, by half
    /// the patch times a: the coarse geometry's 0.002 would cost as much as the noise. So it is first made good on a sample of corners.
    /// </remarks>
    public CardSighting Locate(CardGeometry coarse, int markers)
    {
        ImmutableArray<Prediction> predictions = Predict(coarse);
        int every = Math.Max(1, predictions.Length / SampleCount);
        CardSighting sample = Locate([.. predictions.Where((_, i) => i % every == 0)], FirstBlursPx, markers);
        if (CardCalibrator.Fit(sample, priors) is { UsedCount: >= CardCalibrator.MinCorners } better) predictions = Predict(better.Geometries[0]);
        return Locate(predictions, [sample.BlurSigmaPx], markers);
    }

    private CardSighting Locate(ImmutableArray<Prediction> predictions, double[] blursPx, int markers)
    {
        var results = new CornerFit.Result?[predictions.Length];
        Parallel.For(0, predictions.Length, i =>
        {
            foreach (double blur in blursPx)
                if (Fit(predictions[i], blur) is { } r && (results[i] is not { } best || r.RelativeResidual < best.RelativeResidual))
                    results[i] = r;
        });
        CornerFit.Result[] found = [.. results.OfType<CornerFit.Result>()];
        if (found.Length == 0) return new(picture.Width, picture.Height, markers, [], blursPx[0]);

        double limit = ResidualRatio * Median(found.Select(r => r.RelativeResidual));
        ImmutableArray<CardCorner> corners =
        [
            .. from pair in predictions.Zip(results, (prediction, result) => (prediction, result))
               where pair.result?.RelativeResidual <= limit
               let r = pair.result.GetValueOrDefault()
               select new CardCorner(pair.prediction.Design, r.Pixel, pair.prediction.Kind, Quadrature.Sum(r.StandardUncertaintyPx, LeastUncertaintyPx)),
        ];
        return new(picture.Width, picture.Height, markers, corners, Median(found.Select(r => r.SigmaPx)));
    }

    private CornerFit.Result? Fit(Prediction p, double blurPx)
    {
        double mmPerPx = Math.Sqrt(Math.Abs(p.PerX.Cross(p.PerY)));
        int radius = (int)Math.Ceiling(PatchBits * card.Board.BitMm / mmPerPx + PatchBlurs * blurPx);
        // The window is cut by hand, and behind it is darker than ink: a patch that shows its border has a model that is wrong there.
        double reach = radius * mmPerPx;
        if (new DesignRectangle(p.Design.XMm - reach, p.Design.YMm - reach, 2 * reach, 2 * reach).Overlaps(card.Window)) return null;
        // What lies beyond the patch's corners still reaches into it by four standard deviations of the blur.
        PatternGrid grid = _pattern.Around(p.Design, (1.5 * radius + 4 * blurPx) * mmPerPx);
        return CornerFit.Locate(picture, grid, p.Pixel, p.PerX, p.PerY, blurPx, radius);
    }

    /// <summary>All corners of the card that should lie in the picture, with the local map from pixels to nominal card millimetres.</summary>
    private ImmutableArray<Prediction> Predict(CardGeometry geometry)
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
            if (!(pixel.X > 0 && pixel.X < picture.Width - 1 && pixel.Y > 0 && pixel.Y < picture.Height - 1)) return;
            (Vector2 x, Vector2 y) = geometry.PlanePerPixel(pixel, 0);
            all.Add(new(design, kind, pixel, new(x.X / geometry.PrintScaleX, x.Y / geometry.PrintScaleY), new(y.X / geometry.PrintScaleX, y.Y / geometry.PrintScaleY)));
        }
    }

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }

    private readonly record struct Prediction(DesignPoint Design, CornerKind Kind, PixelPoint Pixel, Vector2 PerX, Vector2 PerY);
}
