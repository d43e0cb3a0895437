using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.HeelSection;

/// <summary>
/// One corner of a scaler's face at the heel, seen along the blade: down to it the contour of the neck leads outwards, from it on the contour of the lateral surface leads inwards.
/// </summary>
/// <param name="Place">Where the two contours' lines meet, pixels.</param>
/// <param name="SigmaPx">Standard uncertainty of the place along the shank.</param>
/// <param name="Neck">The neck's contour, leading from the corner up.</param>
/// <param name="Lateral">The lateral surface's contour, leading from the corner down.</param>
internal sealed record HeelCorner(PixelPoint Place, double SigmaPx, StraightEdge Neck, StraightEdge Lateral)
{
    // The neck is bowed: what leads to the corner counts over a quarter of a millimetre; right at the corner a dark seam may hide it.
    private const double NeckFromMm = 0.05, NeckToMm = 0.28;

    /// <summary>The definition's stretch of the lateral surface, 0.15 to 0.40 mm from the corner, lengthened: a scaler's side is flat over 0.6 mm and more.</summary>
    public const double FromMm = 0.10, ToMm = 0.50;

    // New ones have 70 to 80° (common practice); contours up to 15° beside that are sought.
    private const double NominalDeg = 75, SearchDeg = 15;

    // With less of the stretch seen, chance alignments of noise pass for a line.
    private const double LeastInlierShare = 0.6;

    // Below the corner the cutting edge itself leads inwards beside the contour, some 6 px beside it where the stretch begins: the fit takes half of that as steel.
    private const int InwardPx = 3, OutwardPx = 7, GroundPx = 15;

    // In focus contours are blurred by 0.9 to 1.3 px; what is blurred more is out of focus, or another edge beside it.
    private const double LeastBlurPx = 0.6, GreatestBlurPx = 2;

    // Wide enough to tell a blur of three times the greatest one.
    private const int FocusReachPx = 9;

    // The neck's line is straight to half a degree; where the bowed edge stands out beside a turned blade, neck and edge together are not.
    private const double NeckLineDeg = 0.5;

    // How far the two halves of a plane surface's contour may lead apart.
    private const double GreatestBendDeg = 5;

    // Two lines that turn by less than 6° meet nowhere in particular.
    private const double LeastSine = 0.1;

    // Rounds of fitting and crossing: the second moves the corner by less than a pixel.
    private const int Rounds = 3;

    /// <summary>
    /// What a bowed neck, a seam and a slightly rounded corner leave of a corner's place along the shank, mm: 1.5 px rms of 8 µm, from the differences of 6 pairs of corners of rendered scalers.
    /// </summary>
    public const double FormSigmaMm = 0.012;

    /// <summary>Fits the corner.</summary>
    /// <param name="picture">The photograph.</param>
    /// <param name="neck">End of the neck on one side, as far as it is lit.</param>
    /// <param name="mmPerPx">At the heel.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <returns>The corner, or the refusals <c>corner-dark</c>, <c>heel-blurred</c>, <c>corner-hidden</c>.</returns>
    public static Outcome<HeelCorner> Fit(TonePicture picture, NeckEnd neck, double mmPerPx, Sharpening sharpening)
    {
        PixelPoint corner = neck.Place, inside = neck.Inside;
        (double s, double c) = Math.SinCos((90 - NominalDeg) * Math.PI / 180);
        Vector2 up = neck.Up, on = c * neck.Down - s * neck.Outward;
        if (Math.Min(NeckBlurPx(NeckFromMm, NeckToMm), NeckBlurPx(NeckToMm, 2 * NeckToMm)) > GreatestBlurPx) return CornerRefusals.Blurred(neck.Side);
        if (ContourLine.Find(new LineStrip(picture, Part(on, 0, ToMm + 0.05), 30, 45), GroundPx, FromMm / mmPerPx, Math.Tan(SearchDeg * Math.PI / 180)) is not { } seen
            || seen.InlierShare < LeastInlierShare) return CornerRefusals.Dark(neck.Side);
        (on, corner) = (seen.Line.Along, Part(up, 0, NeckToMm).Crossing(seen.Line));
        StraightEdge above = Above(), below = Below(FromMm, ToMm);
        for (int round = 1; round < Rounds; round++)
        {
            if (Math.Abs(above.Line.Along.Cross(below.Line.Along)) < LeastSine) return CornerRefusals.Hidden(neck.Side);
            (corner, up, on) = (above.Line.Crossing(below.Line), above.Line.Along, below.Line.Along);
            (above, below) = (Above(), Below(FromMm, ToMm));
        }
        const double degree = Math.PI / 180;
        double middle = (FromMm + ToMm) / 2, bend = Below(FromMm, middle).Line.TurnRad(Below(middle, ToMm).Line);
        if (above.BlurAtLimit || below.BlurAtLimit || above.AngleSigmaRad > NeckLineDeg * degree || Math.Abs(bend) > GreatestBendDeg * degree) return CornerRefusals.Hidden(neck.Side);
        return new HeelCorner(above.Line.Crossing(below.Line), Quadrature.Sum(CrossingSigmaPx(above, below, neck.Down), FormSigmaMm / mmPerPx), above, below);

        // A bowed edge that stands out blurs one part of the neck's line, defocus both.
        double NeckBlurPx(double fromMm, double toMm) => StraightEdgeFitter.Fit(picture, Part(up, fromMm, toMm), sharpening, FocusReachPx, FocusReachPx, LeastBlurPx, FocusReachPx).BlurSigmaPx;

        StraightEdge Above() => StraightEdgeFitter.Fit(picture, Part(up, NeckFromMm, NeckToMm), sharpening, InwardPx, OutwardPx, LeastBlurPx, GreatestBlurPx);

        StraightEdge Below(double fromMm, double toMm) => StraightEdgeFitter.Fit(picture, Part(on, fromMm, toMm), sharpening, InwardPx, OutwardPx, LeastBlurPx, GreatestBlurPx);

        Stretch Part(Vector2 along, double fromMm, double toMm) => Stretch.Between(Place(along, fromMm), Place(along, toMm), inside);

        PixelPoint Place(Vector2 along, double mm) => new(corner.X + along.X * mm / mmPerPx, corner.Y + along.Y * mm / mmPerPx);
    }

    /// <summary>Standard uncertainty of where two fitted lines cross, along a direction: n_a · c = d_a and n_b · c = d_b solved for c.</summary>
    private static double CrossingSigmaPx(StraightEdge a, StraightEdge b, Vector2 along)
    {
        PixelPoint at = a.Line.Crossing(b.Line);
        Vector2 na = a.Line.Outward, nb = b.Line.Outward;
        return Quadrature.Sum(along.Cross(nb) * Offset(a), along.Cross(na) * Offset(b)) / Math.Abs(na.Cross(nb));

        double Offset(StraightEdge edge)
        {
            PixelPoint middle = edge.Line.At(edge.Line.LengthPx / 2, 0);
            return Quadrature.Sum(edge.OffsetSigmaPx, edge.AngleSigmaRad * new Vector2(at.X - middle.X, at.Y - middle.Y).Length);
        }
    }
}
