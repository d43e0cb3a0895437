using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Lines;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Silhouettes;
using EdgeLens.Measuring.HeelSection;
using EdgeLens.Measuring.Views;
using OpenCvSharp;

namespace EdgeLens.Measuring.ToeView;

/// <summary>Face angle, internal angles and working edge of a curette from a toe view.</summary>
public static class ToeViewMeasurer
{
    private const int Candidates = 6;

    // Ten tones over a third of the toe: less is no edge that angles could be taken from.
    private const double LeastSeen = 200;

    private const double SamePlaceMm = 0.2;

    /// <summary>Measures.</summary>
    /// <param name="photograph">Borrowed.</param>
    /// <param name="summary">Its file.</param>
    /// <param name="calibration">From the card behind the blade.</param>
    /// <param name="card">Which card.</param>
    /// <param name="family">Curette or scaler.</param>
    /// <param name="sharpening">Of the photograph.</param>
    /// <param name="face">Face view of the same working end on the same day, which shows form and size of the toe; null where there is none.</param>
    /// <returns>The angles, or the refusals <c>no-shank</c>, <c>toe-unseen</c>, <c>corner-dark</c>, <c>heel-blurred</c>, <c>corner-hidden</c>.</returns>
    public static Outcome<AngleMeasurement> Measure(
        Photograph photograph, PhotographSummary summary, CardCalibration calibration, CardDescription card, InstrumentFamily family, Sharpening sharpening, FaceMeasurement? face = null)
    {
        ArgumentNullException.ThrowIfNull(photograph);
        ArgumentNullException.ThrowIfNull(calibration);
        ArgumentNullException.ThrowIfNull(card);
        using WindowRegion? region = WindowRegion.Of(calibration, card, new Size(photograph.WidthPx, photograph.HeightPx));
        if (region is null) return ViewRefusals.WindowNotSeen;
        double mmPerPx = BladeScale.MmPerPx(calibration, card);
        if (!TerminalShank.Find(photograph.Grey, region, mmPerPx).TryGet(out TerminalShank? shank, out Refusal? refusal)) return refusal;
        TonePicture picture = TonePicture.Of(photograph.Grey);
        if (FamilyTraits.Of(family).HasPointedTip) return HeelSectionMeasurer.Measure(picture, summary, calibration, region, shank, family, sharpening, mmPerPx);
        ToePlan plan = ((face is null ? null : ToePlan.Of(face, BladeScale.ToeRelativeSigma(calibration))) ?? ToePlan.Nominal).InPerspective(calibration.DistanceMm.Value - BladeScale.ToeBeforeCardMm);
        if (FindEdge(photograph.Grey, picture, calibration, card, shank, BladeScale.ToeMmPerPx(calibration, card), sharpening, plan) is not { } edge || edge.Seen < LeastSeen) return ToeUnseen;
        return Assemble(picture, summary, calibration, card, family, sharpening, shank, edge);
    }

    private static ToeEdge? FindEdge(
        Mat grey, TonePicture picture, CardCalibration calibration, CardDescription card, TerminalShank shank, double mmPerPx, Sharpening sharpening, ToePlan plan)
    {
        ToeOutlook outlook = ToeOutlook.From(calibration, shank, BladeScale.BeforeCardMm, mmPerPx);
        Vector2 down = new Vector2(shank.Bottom.X - shank.Top.X, shank.Bottom.Y - shank.Top.Y).Unit, right = -1 * down.Perpendicular;
        using Mat calm = new();
        Cv2.MedianBlur(grey, calm, 3);
        List<ToeEdgeCandidate> candidates = ToeEdgeSearch.Find(TonePicture.Of(calm), outlook, right, sharpening, shank.BladeEndYPx, Candidates);
        SharpStep sharp = new(1.1, sharpening, 4);
        List<ToeEdge> edges = [];
        foreach (ToeEdgeCandidate candidate in candidates)
        {
            List<PathPoint> path = ToeEdgePath.Follow(picture, candidate, sharp, mmPerPx);
            if (ToeEdgeModel.Fit(candidate, path, outlook, plan) is not { } edge) continue;
            (SeenSide leftSide, double leftUsual) = See(picture, calibration, card, edge, -1, sharpening);
            (SeenSide rightSide, double rightUsual) = See(picture, calibration, card, edge, 1, sharpening);
            if (leftSide.Corner is not null || rightSide.Corner is not null) edge = ToeEdgeModel.Fit(candidate, path, outlook, plan, leftSide, rightSide) ?? edge;
            edge = FaceLine.Refine(picture, edge.WithEnds(leftSide, rightSide));
            // Below the toe's edge the light goes with the rulings; below a seam of heel or print it does not.
            double explained = ToeLight.Fit(picture, edge, leftSide, rightSide)?.Explained ?? 0;
            edges.Add(edge with { Seen = edge.Seen * explained * explained * leftUsual * rightUsual });
        }
        return Agreed(edges);
    }

