using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.SideView;

/// <summary>The bevel's contour over the 0.10 to 0.60 mm next to the tip.</summary>
/// <param name="Face">Which of the blade's long lines the bevel meets at the tip.</param>
/// <param name="Back">The other one, which it meets where it ends.</param>
/// <param name="Bevel">The fitted line, leading from the tip backwards.</param>
/// <param name="InlierShare">How much of it could be seen.</param>
internal sealed record BevelLine(StraightEdge Face, StraightEdge Back, StraightEdge Bevel, double InlierShare)
{
    private const double FromMm = 0.10;
    private const double ToMm = 0.60;
    private const int GroundPx = 25;
    private const int OutwardPx = 75;
    private const int InwardPx = 30;

    // Bevels from 20° to 70° are looked for.
    private const double GreatestSlope = 0.466;

    /// <summary>Least share of the stretch where the contour must be seen: with less, chance alignments of noise pass for a line.</summary>
    public const double LeastInlierShare = 0.75;

    /// <summary>Seeks the bevel at either long line and takes the one that is seen better.</summary>
    public static Outcome<BevelLine> Find(TonePicture picture, BladeSides sides, double mmPerPx, Sharpening sharpening)
    {
        Candidate? best = null;
        foreach ((StraightEdge face, StraightEdge back) in new[] { (sides.Upper, sides.Lower), (sides.Lower, sides.Upper) })
            if (Seek(picture, sides, face, back, mmPerPx) is { } candidate && (best is null || candidate.Score > best.Score)) best = candidate;
        if (best is null || best.Contour.InlierShare < LeastInlierShare)
            return new Refusal("bevel-unseen", "The bevel next to the tip cannot be told from the black window behind it.",
                "Move a light ahead of the tip, about 30° beside the blade's axis, so that the bevel shines, and take the photograph again.",
                100 * (best?.Contour.InlierShare ?? 0), 100 * LeastInlierShare, "% of the bevel seen");
        Stretch seen = Window(best.Contour.Line, best.Face.Line, mmPerPx);
        StraightEdge fit = Fit(picture, seen, sharpening);
        return new BevelLine(best.Face, best.Back, fit with { AngleSigmaRad = Quadrature.Sum(fit.AngleSigmaRad, Bend(picture, fit, sharpening)) }, best.Contour.InlierShare);
    }

    /// <summary>
    /// How far the upper half of the line leads another way than the lower one, radians, as far as that is clear (k = 2): the bevel is then not one plane, as where a second bevel has been ground, and
    /// the definition's stretch holds a part of both.
    /// </summary>
    private static double Bend(TonePicture picture, StraightEdge bevel, Sharpening sharpening)
    {
        StraightEdge near = Part(0, 0.5), far = Part(0.5, 1);
        double turn = Math.Abs(near.Line.TurnRad(far.Line));
        return Math.Max(0, turn - 2 * Quadrature.Sum(near.AngleSigmaRad, far.AngleSigmaRad));

        StraightEdge Part(double from, double to)
        {
            Stretch line = bevel.Line;
            return Fit(picture, Stretch.Between(line.At(from * line.LengthPx, 0), line.At(to * line.LengthPx, 0), line.At(line.LengthPx / 2, -50)), sharpening);
        }
    }

    private static StraightEdge Fit(TonePicture picture, Stretch stretch, Sharpening sharpening) => StraightEdgeFitter.FitFaint(picture, stretch, sharpening, 5, 7, 0.7, 1.8);

    private static Candidate? Seek(TonePicture picture, BladeSides sides, StraightEdge face, StraightEdge back, double mmPerPx)
    {
        Vector2 u = face.Line.Along;                                   // towards the tip
        Vector2 n = -1 * face.Line.Outward;                            // from the face into the steel
        double reach = (sides.LitTipXPx - face.Line.Start.X) / u.X;
        PixelPoint tip = face.Line.At(reach, 0);
        double h = Math.Sqrt(0.5);
        Vector2 along = h * (n - u);
        PixelPoint inside = new(tip.X - 50 * u.X, tip.Y - 50 * u.Y);
        Stretch guess = Stretch.Between(tip, new(tip.X + along.X * (ToMm + 0.02) / mmPerPx, tip.Y + along.Y * (ToMm + 0.02) / mmPerPx), inside);
        if (ContourLine.Find(new LineStrip(picture, guess, InwardPx, OutwardPx), GroundPx, 0.08 / mmPerPx, GreatestSlope) is not { } contour) return null;
        double turn = Math.Abs(contour.Line.Along.Cross(guess.Along));
        // A bevel is near 45°; the wrong long line shows, if anything, its own corner far off that.
        return new Candidate(face, back, contour, contour.InlierShare - 2 * turn);
    }

    /// <summary>The contour from 0.10 to 0.60 mm behind where it meets the face's line.</summary>
    private static Stretch Window(Stretch contour, Stretch face, double mmPerPx)
    {
        double tip = contour.CrossingPx(face);
        PixelPoint from = contour.At(tip + FromMm / mmPerPx, 0), to = contour.At(tip + ToMm / mmPerPx, 0);
        return Stretch.Between(from, to, contour.At(contour.LengthPx / 2, -100));
    }

    private sealed record Candidate(StraightEdge Face, StraightEdge Back, ContourLine Contour, double Score);
}
