using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;

namespace EdgeLens.Imaging.Calibration;

/// <summary>Finds the reference card in a photograph and locates its corners to sub-pixel.</summary>
/// <remarks>
/// Markers are read on a reduced picture; their corners give a first geometry, from which every corner of the card that should be in the picture
/// is predicted; each is then located on the full picture by <see cref="CornerLocator"/>. So a marker needs not be readable for its corners to count.
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

    /// <summary>Finds the card.</summary>
    /// <param name="photograph">Borrowed.</param>
    /// <param name="card">Which card to look for.</param>
    /// <returns>The corners, or a refusal <c>no-card</c>.</returns>
    public static Outcome<CardSighting> Detect(Photograph photograph, CardDescription card)
    {
        ArgumentNullException.ThrowIfNull(photograph);
        return Detect(photograph.Grey, card);
    }

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
        return new CornerLocator(new LinearPicture(grey8), card, priors).Locate(geometry, agreeing);
    }

    private static (CardGeometry? Geometry, int Markers) Agree(ImmutableArray<CardCorner> corners, int width, int height, BundlePriors priors)
    {
        if (PoseStart.From(corners, width, height, priors) is not { } start) return (null, 0);
        CardBundle.Solution coarse = CardBundle.Solve([corners], [start], priors);
        return (coarse.Geometries[0], coarse.UsedCount / 4);
    }

    private static Refusal NoCard(int markers) => new(
        "no-card", markers == 0 ? "The reference card cannot be found in the photograph." : "Too few markers of the reference card can be read in the photograph.",
        "Lay the card flat, the blade in its window, squares in view on all sides, in focus and evenly lit, and retake the photograph.",
        markers, MinMarkers, "markers read");
}
