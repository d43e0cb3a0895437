using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.ToeView;

/// <summary>
/// Where a lateral surface of the toe ends for the eye: at its contour, or further in, at the ruling from which on the steel mirrors something brighter than the card's
/// black window. Between contour and that ruling the steel is as black as the ground behind it.
/// </summary>
/// <param name="AzimuthRad">Azimuth ψ of the ruling (0 at the side, 90° at the apex) at <see cref="MiddleDepthMm"/>.</param>
/// <param name="PerMm">How ψ changes with the depth below the face, rad/mm: the window is near enough for a place a tenth of a millimetre lower to mirror another part of it.</param>
/// <param name="SigmaRad">Standard uncertainty of ψ.</param>
/// <param name="Mirrored">False where it is the contour itself.</param>
internal readonly record struct EdgeOfLight(double AzimuthRad, double PerMm, double SigmaRad, bool Mirrored)
{
    /// <summary>Middle of the depths that angles are taken from, mm.</summary>
    public const double MiddleDepthMm = 0.18;

    /// <summary>Relative standard uncertainty of <see cref="PerMm"/>: place and turn of the rim come from the same law of the mirror, and where it runs flat along a rim both are as unsure.</summary>
    public const double TurnShare = 0.5;

    private const double HalfSpanMm = 0.1, NominalRad = 75 * Math.PI / 180, StepRad = Math.PI / 180, FarthestRad = 50 * Math.PI / 180;

    // Ground steel scatters its mirror image by some two degrees of its normal; where in it the eye sees the edge is not known.
    private const double LobeSigmaRad = 2 * Math.PI / 180;

    // A flatter mirror's ray reaches the card's plane only far outside the card.
    private const double LeastFall = 0.05;

    /// <summary>At another depth.</summary>
    public double AzimuthAt(double depthMm) => AzimuthRad + PerMm * (depthMm - MiddleDepthMm);

    /// <summary>Standard uncertainty at another depth.</summary>
    public double SigmaAt(double depthMm) => Quadrature.Sum(SigmaRad, TurnShare * PerMm * (depthMm - MiddleDepthMm));

    /// <summary>How far this leaves the place where the edge ends along the face line uncertain, mm.</summary>
    /// <param name="halfWidthMm">Of the toe.</param>
    public double EndSigmaMm(double halfWidthMm) => halfWidthMm * Math.Sin(AzimuthAt(0)) * SigmaAt(0);

    /// <summary>The contour of a toe before a ground that it does not mirror.</summary>
    /// <param name="edge">The toe's edge.</param>
    /// <param name="side">1 right in the picture, -1 left.</param>
    public static EdgeOfLight AtContour(ToeEdge edge, int side) => new(ContourRad(edge, side, NominalRad), 0, 0, false);

    /// <summary>From the mirror's law.</summary>
    /// <param name="calibration">Where card and camera are.</param>
    /// <param name="card">Where its window is.</param>
    /// <param name="edge">The toe's edge.</param>
    /// <param name="side">1 right in the picture, -1 left.</param>
    public static EdgeOfLight Of(CardCalibration calibration, CardDescription card, ToeEdge edge, int side)
    {
        double distance = Quadrature.FromLimits(BladeScale.ToeBeforeCardLimitMm), align = AngleLimits.AlignmentSigmaRad;
        double at = At(MiddleDepthMm);
        if (at <= Math.Max(0, ContourRad(edge, side, NominalRad))) return AtContour(edge, side);
        double byDistance = (At(MiddleDepthMm, distance) - At(MiddleDepthMm, -distance)) / 2;
        double byX = (At(MiddleDepthMm, 0, align) - At(MiddleDepthMm, 0, -align)) / 2, byY = (At(MiddleDepthMm, 0, 0, align) - At(MiddleDepthMm, 0, 0, -align)) / 2;
        return new(at, (At(MiddleDepthMm + HalfSpanMm) - At(MiddleDepthMm - HalfSpanMm)) / (2 * HalfSpanMm), Quadrature.Sum(byDistance, byX, byY, LobeSigmaRad), true);

        double At(double depthMm, double farther = 0, double turnX = 0, double turnY = 0) =>
            new Mirror(calibration, card, edge, side, BladeScale.ToeBeforeCardMm + farther, turnX, turnY).LeavesWindowAt(depthMm);
    }

    /// <summary>Azimuth of the ruling at which the surface turns out of sight, its normal being square to the view; negative where it is seen as far as its side.</summary>
    public static double ContourRad(ToeEdge edge, int side, double internalRad) => Math.Asin(Math.Clamp(-side * edge.ViewX + edge.ViewY / Math.Tan(internalRad), -0.9, 0.9));

    /// <summary>The lateral surface as a mirror before the card; axes: card's right, up, towards the camera.</summary>
    private sealed class Mirror
    {
        private readonly ToeEdge _edge;
        private readonly int _side;
        private readonly Vector3 _apex, _view, _x, _y, _z;
        private readonly double _left, _right, _bottom, _top;

        public Mirror(CardCalibration calibration, CardDescription card, ToeEdge edge, int side, double beforeCardMm, double turnX, double turnY)
        {
            (_edge, _side) = (edge, side);
            CardPoint apex = calibration.ToPlane(edge.Middle, beforeCardMm);
            _apex = new(apex.XMm, -apex.YMm, beforeCardMm);
            Vector3 view = calibration.ViewDirection(apex, beforeCardMm);
            _view = new(view.X, -view.Y, -view.Z);
            Vector2 along = CardDirection.Of(calibration, edge.At(-0.3, 0), edge.At(0.3, 0));
            Vector3 right = new(along.X, -along.Y, 0), up = new(along.Y, along.X, 0);
            _z = (new Vector3(0, 0, 1) + turnX * right + turnY * up).Unit;
            _x = (right - right.Dot(_z) * _z).Unit;
            _y = _z.Cross(_x);
            CardPoint topLeft = calibration.Printed(new(card.Window.XMm, card.Window.YMm)), bottomRight = calibration.Printed(new(card.Window.XMm + card.Window.WidthMm, card.Window.YMm + card.Window.HeightMm));
            (_left, _right, _bottom, _top) = (topLeft.XMm, bottomRight.XMm, -bottomRight.YMm, -topLeft.YMm);
        }

        /// <summary>First azimuth, from the contour inwards, whose ruling mirrors no more of the window.</summary>
        public double LeavesWindowAt(double depthMm)
        {
            double from = Math.Max(0, ContourRad(_edge, _side, NominalRad)), before = Outside(from, depthMm);
            if (before >= 0) return from;
            for (double azimuth = from + StepRad; azimuth < FarthestRad; azimuth += StepRad)
            {
                double now = Outside(azimuth, depthMm);
                if (now >= 0) return azimuth - StepRad * now / (now - before);
                before = now;
            }
            return FarthestRad;
        }

        /// <summary>How far outside the window the mirrored ray meets the card's plane, mm; negative inside.</summary>
        private double Outside(double azimuthRad, double depthMm)
        {
            (double sin, double cos) = Math.SinCos(azimuthRad);
            (double s, double c) = Math.SinCos(NominalRad);
            (double along, double behind) = _edge.Ruling(_side, azimuthRad, depthMm * c / s);
            Vector3 normal = _side * cos * s * _x - c * _y + sin * s * _z;
            Vector3 place = _apex + along * _x - depthMm * _y - behind * _z;
            Vector3 ray = 2 * normal.Dot(_view) * normal - _view;
            if (ray.Z > -LeastFall) return double.MaxValue;
            double length = place.Z / -ray.Z, x = place.X + length * ray.X, y = place.Y + length * ray.Y;
            return Math.Max(Math.Max(_left - x, x - _right), Math.Max(_bottom - y, y - _top));
        }
    }
}

/// <summary>What is seen of one side of the toe.</summary>
/// <param name="Light">Where its steel ends for the eye.</param>
/// <param name="Corner">Where the line of that end meets the face line, pixels; null where it is not seen in focus.</param>
internal readonly record struct SeenSide(EdgeOfLight Light, PixelPoint? Corner)
{
    /// <summary>Standard uncertainty of a seen corner along the face line, where two fitted lines meet, pixels.</summary>
    public const double CornerSigmaPx = 1.5;

    /// <summary>Standard uncertainty of where the edge ends by its seen corner, mm: pixels of the fit, and where the mirrored window ends.</summary>
    /// <param name="edge">Whose end it is.</param>
    public double EndSigmaMm(ToeEdge edge) => Quadrature.Sum(CornerSigmaPx * edge.MmPerPx, Light.EndSigmaMm(edge.HalfWidthMm.Value));
}
