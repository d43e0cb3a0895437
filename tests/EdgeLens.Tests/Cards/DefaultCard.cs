using EdgeLens.Imaging.Cards;
using EdgeLens.Tests.HouseRules;

namespace EdgeLens.Tests.Cards;

/// <summary>The description file that ships.</summary>
internal static class DefaultCard
{
    public static string Json { get; } = Repository.ReadText("calibration/card-id1-2.0.json");

    public static CardDescription Card { get; } = CardDescription.FromJson(Json).Value;

    /// <summary>The file with one stretch of text replaced; the stretch must be there once.</summary>
    public static string With(string old, string now)
    {
        string[] parts = Json.Split(old);
        return parts.Length == 2 ? string.Join(now, parts) : throw new ArgumentException($"'{old}' stands {parts.Length - 1} times in the file.", nameof(old));
    }
}
