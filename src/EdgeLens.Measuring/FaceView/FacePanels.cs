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
internal sealed record FacePanels(PanelLight Light, bool IsSingle)
{
    // Of a coarse silhouette a point is known to about a pixel; the frame is needed to a degree only.
    private const double CoarseSigmaPx = 1;

    // Even a ground edge is rounded by 2 µm and more (2 to 6 as new), and shows them as a line when it faces a panel; an edge that faces none shows nothing, which comes out as 0 ± 1 µm.
    private const double SharpestUm = 2;

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
            ShankHighlights.Find(grey, calibration, frame, heightMm, paper) is not { } stripes) return Unknown(frame is null ? new(0, 1) : LeftInPicture(calibration, frame, heightMm));
        Vector2 left = LeftInPicture(calibration, frame, heightMm);
        if (stripes is { Left: { } first, Right: { } second })
        {
            SteelLight[] two = SteelLightEstimator.Of([SteelLightEstimator.OfPlateau(first, paper), SteelLightEstimator.OfPlateau(second, paper)], paper, reflectance, coarse.FaceLevel);
            return new(new([new(left, two[0]), new(-1 * left, two[1])], true), false);
        }
        SteelLight one = SteelLightEstimator.Of([SteelLightEstimator.OfPlateau(stripes.Left ?? 0, paper)], paper, reflectance, coarse.FaceLevel)[0];
        return new(new([new(left, one), new(-1 * left, one)], false), true);

        FacePanels Unknown(Vector2 towards)
        {
            SteelLight light = SteelLightEstimator.Estimate(grey, paper, reflectance, coarse.FaceLevel, mmPerPx);
            return new(new([new(towards, light), new(-1 * towards, light)], false), false);
        }
    }

    /// <summary>
    /// Where the shank does not tell (it leans out of the picture, or shows a single stripe whose side is dark on dark), the edges do: along a long side that faces a panel even a sharp edge
    /// shows a line. Null where they do not tell either: then nothing is known to be dark.
    /// </summary>
    /// <param name="edge">Traced under panels of unknown place.</param>
    /// <param name="umPerPx">At the blade.</param>
    public PanelLight? FromEdges(EdgeTrace edge, double umPerPx)
    {
        ArgumentNullException.ThrowIfNull(edge);
        if (Light.IsPlaceKnown) return null;
        (Panel Panel, double RadiusUm)[] sides = [.. edge.Light.Panels.Select(panel => (panel, umPerPx * MedianRadiusPx(edge.Points.Where(p => p.Outward.Dot(panel.TowardsPx) > PanelLight.FullCosine)))).OrderBy(s => s.Item2)];
        if (IsSingle) return sides[1].RadiusUm > SharpestUm && sides[1].RadiusUm > Contrast * sides[0].RadiusUm ? new([sides[1].Panel], true) : null;
        return sides[0].RadiusUm > SharpestUm ? edge.Light with { IsPlaceKnown = true } : null;
    }

    private static double MedianRadiusPx(IEnumerable<EdgeTracePoint> side)
    {
        double[] radii = [.. side.Select(p => p.IsLit ? p.RadiusPx : 0).Order()];
        return radii.Length == 0 ? 0 : radii[radii.Length / 2];
    }

    private static Vector2 LeftInPicture(CardCalibration calibration, Outline frame, double heightMm)
    {
        Similarity cardFromBlade = frame.BladeFromCard.Inverse();
        double z = frame.Apex.Position.ZMm / 2;
        PixelPoint middle = Pixel(0), side = Pixel(1);
        return new Vector2(side.X - middle.X, side.Y - middle.Y).Unit;

        PixelPoint Pixel(double x)
        {
            Vector2 onCard = cardFromBlade.Apply(new(x, z));
            return calibration.Project(new(onCard.X, onCard.Y), heightMm);
        }
    }
}
