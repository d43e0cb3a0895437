using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>Nicks that are there: depth of those found; those not found are missing.</summary>
public sealed class NickComparer : IMeasurandComparer
{
    /// <inheritdoc />
    public string Name => "nickDepthUm";

    /// <inheritdoc />
    public string Unit => "µm";

    /// <inheritdoc />
    public Comparison Compare(FaceCase face)
    {
        List<ErrorSample> found = [];
        int missed = 0;
        foreach (NickMatch match in NickMatch.All(face))
            if (match is { True: { } truth, Found: { } nick }) found.Add(ErrorSample.Of(nick.DepthUm, truth.DepthUm));
            else if (match.Found is null) missed++;
        return new([.. found], missed);
    }
}

/// <summary>Nicks that the program reports and the truth does not know: the whole depth is error, the count is how many.</summary>
public sealed class InventedNickComparer : IMeasurandComparer
{
    /// <inheritdoc />
    public string Name => "inventedNickDepthUm";

    /// <inheritdoc />
    public string Unit => "µm";

    /// <inheritdoc />
    public Comparison Compare(FaceCase face) =>
        new([.. NickMatch.All(face).Where(match => match.True is null).Select(match => ErrorSample.Of(match.Found!.DepthUm, 0))], 0);
}

/// <summary>A true nick with the reported one, or one of them alone.</summary>
/// <param name="True">Null for an invented nick.</param>
/// <param name="Found">Null for a missed nick.</param>
internal sealed record NickMatch(NickTruth? True, Nick? Found)
{
    /// <summary>Pairs nicks that lie within the true one's length of each other along the edge, the nearest first. Places are compared in the picture.</summary>
    public static IEnumerable<NickMatch> All(FaceCase face)
    {
        Curve outline = face.Truth.Outline;
        List<(NickTruth Nick, double Arc)> wanted = [.. face.Truth.WorkingEnd.Nicks.Select(nick => (nick, outline.ArcOf(outline.Nearest(PlaceOf(nick, outline)))))];
        List<(Nick Nick, double Arc)> found = face.Seen is not { } seen ? [] :
            [.. seen.Measurement.Nicks.Select(nick => (nick, outline.ArcOf(face.Truth.Silhouette.Nearest(seen.PixelAt(nick.ArcMm)))))];
        while (true)
        {
            var nearest = (from w in wanted from f in found let apart = Math.Abs(w.Arc - f.Arc) where apart <= w.Nick.LengthMm orderby apart select (Wanted: w, Found: f)).FirstOrDefault();
            if (nearest.Wanted.Nick is null) break;
            wanted.Remove(nearest.Wanted);
            found.Remove(nearest.Found);
            yield return new(nearest.Wanted.Nick, nearest.Found.Nick);
        }
        foreach ((NickTruth nick, _) in wanted) yield return new(nick, null);
        foreach ((Nick nick, _) in found) yield return new(null, nick);
    }

    /// <summary>The outline's point on the nick's side at its height.</summary>
    private static Vector2 PlaceOf(NickTruth nick, Curve outline) =>
        outline.Points.Where(point => point.X > 0 == (nick.Edge == "left")).MinBy(point => Math.Abs(point.Y - nick.ZMm));
}
