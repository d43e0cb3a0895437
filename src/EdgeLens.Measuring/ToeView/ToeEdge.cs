using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Measuring.Views;

namespace EdgeLens.Measuring.ToeView;

/// <summary>The cutting edge at the toe as the camera sees it: a flat U in the plane of the face, seen almost on edge.</summary>
/// <param name="Middle">Below the apex, where the chord of the two corners would be: origin of the frame, pixels.</param>
/// <param name="Along">Unit direction of the face line in the picture, pointing right.</param>
/// <param name="TurnSigmaRad">Standard uncertainty of that direction from the fit.</param>
/// <param name="MiddleSigmaMm">Standard uncertainty of the middle's place along the face line.</param>
/// <param name="HalfWidthMm">Half width of the toe, with its uncertainty.</param>
/// <param name="ViewX">View direction along the face line, right positive, as fitted.</param>
/// <param name="ViewY">View direction out of the face, as fitted.</param>
/// <param name="Taper">Slope of the blade's sides in the face, as fitted.</param>
/// <param name="MmPerPx">At the toe.</param>
/// <param name="Seen">How well it is seen: contrast times length, falling with the distance from what is expected.</param>
internal sealed record ToeEdge(
    PixelPoint Middle, Vector2 Along, double TurnSigmaRad, double MiddleSigmaMm, Measured HalfWidthMm, double ViewX, double ViewY, double Taper, double MmPerPx, double Seen)
{
    /// <summary>Its form in the face, as the camera's perspective leaves it.</summary>
    public ToePlan Plan { get; init; } = ToePlan.Nominal;

    /// <summary>False where the two ends that seem to be seen contradict each other: one of them, and nobody knows which, is some other line.</summary>
    public bool EndsAgree { get; init; } = true;

    /// <summary>Size over that of the plan.</summary>
    public double Size => HalfWidthMm.Value / Plan.HalfWidthMm.Value;

    /// <summary>The face's line.</summary>
    public FaceChord Chord => new(At(-0.3, 0), At(0.3, 0), TurnSigmaRad);

    /// <summary>Slope of the sides of the face as seen, towards the heel.</summary>
    public double SideSlope => Plan.SideSlope + Taper;

    /// <summary>A place in the picture from millimetres along the face line and out of the face.</summary>
    public PixelPoint At(double alongMm, double outMm)
    {
        Vector2 up = -1 * Along.Perpendicular;
        return new(Middle.X + (alongMm * Along.X + outMm * up.X) / MmPerPx, Middle.Y + (alongMm * Along.Y + outMm * up.Y) / MmPerPx);
    }

    /// <summary>Height of the edge's picture over the frame's origin at a place along the face line, mm: between the corners, on the toe.</summary>
    public double Height(double alongMm)
    {
        // x + s vx = along: four rounds leave less than a micrometre, vx being a tenth at most.
        double s = 0;
        for (int i = 0; i < 4; i++) s = Size * Plan.Behind((alongMm - s * ViewX) / Size);
        return s * ViewY;
    }

    /// <summary>Where the edge's picture reaches farthest to a side: the corner at which the lateral surface turns out of sight.</summary>
    /// <param name="side">1 right in the picture, -1 left.</param>
    public (double AlongMm, double OutMm) Corner(int side)
    {
        (double X, double Y) best = (0, 0);
        foreach ((double x, double y) in ToeEdgeModel.Curve(Plan, HalfWidthMm.Value, Taper, ViewX, ViewY, sides: false))
            if (side * x > side * best.X) best = (x, y);
        return best;
    }

    // Without a seen corner the edge's end is where the followed path ended, which may run on along other borders: 6 px rms on rendered toes.
    private const double UnseenEndPx = 6;

    // A chance of one in four hundred.
    private const double GreatestBirge = 3;

    /// <summary>The edge moved and widened to where its two ends are seen, as far as its plan's size lets it, with the uncertainty that they leave.</summary>
    /// <param name="left">What is seen of the left side.</param>
    /// <param name="right">The same on the right.</param>
    /// <remarks>
    /// Least squares of middle and half width from two ends and the half width of the plan; weights are inverse variances. Where ends and plan contradict each other by
    /// more than they state, the uncertainties grow by as much (Birge's ratio).
    /// </remarks>
    public ToeEdge WithEnds(SeenSide left, SeenSide right)
    {
        (double place, double slope, double sigma) r = End(right, 1), l = End(left, -1);
        Measured plan = Plan.HalfWidthMm;
        double a = 1 / Square(r.sigma), b = 1 / Square(l.sigma), c = 1 / Square(plan.StandardUncertainty);
        // Normal equations of (middle, half width).
        double mm = a + b, mw = a * r.slope + b * l.slope, ww = a * r.slope * r.slope + b * l.slope * l.slope + c;
        double m = a * r.place + b * l.place, w = a * r.slope * r.place + b * l.slope * l.place + c * plan.Value, determinant = mm * ww - mw * mw;
        double middle = (m * ww - w * mw) / determinant, half = (mm * w - mw * m) / determinant;
        double leftOver = a * Square(r.place - middle - r.slope * half) + b * Square(l.place - middle - l.slope * half) + c * Square(plan.Value - half), birge = Math.Sqrt(Math.Max(1, leftOver));
        if (birge > GreatestBirge && (left.Corner ?? right.Corner) is not null) return WithEnds(left with { Corner = null }, right with { Corner = null }) with { EndsAgree = false };
        // Both ends lie behind the apex: an error of the view moves them together.
        double behind = (Place(1, right.Light.AzimuthAt(0)).S + Place(-1, left.Light.AzimuthAt(0)).S) / 2;
        return this with
        {
            Middle = At(middle, 0),
            MiddleSigmaMm = Quadrature.Sum(birge * Math.Sqrt(ww / determinant), behind * AngleLimits.AlignmentSigmaRad),
            HalfWidthMm = new(half, birge * Math.Sqrt(mm / determinant)),
        };

        // Where the end is seen along the face line, how it moves with the half width, and its uncertainty; one that is not seen, or says less than the path's end, where it is now.
        (double Place, double Slope, double Sigma) End(SeenSide seen, int side)
        {
            (double x, _) = OnEdge(side, seen.Light.AzimuthAt(0));
            double sigma = seen.Corner is null ? double.MaxValue : seen.EndSigmaMm(this), unseen = UnseenEndPx * MmPerPx;
            return seen.Corner is { } corner && sigma < unseen ? (AlongMm(corner), x / HalfWidthMm.Value, sigma) : (x, x / HalfWidthMm.Value, unseen);
        }
    }

    /// <summary>How far along the face line a pixel lies, mm.</summary>
    public double AlongMm(PixelPoint pixel) => ((pixel.X - Middle.X) * Along.X + (pixel.Y - Middle.Y) * Along.Y) * MmPerPx;

    /// <summary>A place of the toe's edge in the picture.</summary>
    /// <param name="side">1 right in the picture, -1 left.</param>
    /// <param name="azimuthRad">Of the edge's normal: 0 at the side, 90° at the apex.</param>
    public (double AlongMm, double OutMm) OnEdge(int side, double azimuthRad)
    {
        (double x, double behind) = Place(side, azimuthRad);
        return (x + behind * ViewX, behind * ViewY);
    }

    /// <summary>A place of the toe's edge in the face: along the face line and behind the apex, mm.</summary>
    /// <param name="side">1 right in the picture, -1 left.</param>
    /// <param name="azimuthRad">Of the edge's normal: 0 at the side, 90° at the apex.</param>
    public (double X, double S) Place(int side, double azimuthRad)
    {
        (double x, double s) = Plan.At(side, azimuthRad);
        return (Size * x, Size * s);
    }

    /// <summary>A place of the lateral surface: down the ruling that begins at <see cref="Place"/>, which falls along (-cos ψ cos β, -sin β, -sin ψ cos β).</summary>
    /// <param name="side">1 right in the picture, -1 left.</param>
    /// <param name="azimuthRad">ψ.</param>
    /// <param name="inwardMm">How far the ruling has come inwards: depth times cot β.</param>
    /// <returns>Along the face line and behind the apex, mm.</returns>
    public (double X, double S) Ruling(int side, double azimuthRad, double inwardMm)
    {
        (double sin, double cos) = Math.SinCos(azimuthRad);
        (double x, double s) = Place(side, azimuthRad);
        return (x - side * inwardMm * cos, s + inwardMm * sin);
    }

    /// <summary>True where the U folds back at the toe on a side, so that the lateral surface there turns out of sight in focus.</summary>
    /// <param name="side">1 right in the picture, -1 left.</param>
    public bool Folds(int side) => ToeEdgeModel.Fold(ToeEdgeModel.Curve(Plan, HalfWidthMm.Value, Taper, ViewX, ViewY), side) is not null;

    private static double Square(double v) => v * v;
}
