using System.Collections.Immutable;
using System.Globalization;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Wording;
using EdgeLens.PracticeReports.Content;
using EdgeLens.Records.Book;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Review;
using EdgeLens.Reports.Html.Sections;
using FigureRow = EdgeLens.Records.Inspections.FigureRow;

namespace EdgeLens.PracticeReports.Reports;

/// <summary>What every report is made from.</summary>
/// <param name="Book">For pictures and documents.</param>
/// <param name="Policy">Whose limits the trends run against.</param>
/// <param name="Day">Today.</param>
/// <param name="ProgramVersion">Of the program that writes the report.</param>
public sealed record ReportSource(IRecordBook Book, Policy Policy, DateOnly Day, string ProgramVersion)
{
    /// <summary>How the practice plans.</summary>
    public PlanningOptions Planning { get; init; } = PlanningOptions.Default;

    /// <summary>What the whole practice has to do.</summary>
    public PracticeReview Review() => PracticeReview.Of(PracticeFile.Read(Book, WearSeries.FigureNames), Policy, Day, Planning);

    internal ReportAbout About(PracticeFile file) => new(file.Practice?.Name ?? Book.PracticeCode, ProgramVersion, Day, file.Practice?.IsDemo ?? false);

    internal static IEnumerable<Block> Cautions() => [new Heading("Before you act"), new Bullets(CautionSection.Cautions)];

    internal static string Money(decimal amount, PracticeFile file) => string.Create(CultureInfo.InvariantCulture, $"{amount:0.00} {file.Practice?.Currency}").TrimEnd();

    internal static string StateWords(WorkingEndFile file) => file.State switch
    {
        InstrumentState.Retired => file.StateSince is { } s ? $"retired {DateText.Iso(s.Day)}{(s.Reason is null ? "" : $" ({s.Reason})")}" : "retired",
        InstrumentState.AtSharpening => file.StateSince is { } s ? $"at sharpening since {DateText.Iso(s.Day)}" : "at sharpening",
        _ => "in use",
    };

    internal static string ActionWords(PlanItem item) => item.Action switch
    {
        PlanAction.Retire => "Retire",
        PlanAction.Resharpen => "Resharpen",
        PlanAction.TouchUp => "Touch up",
        PlanAction.Order => "Order a new one",
        PlanAction.PhotographAgain => "Photograph again",
        PlanAction.Inspect => "Inspect",
        _ => "Keep",
    };

    /// <summary>Value ± U (k = 2) with unit, or the reason why there is none.</summary>
    internal static string FigureWords(FigureRow row) => row.Figure.Measured is { } m ? FigureText.WithUncertainty(m, row.Unit) : $"not measured: {FigureText.WhyMissing(row.WhyMissing)}";

    internal static ImmutableArray<string> Lines(string text) => [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries)];
}
