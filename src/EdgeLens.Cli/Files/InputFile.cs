using System.Globalization;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cli.Files;

/// <summary>Reads the small text files that a command is given.</summary>
public static class InputFile
{
    /// <summary>Bytes; a card, lens, policy or index has some thousands, a practice with a thousand instruments some hundred thousands.</summary>
    private const long LongestText = 16_000_000;

    /// <summary>The whole text.</summary>
    /// <exception cref="RimException">The file is not there, too long, or cannot be read.</exception>
    public static string Text(string path)
    {
        try
        {
            if (new FileInfo(path) is { Exists: true, Length: > LongestText })
                throw new RimException(ExitCode.File, $"{path}: the file is longer than {LongestText / 1_000_000} MB. Check that it is the right one.");
            return File.ReadAllText(path);
        }
        catch (Exception e) when (IsOfTheDisk(e) || e is ArgumentException) // an empty path, or one with characters that no path has
        {
            throw new RimException(ExitCode.File, $"{path}: the file cannot be read ({e.Message.TrimEnd('.')}). Check the path, and that the file may be read.", e);
        }
    }

    /// <summary>The card; without a path the one that comes with the program.</summary>
    public static CardDescription Card(string? path) => path is null ? Shipped.Value : Parsed(path, CardDescription.FromJson);

    /// <summary>The lens profile; null without a path.</summary>
    public static LensProfile? Lens(string? path) => path is null ? null : Parsed(path, LensProfile.FromJson);

    /// <summary>The policy; without a path the one that comes with the program.</summary>
    public static Policy Policy(string? path) => path is null ? Assessment.Policies.Policy.Default : Parsed(path, PolicyReader.Read);

    /// <summary>The day of a photograph that does not tell it itself: when the file was written.</summary>
    public static DateOnly? DayWritten(string path) => File.Exists(path) ? DateOnly.FromDateTime(File.GetLastWriteTime(path)) : null;

    /// <summary>The disk's failures, as against ours.</summary>
    internal static bool IsOfTheDisk(Exception e) => e is IOException or UnauthorizedAccessException or NotSupportedException;

    private static readonly Lazy<CardDescription> Shipped = new(() =>
    {
        using StreamReader reader = new(typeof(InputFile).Assembly.GetManifestResourceStream("card.json")!);
        return CardDescription.FromJson(reader.ReadToEnd()).Value;
    });

    private static T Parsed<T>(string path, Func<string, Outcome<T>> parse) where T : class =>
        parse(Text(path)).TryGet(out T? value, out Refusal? refusal)
            ? value
            : throw new RimException(ExitCode.File, string.Create(CultureInfo.InvariantCulture, $"{path}: {refusal.Reason}\n{refusal.Advice}"));
}