    /// <summary>The edge set between its ends as they are seen from where it lies now, and on its step of light there.</summary>
    private static (ToeEdge Edge, SeenSide Left, SeenSide Right) OnItsEnds(TonePicture picture, CardCalibration calibration, CardDescription card, ToeEdge edge, Sharpening sharpening)
    {
        SeenSide left = default, right = default;
        // Where the ends are sought depends on where the edge lies: the second round starts within a pixel.
        for (int round = 0; round < 2; round++)
        {
            (left, right) = (See(picture, calibration, card, edge, -1, sharpening).Side, See(picture, calibration, card, edge, 1, sharpening).Side);
            edge = FaceLine.Refine(picture, edge.WithEnds(left, right));
        }
        return (edge, left, right);
    }

    /// <summary>Where a side ends for the eye, its corner, and how usual an angle it makes there (1 where it is not seen).</summary>
    private static (SeenSide Side, double Usual) See(TonePicture picture, CardCalibration calibration, CardDescription card, ToeEdge edge, int side, Sharpening sharpening)
    {
        EdgeOfLight light = EdgeOfLight.Of(calibration, card, edge, side);
        (PixelPoint Place, double Usual)? corner = LateralLine.CornerOf(picture, edge, side, light, sharpening);
        return (new(light, corner?.Place), corner?.Usual ?? 1);
    }

    /// <summary>
    /// The edge that is seen best, its uncertainty widened by what others at the same place differ from it. Each was followed from another start; one that
    /// is seen less well counts with the fourth power of that.
    /// </summary>
    private static ToeEdge? Agreed(List<ToeEdge> edges)
    {
        if (edges.MaxBy(e => e.Seen) is not { } best) return null;
        double weights = 0, squares = 0;
        foreach (ToeEdge e in edges.Where(e => Distance(e, best) * best.MmPerPx < SamePlaceMm))
        {
            double weight = Math.Pow(e.Seen / best.Seen, 4), turn = Math.Asin(best.Along.Cross(e.Along));
            (weights, squares) = (weights + weight, squares + weight * turn * turn);
        }
        // The difference of two independent estimates scatters by root two of either.
        return best with { TurnSigmaRad = Quadrature.Sum(best.TurnSigmaRad, Math.Sqrt(squares / weights / 2)) };
    }

    private static double Distance(ToeEdge a, ToeEdge b) => new Vector2(a.Middle.X - b.Middle.X, a.Middle.Y - b.Middle.Y).Length;

    private static Outcome<AngleMeasurement> Assemble(
        TonePicture picture, PhotographSummary summary, CardCalibration calibration, CardDescription card, InstrumentFamily family, Sharpening sharpening, TerminalShank shank, ToeEdge edge)
    {
        (edge, SeenSide leftSide, SeenSide rightSide) = OnItsEnds(picture, calibration, card, edge, sharpening);
        ToeLight? light = ToeLight.FitTwice(picture, edge, leftSide, rightSide);
        if (light is not null) edge = light.Edge;
        Measured offset = FaceToShank.OffsetDeg(calibration, edge.Chord, shank, FamilyTraits.Of(family));
        ImmutableArray<FittedLine>.Builder lines = ImmutableArray.CreateBuilder<FittedLine>();
        lines.Add(new(LineRole.ShankAxis, shank.Top, shank.Bottom));
        lines.Add(new(LineRole.Face, edge.At(-edge.HalfWidthMm.Value, 0), edge.At(edge.HalfWidthMm.Value, 0)));
        (Figure left, SectionProfile? leftSection) = Side(1, LineRole.LeftLateral);
        (Figure right, SectionProfile? rightSection) = Side(-1, LineRole.RightLateral);
        // A line below which no lateral surface stands as one can may be any: a seam of the heel, the rim of a shadow.
        if (leftSection is null && rightSection is null && !(IsUsual(light?.LeftRad) && IsUsual(light?.RightRad))) return ToeUnseen;
        (Figure face, CuttingEdges? edges) = FaceToShank.Figures(offset, "The face's line at the toe is too uncertain. Focus on the toe, look along the blade, and take the photograph again.");
        Figure none = Figure.Missing("Luxators and elevators have it, and show it in a side view.");
        return new AngleMeasurement(summary, family, PhotographView.Toe, face, left, right, edges, none, none, leftSection, rightSection, lines.ToImmutable());

        (Figure Angle, SectionProfile? Section) Side(int side, LineRole role)
        {
            if (!LateralSurface.Measure(picture, edge, side > 0 ? light?.RightRad : light?.LeftRad, side, (side > 0 ? rightSide : leftSide).Light, calibration, sharpening).TryGet(out LateralSurface? line, out Refusal? refusal)) return (Figure.Missing($"{refusal.Reason} {refusal.Advice}"), null);
            lines.Add(new(role, line.Line.Start, line.Line.End));
            return (line.InternalAngleDeg, line.Section);
        }
    }

    /// <summary>True for 60 to 90°: new ones have 70 to 80° (common practice), and more than ten degrees of wrong sharpening on both sides at once is not to be expected.</summary>
    private static bool IsUsual(Measured? internalRad) => internalRad is { } b && Math.Abs(b.Value * 180 / Math.PI - 75) <= 15;

    private static Refusal ToeUnseen => new("toe-unseen", "The cutting edge at the toe cannot be found in focus.",
        "Focus on the toe, look straight along the blade with the terminal shank upright, and take the photograph again.");
}
