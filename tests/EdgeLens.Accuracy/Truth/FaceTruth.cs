using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Accuracy.Truth;

/// <summary>The true working end as the true camera sees it in one face view.</summary>
public sealed class FaceTruth
{
    /// <summary>The outline is a measurand from this share of the as-new length, seen from the apex (measurands.md).</summary>
    public const double MeasuredShareOfLength = 0.8;

    // The toe is the outline within this angle of the apex, seen from the centre of its circle (measurands.md).
    private const double ToeHalfAngleRad = Math.PI / 3;

    private readonly CameraTruth _camera;
    private readonly ImmutableArray<ImmutableArray<double>> _cameraFromBlade;

    /// <param name="file">What the truth file says.</param>
    /// <exception cref="ArgumentException">A matrix, outline or list has the wrong size.</exception>
    public FaceTruth(PhotoTruth file)
    {
        _camera = file.Camera;
        _cameraFromBlade = file.CameraFromBlade;
        if (_cameraFromBlade.Length != 4 || _cameraFromBlade.Any(row => row.Length != 4)) throw new ArgumentException("camera_from_blade is not a 4 x 4 matrix.");
        WorkingEnd = file.WorkingEnd;
        if (WorkingEnd.StationsFromAsNewApexMm.Length != WorkingEnd.WidthsMm.Length) throw new ArgumentException("There are not as many widths as stations.");
        if (WorkingEnd.OutlineXzMm.Length < 10 || WorkingEnd.OutlineXzMm.Any(point => point.Length != 2)) throw new ArgumentException("outline_xz_mm is not a list of at least 10 [x, z].");
        if (WorkingEnd.EdgeRadiusUm.Any(point => point.Length != 2)) throw new ArgumentException("edge_radius_um is not a list of [arc, radius].");
        Drift = file.AgainstAsNew;
        if (Drift is not null && Drift.WidthLossUm.Length != WorkingEnd.WidthsMm.Length) throw new ArgumentException("There are not as many width losses as stations.");
        Outline = new([.. WorkingEnd.OutlineXzMm.Select(point => new Vector2(point[0], point[1]))]);
        Silhouette = new([.. Outline.Points.Select(point => Pixel(point))]);
    }

    /// <summary>Figures of the truth file.</summary>
    public WorkingEndTruth WorkingEnd { get; }

    /// <summary>Losses; null for the as-new inspection.</summary>
    public DriftTruth? Drift { get; }

    /// <summary>(x, z) mm, z from the heel, left side first.</summary>
    public Curve Outline { get; }

    /// <summary>The same points as the true camera shows them, pixels: the outline in the plane of the face, whatever the rounding below it hides (measurands.md).</summary>
    public Curve Silhouette { get; }

    /// <summary>z from which on the outline is a measurand, mm from the heel.</summary>
    public double MeasuredFromZMm => WorkingEnd.AsNewLengthMm * (1 - MeasuredShareOfLength);

    /// <summary>True where the outline is a measurand.</summary>
    public bool IsMeasured(Vector2 point) => point.Y >= MeasuredFromZMm;

    /// <summary>Which part of the outline a true arc belongs to.</summary>
    public EdgePart PartAt(double arcMm, FamilyTraits family)
    {
        double radius = family.TipCuts ? WorkingEnd.TipArcRadiusMm ?? WorkingEnd.ToeRadiusMm : WorkingEnd.ToeRadiusMm, fromApex = arcMm - WorkingEnd.ApexArcMm;
        if (Math.Abs(fromApex) <= ToeHalfAngleRad * radius) return EdgePart.Toe;
        return fromApex < 0 ? EdgePart.Left : EdgePart.Right;
    }

    /// <summary>Middle of the measured part of the blade's axis, pixels.</summary>
    public Vector2 MiddlePixel => Pixel(Middle);

    /// <summary>True local scale at <see cref="MiddlePixel"/>: root of the area that one pixel covers in the plane of the face, mm.</summary>
    public double MmPerPx
    {
        get
        {
            // Central differences over 0.2 mm: the projection's third derivative over so little is far below 1e-6 of the scale.
            const double step = 0.1;
            Vector2 alongX = Pixel(Middle + new Vector2(step, 0)) - Pixel(Middle - new Vector2(step, 0));
            Vector2 alongZ = Pixel(Middle + new Vector2(0, step)) - Pixel(Middle - new Vector2(0, step));
            return 2 * step / Math.Sqrt(Math.Abs(alongX.Cross(alongZ)));
        }
    }

    private Vector2 Middle => new(0, WorkingEnd.AsNewLengthMm * (1 - MeasuredShareOfLength / 2));

    /// <summary>Where the true camera shows a place (x, z) of the face's plane.</summary>
    public Vector2 Pixel(Vector2 place)
    {
        double x = Row(0, place), y = Row(1, place), z = Row(2, place);
        (x, y) = (x / z, y / z);
        double radial = 1 + _camera.K1 * (x * x + y * y);
        return new(_camera.FPx * x * radial + _camera.CxPx, _camera.FPx * y * radial + _camera.CyPx);
    }

    private double Row(int row, Vector2 place) => _cameraFromBlade[row][0] * place.X + _cameraFromBlade[row][2] * place.Y + _cameraFromBlade[row][3];
}
