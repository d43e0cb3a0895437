using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;

namespace EdgeLens.Measuring.FaceView;

/// <summary>From the frame of the working end back into the photograph.</summary>
/// <param name="calibration">Of the photograph.</param>
/// <param name="outline">Whose frame.</param>
/// <param name="heightMm">Of the face over the card.</param>
internal sealed class BladeProjection(CardCalibration calibration, Outline outline, double heightMm)
{
    private readonly Similarity _cardFromBlade = outline.BladeFromCard.Inverse();

    /// <summary>Where a place (x, z) of the blade lies over the card.</summary>
    public CardPoint OnCard(Vector2 place)
    {
        Vector2 onCard = _cardFromBlade.Apply(place);
        return new(onCard.X, onCard.Y);
    }

    /// <summary>Where the photograph shows a place (x, z) of the blade.</summary>
    public PixelPoint Pixel(Vector2 place) => calibration.Project(OnCard(place), heightMm);

    /// <summary>Where the photograph shows a place of the blade.</summary>
    public PixelPoint Pixel(BladePoint place) => Pixel(new Vector2(place.XMm, place.ZMm));
}
