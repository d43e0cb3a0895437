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

    /// <summary>Fewest corners: 40 coordinates for 13 unknowns, so that their scatter is known to about 1 / sqrt(2 · 27), 14 %.</summary>
    public const int MinCorners = 20;

    /// <summary>
    /// Greatest chi-square of the lens against its profile: four degrees of freedom exceed 23.5 once in ten thousand photographs
    /// (chi-square tables: 18.5 at 0.999, 23.5 at 0.9999).
    /// </summary>
    public const double ProfileLimit = 23.5;

    /// <summary>Fits camera, distortion, print and pose together.</summary>
    /// <param name="sighting">From <see cref="CardDetector"/>.</param>
    /// <param name="card">The card that was photographed.</param>
    /// <param name="bars">The print as measured.</param>
    /// <param name="profile">The lens, if known; else a camera distance of 115 ± 20 mm is assumed.</param>
    /// <returns>The calibration, or a refusal: <c>card-hidden</c>, <c>lens-profile-size</c> or <c>lens-profile-other</c>.</returns>
    public static Outcome<CardCalibration> Calibrate(CardSighting sighting, CardDescription card, PrintMeasurement bars, LensProfile? profile = null)
    {
        Measured printX = bars.ScaleX(card), printY = bars.ScaleY(card);
        BundlePriors priors = BundlePriors.UnknownLens(sighting.WidthPx, sighting.HeightPx, printX, printY);
        if (Fit(sighting, priors) is not { } solution) return Hidden(sighting.Corners.Length);
        if (solution.UsedCount < MinCorners) return Hidden(solution.UsedCount);
        if (profile is not null)
        {
            if (!profile.For(sighting.WidthPx, sighting.HeightPx).TryGet(out LensProfile? scaled, out Refusal? refusal)) return refusal;
            priors = BundlePriors.KnownLens(scaled, printX, printY);
            solution = CardBundle.Refit([sighting.Corners], solution, priors);
            double chiSquare = priors.LensChiSquare(solution.Geometries[0]);
            if (chiSquare > ProfileLimit)
                return new Refusal(
                    "lens-profile-other", $"The photograph was not taken with the lens of the profile {profile.Name}, or with another zoom.",
                    "Name the right profile, make a new one, or measure without a profile.", chiSquare, ProfileLimit, "chi-square");
        }
        CardCalibration calibration = new(solution.Geometries[0], solution.Covariance, priors, card, solution.ResidualPx, solution.UsedCount) { Print = bars };
        ScaleBudget budget = calibration.ScaleBudget(new Measured(0, 0));
        double seen = Quadrature.Sum(budget.Corners, budget.Lens);
        return seen > ScaleLimit ? Hidden(100 * seen, 100 * ScaleLimit, "% of a length") : calibration;
    }

    /// <summary>Null when the corners don't span a plane.</summary>
    internal static CardBundle.Solution? Fit(CardSighting sighting, BundlePriors priors) =>
        PoseStart.From(sighting.Corners, sighting.WidthPx, sighting.HeightPx, priors) is { } start ? CardBundle.Solve([sighting.Corners], [start], priors) : null;

    internal static Refusal Hidden(int corners) => Hidden(corners, MinCorners, "corners located");

    private static Refusal Hidden(double figure, double limit, string unit) => new(
        "card-hidden", "Too little of the reference card can be seen to know the picture's scale.",
        "Uncover the card so that squares are seen on at least two sides of the window, and retake the photograph.", figure, limit, unit);
}
