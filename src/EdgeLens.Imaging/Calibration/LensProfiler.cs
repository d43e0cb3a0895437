using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Cards;
using MathNet.Numerics.LinearAlgebra;

namespace EdgeLens.Imaging.Calibration;

/// <summary>From several photographs of the card with one phone and loupe to a <see cref="LensProfile"/>: one lens and print, a pose for each photograph, all fitted together.</summary>
public static class LensProfiler
{
    /// <summary>Fewest photographs: focal length and principal point need tilts in two directions, and a third to see whether the lens stayed the same.</summary>
    public const int MinPhotographs = 3;

    /// <summary>Greatest relative standard uncertainty of the focal length, from the distance prior and the tilts. Twice what refocusing adds: above it, a profile hardly helps.</summary>
    public const double FocalLimit = 2 * LensProfile.RefocusSpread;

    /// <summary>
    /// Greatest ratio of the residual spread with one common lens to that with a lens for each photograph. Above 1.15 the common lens adds a
    /// third of the corners' variance: focus or zoom has changed, or two phones were mixed.
    /// </summary>
    public const double CommonLensLimit = 1.15;

    /// <summary>Least share of the corners that a common lens must keep of those which agree photograph by photograph; good ones are all kept but for a few in ten thousand.</summary>
    public const double KeptLimit = 0.95;

    private const string MixedLenses = "The photographs don't share one lens: focus, zoom, crop or phone differ.";

    private const string TakeAllInOneGo = "Take all of them in one go with the same phone, loupe and zoom, at about the same distance.";

    /// <summary>Fits the lens.</summary>
    /// <param name="sightings">From <see cref="CardDetector"/>, one for each photograph; same size, same way up, the phone tilted 5 to 15° in different directions.</param>
    /// <param name="card">The card in all of them.</param>
    /// <param name="bars">The print as measured.</param>
    /// <param name="name">For the profile.</param>
    /// <param name="date">For the profile.</param>
    /// <returns>The profile, or a refusal: <c>lens-profile-photographs</c>, <c>lens-profile-size</c>, <c>lens-profile-mixed</c>, <c>lens-profile-weak</c> or <c>card-hidden</c>.</returns>
    public static Outcome<LensProfile> Estimate(IReadOnlyList<CardSighting> sightings, CardDescription card, PrintMeasurement bars, string name, DateOnly date)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        if (sightings.Count < MinPhotographs)
            return new Refusal(
                "lens-profile-photographs", "Too few photographs of the card for a lens profile.", "Take photographs tilted by 5 to 15° in different directions.",
                sightings.Count, MinPhotographs, "photographs");
        (int width, int height) = (sightings[0].WidthPx, sightings[0].HeightPx);
        if (sightings.FirstOrDefault(s => (s.WidthPx, s.HeightPx) != (width, height)) is { } other)
            return new Refusal(
                "lens-profile-size", FormattableString.Invariant($"The photographs differ in size: {width} x {height} px and {other.WidthPx} x {other.HeightPx} px."),
                "Take all photographs for one profile in the same format and the same way up.");

        BundlePriors priors = BundlePriors.UnknownLens(width, height, bars.ScaleX(card), bars.ScaleY(card));
        List<CardGeometry> starts = [];
        double apart = 0;
        int corners = 0;
        foreach (CardSighting s in sightings)
        {
            if (CardCalibrator.Fit(s, priors) is not { UsedCount: >= CardCalibrator.MinCorners } alone) return CardCalibrator.Hidden(s.Corners.Length);
            starts.Add(alone.Geometries[0]);
            apart += alone.UsedCount * alone.ResidualPx * alone.ResidualPx;
            corners += alone.UsedCount;
        }

        // All photographs are taken from about the same distance: what is assumed about it is one piece of knowledge, not one for each.
        Measured distance = BundlePriors.UsualDistanceMm;
        CardBundle.Solution together = CardBundle.Solve(
            [.. sightings.Select(s => s.Corners)], WithCommonLens(starts),
            priors with { DistanceMm = new Measured(distance.Value, distance.StandardUncertainty * Math.Sqrt(sightings.Count)) });

        double kept = (double)together.UsedCount / corners;
        if (kept < KeptLimit)
            return new Refusal("lens-profile-mixed", MixedLenses, TakeAllInOneGo, 100 * kept, 100 * KeptLimit, "% of the corners agree");
        double ratio = together.ResidualPx / Math.Sqrt(apart / corners);
        if (ratio > CommonLensLimit)
            return new Refusal("lens-profile-mixed", MixedLenses, TakeAllInOneGo, ratio, CommonLensLimit, "times the spread of single photographs");

        CameraModel camera = together.Geometries[0].Camera;
        double[] factor = [camera.FocalLengthPx, 1, 1, 1];
        Matrix<double> c = together.Covariance;
        ImmutableArray<double> covariance = [.. from i in Enumerable.Range(0, 4) from j in Enumerable.Range(0, 4) select factor[i] * factor[j] * (c[i, j] + c[j, i]) / 2];
        LensProfile profile = new(name, width, height, camera, covariance, sightings.Count, together.ResidualPx, date);
        double relative = profile.FocalLengthPx.StandardUncertainty / profile.FocalLengthPx.Value;
        return relative > FocalLimit
            ? new Refusal(
                "lens-profile-weak", "The photographs don't show the focal length: all are taken nearly square to the card.",
                "Add photographs tilted by 10 to 15° to each side.", 100 * relative, 100 * FocalLimit, "% of the focal length")
            : profile;
    }

    /// <summary>Starts for the common fit: every photograph takes over the median focal length, with its distance and tilt.</summary>
    private static List<CardGeometry> WithCommonLens(List<CardGeometry> starts)
    {
        CameraModel median = starts.OrderBy(g => g.Camera.FocalLengthPx).ElementAt(starts.Count / 2).Camera;
        return
        [
            .. starts.Select(g => g.Zoomed(Math.Log(median.FocalLengthPx / g.Camera.FocalLengthPx)) with
            {
                Camera = median, PrintScaleX = starts[0].PrintScaleX, PrintScaleY = starts[0].PrintScaleY, InkSpreadMm = starts[0].InkSpreadMm,
            }),
        ];
    }
}
