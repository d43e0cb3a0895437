using System.Reflection;

namespace EdgeLens.Cli.Rim;

/// <summary>Where a command speaks and what time it is.</summary>
/// <param name="Out">Results: text, or JSON with <c>--json</c>.</param>
/// <param name="Error">Progress and complaints.</param>
/// <param name="Clock">For dates that no file tells.</param>
public sealed record Terminal(TextWriter Out, TextWriter Error, TimeProvider Clock)
{
    /// <summary>Of EdgeLens.</summary>
    public static string ProgramVersion { get; } = Assembly.GetExecutingAssembly().GetName().Version!.ToString(3);

    /// <summary>The day on this machine.</summary>
    public DateOnly Today => DateOnly.FromDateTime(Clock.GetLocalNow().DateTime);
}
