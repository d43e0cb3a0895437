using System.Collections.Immutable;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Imaging.Silhouettes;
using EdgeLens.Measuring.FaceView;
using EdgeLens.Measuring.Quality;
using OpenCvSharp;

namespace EdgeLens.Measuring.Inspection;

/// <summary>The face view from photograph to figures: calibrate, gate, silhouette, edge, frame, measurands, light.</summary>
/// <param name="card">The reference card in the photographs.</param>
/// <param name="options">Limits.</param>
public sealed class FaceInspector(CardDescription card, InspectorOptions options)
{
    // Trace points lie three pixels apart and outline points one: the next one is within a few.
    private const int SearchPoints = 6;

    /// <summary>Measures one face view.</summary>
    /// <param name="photo">Borrowed.</param>
    /// <param name="family">As the user states it.</param>
    /// <param name="print">The card's bars as measured.</param>
    /// <param name="heightOverCardMm">Of the face over the card, with its standard uncertainty.</param>
    /// <param name="lens">Of the phone and loupe, if there is one.</param>
    /// <param name="baseline">The as-new face view, if there is one: stations are then counted from its apex.</param>
    /// <returns>The measurement, or why the photograph cannot be measured.</returns>
    public Outcome<FaceResult> Measure(Photograph photo, FamilyTraits family, PrintMeasurement print, Measured heightOverCardMm, LensProfile? lens, FaceMeasurement? baseline)
    {
        return CardStage.Calibrate(photo, card, print, lens).Then(calibration => Measure(photo, calibration, family, heightOverCardMm, baseline));
    }

