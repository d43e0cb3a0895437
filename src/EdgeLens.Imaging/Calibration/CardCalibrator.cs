using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Imaging.Calibration;

/// <summary>From the corners of one photograph to <see cref="CardCalibration"/>.</summary>
public static class CardCalibrator
{
    /// <summary>
    /// Greatest relative standard uncertainty of lengths in the card's plane, print apart. The unknown height of the face costs about 0.75 %
    /// (± 1.5 mm at 115 mm); 0.2 % more in quadrature lengthens that by a thirtieth. Above it, too little of the card is seen.
    /// </summary>
    public const double ScaleLimit = 0.002;

    /// <summary>Fits camera, distortion, print and pose together.</summary>
    /// <param name="sighting">From <see cref="CardDetector"/>.</param>
    /// <param name="card">The card that was photographed.</param>
    /// <param name="bars">The print as measured.</param>
    /// <param name="profile">The lens, if known; else the distance of <see cref="BundlePriors.UsualDistanceMm"/> is assumed.</param>
    /// <returns>The calibration, or a refusal <c>card-hidden</c>, or that of a profile which does not fit the picture.</returns>
    public static Outcome<CardCalibration> Calibrate(CardSighting sighting, CardDescription card, PrintMeasurement bars, LensProfile? profile = null)
    {
        Measured printX = bars.ScaleX(card), printY = bars.ScaleY(card);
        BundlePriors priors = BundlePriors.UnknownLens(sighting.WidthPx, sighting.HeightPx, printX, printY);
        if (PoseStart.From(sighting.Corners, sighting.WidthPx, sighting.HeightPx, priors) is not { } start) return Hidden(null);
        CardBundle.Solution solution = CardBundle.Solve([sighting.Corners], [start], priors);
        CardCalibration calibration = new(solution.Geometries[0], solution.Covariance, priors, card, solution.ResidualPx, solution.UsedCount);
        ScaleBudget budget = calibration.ScaleBudget(new Measured(0, 0));
        double seen = Quadrature.Sum(budget.Corners, budget.Lens);
        return seen > ScaleLimit ? Hidden(seen) : calibration;
    }

    private static Refusal Hidden(double? relative) => new(
        "card-hidden", "Too little of the reference card can be seen to know the picture's scale.",
        "Uncover the card so that squares are seen on at least two sides of the window, and retake the photograph.",
        100 * relative, relative is null ? null : 100 * ScaleLimit, relative is null ? null : "% of a length");
}
