using System.Collections.Immutable;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Photographs;

namespace EdgeLens.Imaging.Tags;

/// <summary>Reads the tags that lie on the card of a photograph.</summary>
/// <remarks>
/// A number that is misread files a photograph under another instrument, so that three things must hold: the square has the tag's size in the card's plane; at most
/// one bit of 36 is wrong; and two of five readings, on pictures reduced or sharpened differently, give the same number and none gives another one at its place. A random
/// square of the right size and with a black border passes one reading with the chance 4 · 1000 · 37 / 2³⁶ = 2 · 10⁻⁶.
/// </remarks>
public static class TagReader
{
    /// <summary>
    /// Sides may differ by this share from the design: 1 % of print, 1 % for corners that are good to a pixel of the reduced picture, 3 % where paper stands up by 3 mm at 100 mm
    /// distance. The card's own squares (1.5 and 2 mm) are 29 % smaller at least.
    /// </summary>
    public const double SizeTolerance = 0.08;

    /// <summary>
    /// A bit of the tag has 12 px in a picture of 1000 px, 6 in one of 500: it bears more reduction than the card's, which takes noise away, and more sharpening, which behind the blade in a toe view
    /// is what parts the bits (a blur of 11 px of 3000 is two thirds of a bit across).
    /// </summary>
    private static readonly ImmutableArray<MarkerReader.Attempt> Attempts = [new(1000, 0), new(1000, 2), new(1000, 4), new(700, 2), new(500, 0)];

    /// <summary>Readings that must agree.</summary>
    public const int LeastReadings = 2;

    /// <summary>Of the four bits that the family allows to correct, one: each further one makes a wrong number about twelve times as likely.</summary>
    private const double ErrorCorrectionRate = 0.25;

    /// <summary>Reads all tags.</summary>
    /// <param name="photograph">Borrowed.</param>
    /// <param name="calibration">Of its card.</param>
    /// <returns>Their numbers, ascending, once each; those that cannot be read surely are left out.</returns>
    public static ImmutableArray<int> Read(Photograph photograph, CardCalibration calibration)
    {
        ArgumentNullException.ThrowIfNull(photograph);
        ArgumentNullException.ThrowIfNull(calibration);
        (int Number, CardPoint Centre)[] readings =
        [
            .. from attempt in Attempts
               from marker in MarkerReader.Find(photograph.Grey, TagDesign.Dictionary, ErrorCorrectionRate, attempt)
               let corners = marker.Corners.Select(c => calibration.ToPlane(c, 0)).ToArray()
               where marker.Id > 0 && IsOfTagSize(corners)
               select (marker.Id, new CardPoint(corners.Average(c => c.XMm), corners.Average(c => c.YMm))),
        ];
        return
        [
            .. from same in readings.GroupBy(r => r.Number)
               where same.Count() >= LeastReadings
               where !readings.Any(other => other.Number != same.Key && same.Any(r => Distance(r.Centre, other.Centre) < TagDesign.MarkerMm))
               orderby same.Key
               select same.Key,
        ];
    }

    private static bool IsOfTagSize(CardPoint[] corners) =>
        Enumerable.Range(0, 4).All(k => Math.Abs(Distance(corners[k], corners[(k + 1) % 4]) / TagDesign.MarkerMm - 1) < SizeTolerance);

    private static double Distance(CardPoint a, CardPoint b) => Math.Sqrt(Math.Pow(a.XMm - b.XMm, 2) + Math.Pow(a.YMm - b.YMm, 2));
}