    /// <summary>Measures one face view whose camera is known.</summary>
    /// <param name="photo">Borrowed.</param>
    /// <param name="calibration">By <see cref="CardStage"/>.</param>
    /// <param name="family">As the user states it.</param>
    /// <param name="heightOverCardMm">Of the face over the card, with its standard uncertainty.</param>
    /// <param name="baseline">The as-new face view, if there is one.</param>
    /// <returns>The measurement, or why the photograph cannot be measured.</returns>
    public Outcome<FaceResult> Measure(Photograph photo, CardCalibration calibration, FamilyTraits family, Measured heightOverCardMm, FaceMeasurement? baseline)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentNullException.ThrowIfNull(calibration);
        if (PaperLevel.Measure(photo.Grey, calibration, card) is not { } paper) return CaptureGate.CardHidden;
        if (CameraMotion.Check(photo.Grey) is { } moved) return moved;
        if (CaptureGate.Check(paper, calibration.TiltDeg, options) is { } bad) return bad;
        return Trace(photo, family, calibration, paper, heightOverCardMm.Value).Then(traced => Figures(photo, family, heightOverCardMm, baseline, calibration, traced));
    }

    private sealed record Traced(EdgeTrace Edge, ImmutableArray<SilhouettePoint> Silhouette, double FaceLevel, double GroundLevel, double Paper);

    private Outcome<Traced> Trace(Photograph photo, FamilyTraits family, CardCalibration calibration, double paper, double heightMm)
    {
        using WindowRegion? region = WindowRegion.Of(calibration, card, new Size(photo.WidthPx, photo.HeightPx));
        if (region is null) return CaptureGate.WindowNotSeen;
        CardPoint middle = calibration.Printed(card.Window.Centre);
        double mmPerPx = calibration.MmPerPx(middle, heightMm);
        if (!SilhouetteFinder.Find(photo.Grey, region, mmPerPx).TryGet(out CoarseSilhouette? coarse, out Refusal? refusal)) return refusal;
        Sharpening sharpening = SharpeningEstimator.Estimate(photo.Grey, calibration, card);
        EdgeLine start = EdgeSnap(photo.Grey, coarse);
        FacePanels found = FacePanels.Find(photo.Grey, calibration, coarse, family, heightMm, paper, card.Patch("white")?.Reflectance ?? PaperLevel.NominalReflectance, mmPerPx);
        EdgeTrace edge = TraceUnder(found.Light);
        if (CaptureGate.CheckBlur(edge.BlurSigmaPx.Scale(1000 * mmPerPx), options) is { } bad) return bad;
        if (found.FromEdges(edge, 1000 * mmPerPx) is { } panels) edge = TraceUnder(panels);
        return new Traced(edge, TracedSilhouette.InFacePlane(edge, calibration, heightMm), coarse.FaceLevel, coarse.GroundLevel, paper);

        EdgeTrace TraceUnder(PanelLight panels) => EdgeTracer.Trace(photo.Grey, start, sharpening, panels, p => ViewLean.Degrees(calibration, p, heightMm));
    }

    private static EdgeLine EdgeSnap(Mat grey, CoarseSilhouette coarse) =>
        EdgeLine.Through(HalfLevelSnap.Snap(grey, EdgeLine.Through(coarse.Points, 4), coarse.GroundLevel), 4);

    private Outcome<FaceResult> Figures(Photograph photo, FamilyTraits family, Measured height, FaceMeasurement? baseline, CardCalibration calibration, Traced traced)
    {
        if (!FrameFinder.Find(traced.Silhouette, family).TryGet(out Outline? found, out Refusal? refusal)) return refusal;
        Outline outline = found;
        BladeProjection projection = new(calibration, outline, height.Value);
        CardPoint middle = projection.OnCard(new(0, outline.Apex.Position.ZMm / 2));
        double mmPerPx = calibration.MmPerPx(middle, height.Value);
        outline = outline with { Noise = new(CorrelationMm: EdgeTrace.CorrelationPx * mmPerPx) };
        Vector3 view = calibration.ViewDirection(middle, height.Value);
        ScaleBudget lengths = calibration.ScaleBudget(height);
        ScaleSummary scale = new(mmPerPx, lengths.RelativeStandardUncertainty, calibration.CornerCount, calibration.CornerResidualPx,
            calibration.TiltDeg, calibration.DistanceMm, height, new Vector2(view.X / view.Z, view.Y / view.Z))
        {
            Parts = new(lengths.Corners, lengths.Print, lengths.Lens, lengths.Height) { PrintName = calibration.Print?.Name },
        };
        double clipped = 100.0 * traced.Edge.Points.Count(p => p.IsClipped) / traced.Edge.Points.Length;
        QualitySummary quality = new(traced.Edge.BlurSigmaPx.Scale(1000 * mmPerPx), clipped, traced.GroundLevel, traced.FaceLevel);
        PhotographSummary summary = new(photo.Source.FileName, photo.Source.Sha256, photo.WidthPx, photo.HeightPx);
        EdgeTracePoint[] nearest = Nearest(traced.Edge, outline, projection);

        Measured? faceEnd = FaceEndFinder.Find(photo.Grey, calibration, outline, height.Value, traced.Edge.BlurSigmaPx.Value * mmPerPx);

        FaceMeasurement own = Under(null);
        if (baseline is null) return new FaceResult(own, calibration, traced.Edge, null);
        Outcome<DriftMeasurement> drift = DriftEstimator.Estimate(baseline, own);
        return new FaceResult(drift.TryGet(out DriftMeasurement? d, out _) ? Under(AsNewApex(baseline, d)) : own, calibration, traced.Edge, drift);

        FaceMeasurement Under(Measured? stationOrigin)
        {
            FaceFigures figures = FaceFigures.Measure(outline, family, scale.RelativeStandardUncertainty, stationOrigin, outline.Noise);
            double origin = (stationOrigin ?? figures.ApexZMm).Value;
            EdgeLight light = EdgeLightMeter.Measure(traced.Edge, outline, nearest, figures.Parts, origin, family, 1000 * mmPerPx, options.SharpLimitUm);
            return new(summary, family.Family, scale, quality, outline, figures.Widths, origin, figures.ToeRadiusUm, figures.TipWidthUm, figures.TipArcRadiusMm, figures.Nicks, light)
            {
                FaceEndZMm = faceEnd,
            };
        }
    }

    /// <summary>Where the as-new apex, the origin of stations, lies in today's frame; as uncertain as the length loss that hangs on the same registration.</summary>
    private static Measured AsNewApex(FaceMeasurement baseline, DriftMeasurement drift)
    {
        Vector2 apex = drift.BaselineFromToday.Inverse().Apply(new(0, baseline.StationOriginZMm));
        return new(apex.Y, (drift.LengthLossUm.Measured?.StandardUncertainty ?? 0) / 1000);
    }

    /// <summary>For each outline point the fitted place in the photograph that it came from.</summary>
    private static EdgeTracePoint[] Nearest(EdgeTrace trace, Outline outline, BladeProjection projection)
    {
        // Both run along the same edge, perhaps the other way round: a window that moves along finds the nearest.
        ImmutableArray<EdgeTracePoint> points = trace.Points;
        EdgeTracePoint[] nearest = new EdgeTracePoint[outline.Points.Length];
        for (int i = 0, at = -1; i < nearest.Length; i++)
        {
            PixelPoint p = projection.Pixel(outline.Points[i].Position);
            int from = at < 0 ? 0 : Math.Max(0, at - SearchPoints), to = at < 0 ? points.Length - 1 : Math.Min(points.Length - 1, at + SearchPoints);
            for (int k = from, best = -1; k <= to; k++)
                if (best < 0 || Distance(points[k], p) < Distance(points[best], p)) (best, at) = (k, k);
            nearest[i] = points[at];
        }
        return nearest;
    }

    private static double Distance(in EdgeTracePoint a, PixelPoint b) => Math.Pow(a.Position.X - b.X, 2) + Math.Pow(a.Position.Y - b.Y, 2);
}
