using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.Quality;

namespace EdgeLens.Measuring.Inspection;

/// <summary>The first stage of every view: where the camera stood, from the card in the picture.</summary>
public static class CardStage
{
    /// <summary>Finds the card and calibrates by it.</summary>
    /// <param name="photo">Borrowed.</param>
    /// <param name="card">The card in it.</param>
    /// <param name="print">Its bars as measured.</param>
    /// <param name="lens">Of the phone and loupe, if there is one.</param>
    /// <returns>The camera, or why there is none: no card, a moved camera, another kind of picture.</returns>
    public static Outcome<CardCalibration> Calibrate(Photograph photo, CardDescription card, PrintMeasurement print, LensProfile? lens)
    {
        ArgumentNullException.ThrowIfNull(photo);
        return CardDetector.Detect(photo.Grey, card).TryGet(out CardSighting? sighting, out Refusal? refusal)
            ? CardCalibrator.Calibrate(sighting, card, print, lens)
            : MissingCard.Explain(photo.Grey, refusal);
    }
}
