using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.Quality;
using EdgeLens.Measuring.SideView;
using EdgeLens.Measuring.ToeView;

namespace EdgeLens.Measuring.Inspection;

/// <summary>A toe or side view from calibrated photograph to angles: gate, sharpening, lines, angles.</summary>
/// <param name="card">The reference card in the photographs.</param>
/// <param name="options">Limits.</param>
public sealed class AngleInspector(CardDescription card, InspectorOptions options)
{
    /// <summary>Measures one toe or side view.</summary>
    /// <param name="photo">Borrowed.</param>
    /// <param name="calibration">From the card behind the blade.</param>
    /// <param name="family">As the user states it.</param>
    /// <param name="view">Toe or side.</param>
    /// <param name="face">Face view of the same working end on the same day: it shows form and size of the toe that a toe view looks at, and how round the tip's edge is. Null where there is none.</param>
    /// <returns>The angles, or why the photograph cannot be measured; <c>other-view</c> where the family is not measured from there.</returns>
    public Outcome<AngleMeasurement> Measure(Photograph photo, CardCalibration calibration, FamilyTraits family, PhotographView view, FaceMeasurement? face = null)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentNullException.ThrowIfNull(calibration);
        ArgumentNullException.ThrowIfNull(family);
        if (view != family.AngleView)
            return new Refusal("other-view", $"A {family.Title} does not show its angles from here.",
                family.AngleView == PhotographView.Side ? "Photograph the blade on edge: a side view." : "Photograph it with the toe towards the camera: a toe view.");
        if (PaperLevel.Measure(photo.Grey, calibration, card) is not { } paper) return CaptureGate.CardHidden;
        if (CaptureGate.Check(paper, calibration.TiltDeg, options) is { } bad) return bad;
        Sharpening sharpening = SharpeningEstimator.Estimate(photo.Grey, calibration, card);
        PhotographSummary summary = new(photo.Source.FileName, photo.Source.Sha256, photo.WidthPx, photo.HeightPx);
        return view == PhotographView.Side
            ? SideViewMeasurer.Measure(photo, summary, calibration, card, family.Family, sharpening, face)
            : ToeViewMeasurer.Measure(photo, summary, calibration, card, family.Family, sharpening, face);
    }
}
