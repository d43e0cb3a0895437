using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Silhouettes;
using OpenCvSharp;

namespace EdgeLens.Measuring.FaceView;

/// <summary>Which panels light the blade, from the stripes on its shank.</summary>
/// <param name="Light">The panels.</param>
/// <param name="IsSingle">True when the shank shows one stripe alone; the light then holds it on either side, of unknown place.</param>
/// <param name="Alone">How steel shows a panel if it is the only one.</param>
internal sealed record FacePanels(PanelLight Light, bool IsSingle, SteelLight Alone)
{
    // Of a coarse silhouette a point is known to about a pixel; the frame is needed to a degree only.
    private const double CoarseSigmaPx = 1;

    // Even a ground edge is rounded by 2 µm and more (2 to 6 as new) and shows them as a line when it faces a panel; an edge that faces none shows nothing, which comes out as 0 to 1 µm:
    // the border lies at half of it.
    private const double SharpestUm = 2;

    // For a tip arc the panels stand ahead of the tip, this far left and right of the axis (measurands.md).
    private const double AheadDeg = 30;

    // Where one side alone is lit, the other's apparent radius is less than half of its.
    private const double Contrast = 2;

    /// <summary>Finds the panels.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="calibration">Of the photograph.</param>
    /// <param name="coarse">The blade's outline.</param>
    /// <param name="family">Of the blade.</param>
    /// <param name="heightMm">Of its face over the card.</param>
    /// <param name="paper">Linear brightness of the card's white.</param>
    /// <param name="reflectance">Of the card's white.</param>
    /// <param name="mmPerPx">In the plane of the card.</param>
    public static FacePanels Find(
        Mat grey, CardCalibration calibration, CoarseSilhouette coarse, FamilyTraits family, double heightMm, double paper, double reflectance, double mmPerPx)
    {
        ImmutableArray<SilhouettePoint> silhouette = [.. coarse.Points.Select(p => new SilhouettePoint(calibration.ToPlane(p, heightMm), 1000 * CoarseSigmaPx * mmPerPx))];
        if (!FrameFinder.Find(silhouette, family).TryGet(out Outline? frame, out _) ||
            ShankHighlights.Find(grey, calibration, frame, heightMm, paper) is not { } stripes) return Unknown(frame);
        Vector2 left = InPicture(calibration, frame, heightMm, new(1, 0));
        SteelLight[] lights = SteelLightEstimator.Of([.. stripes.Levels.Select(level => SteelLightEstimator.OfPlateau(level, paper))], paper, reflectance, coarse.FaceLevel);
        // A single stripe may lie on either side.
        return new(new([new(left, lights[0]), new(-1 * left, lights[^1])], !stripes.IsSingle), stripes.IsSingle, lights[0]);

        FacePanels Unknown(Outline? seen)
        {
            (SteelLight alone, SteelLight ofTwo) = SteelLightEstimator.Estimate(grey, paper, reflectance, coarse.FaceLevel, mmPerPx);
            return new(new([.. Supposed(seen).Select(towards => new Panel(towards, ofTwo))], false), false, alone);
        }

        // Panels beside a straight shank show on it. Where it shows none they stand, if all is well, where photographing.md wants them.
        Vector2[] Supposed(Outline? seen)
        {
            if (seen is null) return [new(0, 1), new(0, -1)];
            (double sin, double cos) = Math.SinCos(family.TipCuts ? AheadDeg * Math.PI / 180 : Math.PI / 2);
            return [InPicture(calibration, seen, heightMm, new(sin, cos)), InPicture(calibration, seen, heightMm, new(-sin, cos))];
        }
    }

    /// <summary>
    /// Where the shank does not tell (it leans out of the picture, or shows a single stripe whose side is dark on dark), the edges do: where it faces a panel even a sharp edge
    /// shows a line. Null where they do not tell either: then nothing is known to be dark.
    /// </summary>
    /// <param name="edge">Traced under panels of unknown place.</param>
    /// <param name="umPerPx">At the blade.</param>
    public PanelLight? FromEdges(EdgeTrace edge, double umPerPx)
    {
        ArgumentNullException.ThrowIfNull(edge);
        if (Light.IsPlaceKnown) return null;
        (Panel Panel, double RadiusUm)[] sides = [.. edge.Light.Panels.Select(panel => (panel, umPerPx * LowRadiusPx(edge.Points.Where(p => p.Outward.Dot(panel.TowardsPx) > PanelLight.FullCosine)))).OrderBy(s => s.Item2)];
        int lit = sides.Count(s => s.RadiusUm > SharpestUm / 2);
        if (lit == 0 || (IsSingle && sides[1].RadiusUm < Contrast * sides[0].RadiusUm)) return null;
        return lit == sides.Length && !IsSingle ? edge.Light with { IsPlaceKnown = true } : new([sides[1].Panel with { Light = Alone }], true);
    }

    /// <summary>Apparent radius that three quarters of a side's places exceed.</summary>
    private static double LowRadiusPx(IEnumerable<EdgeTracePoint> side)
    {
        double[] radii = [.. side.Select(p => p.IsLit ? p.RadiusPx : 0).Order()];
        return radii.Length == 0 ? 0 : radii[radii.Length / 4];
    }

    /// <summary>Unit vector in the picture along a direction (x, z) of the blade's frame.</summary>
    private static Vector2 InPicture(CardCalibration calibration, Outline frame, double heightMm, Vector2 direction)
    {
        BladeProjection projection = new(calibration, frame, heightMm);
        Vector2 middle = new(0, frame.Apex.Position.ZMm / 2);
        PixelPoint from = projection.Pixel(middle), to = projection.Pixel(middle + direction);
        return new Vector2(to.X - from.X, to.Y - from.Y).Unit;
    }
}
