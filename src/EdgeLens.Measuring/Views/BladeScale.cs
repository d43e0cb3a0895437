using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Lines;

namespace EdgeLens.Measuring.Views;

/// <summary>Scale at a blade that stands before the card. Where it only says where to look, a tenth off does no harm; lengths of toe and bevel carry its uncertainty.</summary>
internal static class BladeScale
{
    /// <summary>How far the blade stands before the card: about a blade's length, a shank's bend.</summary>
    public const double BeforeCardMm = 10;

    /// <summary>How far a toe stands before the card in a toe view, and the limits of that (photographing.md), rectangular.</summary>
    public const double ToeBeforeCardMm = 12.5, ToeBeforeCardLimitMm = 3.5;

    /// <summary>Millimetres per pixel at the toe in a toe view.</summary>
    public static double ToeMmPerPx(CardCalibration calibration, CardDescription card) =>
        MmPerPx(calibration, card, ToeBeforeCardMm);

    /// <summary>Relative standard uncertainty of that.</summary>
    public static double ToeRelativeSigma(CardCalibration calibration) => Quadrature.FromLimits(ToeBeforeCardLimitMm) / calibration.DistanceMm.Value;

    /// <summary>How far a blade on edge lies before the card: 4 to 8 mm (photographing.md).</summary>
    public const double OnEdgeBeforeCardMm = 6;

    /// <summary>Relative standard uncertainty of the scale there: ± 2 mm, rectangular, at 100 mm.</summary>
    public static double OnEdgeRelativeSigma { get; } = Quadrature.FromLimits(2) / 100;

    /// <summary>Millimetres per pixel at a blade that lies on edge, in the middle of the window.</summary>
    public static double OnEdgeMmPerPx(CardCalibration calibration, CardDescription card) =>
        MmPerPx(calibration, card, OnEdgeBeforeCardMm);

    /// <summary>Millimetres per pixel at the blade, in the middle of the window.</summary>
    public static double MmPerPx(CardCalibration calibration, CardDescription card) => MmPerPx(calibration, card, BeforeCardMm);

    private static double MmPerPx(CardCalibration calibration, CardDescription card, double beforeCardMm) =>
        calibration.MmPerPx(calibration.Printed(card.Window.Centre), beforeCardMm);
}

/// <summary>Directions of lines in planes parallel to the card: camera tilt and perspective are taken out.</summary>
internal static class CardDirection
{
    /// <summary>Unit direction of a stretch on the card (x right, y down). The same in every plane parallel to the card.</summary>
    public static Vector2 Of(CardCalibration calibration, Stretch stretch) => Of(calibration, stretch.Start, stretch.End);

    /// <summary>Unit direction from one pixel to another.</summary>
    public static Vector2 Of(CardCalibration calibration, PixelPoint from, PixelPoint to)
    {
        CardPoint a = calibration.ToPlane(from, 0), b = calibration.ToPlane(to, 0);
        return new Vector2(b.XMm - a.XMm, b.YMm - a.YMm).Unit;
    }
}
