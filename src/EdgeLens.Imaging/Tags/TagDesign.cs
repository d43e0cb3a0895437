using EdgeLens.Imaging.Cards;

namespace EdgeLens.Imaging.Tags;

/// <summary>
/// The printed tag of a working end: a paper strip with a marker at one end and its number beside it. It lies on the card, beside the window, so that the photograph shows whose it is.
/// </summary>
/// <remarks>
/// A macro photograph of 26 to 30 mm leaves 4 to 5 mm of the card above and below the window: the strip is two squares of the card high.
/// The family of markers has 6 bits a side, the card's has 5: neither can be read as the other, since their cells are of other size. Any two of its thousand
/// markers, however turned, differ in at least 9 of 36 bits (Garrido-Jurado et al., Pattern Recognition 51 (2016) 481-491; the least distance as in OpenCV's source,
/// which corrects up to 4 of this family). In a picture reduced to 1000 px a bit of the tag has 12 px, half as much again as one of the card's.
/// </remarks>
public static class TagDesign
{
    /// <summary>The family of markers.</summary>
    public static MarkerDictionary Dictionary { get; } = MarkerDictionary.Named("DICT_6X6_1000")!;

    /// <summary>Side of the marker with its black border, mm.</summary>
    public const double MarkerMm = 2.8;

    /// <summary>White round the marker, mm: one and a half bits, of which a crooked cut may take half.</summary>
    public const double QuietMm = 0.6;

    /// <summary>Height of the strip, mm: two squares of the card.</summary>
    public const double StripHeightMm = MarkerMm + 2 * QuietMm;

    /// <summary>Length of the strip, mm: the far end, with the instrument's name, stays outside the picture and is where fingers hold it.</summary>
    public const double StripLengthMm = 40;
}
