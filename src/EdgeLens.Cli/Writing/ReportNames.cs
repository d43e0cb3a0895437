using System.Globalization;
using System.Text;

namespace EdgeLens.Cli.Writing;

/// <summary>Names of report files: legal on every system, never two alike even where capitals don't count.</summary>
public sealed class ReportNames
{
    private const int LongestStem = 80;

    private readonly HashSet<string> _taken = new(StringComparer.OrdinalIgnoreCase) { "index" };

    /// <summary>The name without extension: "C-07-end1-2025-06-20".</summary>
    public string Take(string instrumentId, int workingEnd, DateOnly date)
    {
        string stem = string.Create(CultureInfo.InvariantCulture, $"{Plain(instrumentId)}-end{workingEnd}-{date:yyyy-MM-dd}");
        string name = stem;
        for (int number = 2; !_taken.Add(name); number++) name = string.Create(CultureInfo.InvariantCulture, $"{stem}-{number}");
        return name;
    }

    private static string Plain(string id)
    {
        StringBuilder plain = new();
        foreach (char c in id) plain.Append(char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '_');
        // A name that begins with a point is hidden, and ".." is a folder.
        string text = plain.ToString().TrimStart('.');
        return text.Length == 0 ? "instrument" : text[..Math.Min(text.Length, LongestStem)];
    }
}
