using System.Collections.Immutable;

namespace EdgeLens.PracticeReports.Content;

/// <summary>A whole report.</summary>
/// <param name="Title">Large, at its head.</param>
/// <param name="Facts">Short facts under the title.</param>
/// <param name="Blocks">From top to bottom.</param>
/// <param name="About">What it says about itself.</param>
public sealed record PracticeReport(string Title, ImmutableArray<string> Facts, ImmutableArray<Block> Blocks, ReportAbout About);

/// <summary>What a report says about itself.</summary>
/// <param name="PracticeName">Stands in its head.</param>
/// <param name="ProgramVersion">Of the program that writes it; each figure's own version stands beside it.</param>
/// <param name="Day">As of which day.</param>
/// <param name="IsDemo">True: the practice is invented, and the head says what is rendered and what is invented.</param>
public sealed record ReportAbout(string PracticeName, string ProgramVersion, DateOnly Day, bool IsDemo)
{
    /// <summary>What stands in the head of a demonstration.</summary>
    public const string DemoNotice =
        "Demonstration. The practice is invented. Figures called \"rendered photographs\" were measured in rendered pictures, figures called \"invented\" were not measured at all. Nothing here is about real steel.";
}

/// <summary>A sheet of paper, upright.</summary>
/// <param name="Name">As printers call it.</param>
/// <param name="WidthMm">Shorter side.</param>
/// <param name="HeightMm">Longer side.</param>
public sealed record Paper(string Name, double WidthMm, double HeightMm)
{
    /// <summary>ISO 216.</summary>
    public static Paper A4 { get; } = new("a4", 210, 297);

    /// <summary>ANSI/ASME Y14.1 size A, 8.5 x 11 inches.</summary>
    public static Paper Letter { get; } = new("letter", 215.9, 279.4);
}
