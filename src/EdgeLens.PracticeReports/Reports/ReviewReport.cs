using System.Collections.Immutable;
using System.Globalization;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Wording;
using EdgeLens.PracticeReports.Content;
using EdgeLens.Records.Review;

namespace EdgeLens.PracticeReports.Reports;

/// <summary>What the whole practice, or one cassette, has to do: the most urgent first, with reasons, days and costs.</summary>
public static class ReviewReport
{
    /// <summary>Of the practice.</summary>
    /// <param name="source">Book, policy, day.</param>
    /// <param name="review">As <see cref="ReportSource.Review"/> makes it; null: it is made now.</param>
    public static PracticeReport OfPractice(ReportSource source, PracticeReview? review = null)
    {
        ArgumentNullException.ThrowIfNull(source);
        return Build(source, review ?? source.Review(), "Practice review", []);
    }

    /// <summary>Of one cassette: the same, and all that lies in it.</summary>
    /// <exception cref="Records.Book.BookException">The book has no such cassette.</exception>
    public static PracticeReport OfCassette(ReportSource source, string code)
    {
        ArgumentNullException.ThrowIfNull(source);
        PracticeFile whole = PracticeFile.Read(source.Book, WearSeries.FigureNames);
        Records.Practices.Cassette cassette = whole.Cassettes.FirstOrDefault(c => c.Code == code) ?? throw new Records.Book.BookException($"The book has no cassette {code}; it has {string.Join(", ", whole.Cassettes.Select(c => c.Code))}.");
        PracticeFile file = whole with { WorkingEnds = [.. whole.WorkingEnds.Where(e => e.Cassette == code)], Stones = [] };
        return Build(source, PracticeReview.Of(file, source.Policy, source.Day, source.Planning), $"Cassette {code}: {cassette.Name}", [new Heading("In this cassette"), Contents(file)]);
    }

    private static PracticeReport Build(ReportSource source, PracticeReview review, string title, ImmutableArray<Block> more)
    {
        PracticeFile file = review.File;
        PlanItem[] now = [.. review.Items.Where(i => i.Action is PlanAction.Retire or PlanAction.Resharpen or PlanAction.TouchUp or PlanAction.PhotographAgain or PlanAction.Inspect)];
        PlanItem[] orders = [.. review.Items.Where(i => i.Action == PlanAction.Order).DistinctBy(i => i.File.Instrument.Code)];
        PlanItem[] keep = [.. review.Items.Where(i => i.Action == PlanAction.Keep)];
        string cost = orders.Length == 0 ? "nothing to order" : review.PricesMissing == 0
            ? $"{ReportSource.Money(review.KnownCost, file)} for {orders.Length} to order"
            : $"{ReportSource.Money(review.KnownCost, file)} for {orders.Length} to order, {review.PricesMissing} of them without a price in the book";
        return new(
            title,
            [Count(file.WorkingEnds.Select(e => e.Instrument.Code).Distinct().Count(), "instrument"), Count(file.WorkingEnds.Length, "working end"), .. Counts(now), cost],
            [
                new Heading("To do now"), now.Length == 0 ? new Paragraph("Nothing.") : Items(now, file),
                new Heading("To order"), orders.Length == 0 ? new Paragraph(string.Create(CultureInfo.InvariantCulture, $"Nothing within {source.Planning.AheadDays} days.")) : Orders(orders, file),
                .. review.Stones.IsEmpty ? [] : (Block[])[new Heading("Stones"), new Bullets(review.Stones)],
                .. keep.Length == 0 ? [] : (Block[])[new Heading("In order"), Items(keep, file)],
                .. more,
                .. ReportSource.Cautions(),
            ],
            source.About(file));
    }

    private static IEnumerable<string> Counts(PlanItem[] items) => items.GroupBy(i => i.Action).Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Count()} to {Words(g.Key)}"));

    private static string Words(PlanAction action) => action switch
    {
        PlanAction.Retire => "retire",
        PlanAction.Resharpen => "resharpen",
        PlanAction.TouchUp => "touch up",
        PlanAction.PhotographAgain => "photograph again",
        _ => "inspect",
    };

    private static string Count(int count, string what) => string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");

    private static Table Items(PlanItem[] items, PracticeFile file) => new(
        [new("What", 2.4), new("Working end", 2.6), new("Why", 6.4), new("When", 1.8)],
        [
            .. items.Select(i => (ImmutableArray<Cell>)[
                new Cell(ReportSource.ActionWords(i), null, SignOf(i)),
                new Cell(i.File.Name, $"{FamilyTraits.Of(i.File.End.Family).Title}\n{(i.File.Cassette is { } c ? $"cassette {c}" : "in no cassette")}{(i.File.State == Records.Instruments.InstrumentState.InUse ? "" : ", " + ReportSource.StateWords(i.File))}"),
                new Cell(i.Reasons.FirstOrDefault() ?? "", i.Reasons.Length > 1 ? string.Join('\n', i.Reasons.Skip(1)) : null),
                i.DueBy is { } due ? new Cell(DateText.Iso(due), i.Action == PlanAction.Keep ? "next inspection" : null) : new Cell("now", i.File.Latest is { } l ? $"inspected {DateText.Iso(l.Day)}" : null)]),
        ]);

    private static Table Orders(PlanItem[] items, PracticeFile file) => new(
        [new("Instrument", 2.6), new("Why", 6.6), new("Order by", 1.8), new("Price", 2, IsNumber: true)],
        [
            .. items.Select(i => (ImmutableArray<Cell>)[
                new Cell(i.File.Instrument.Code, i.File.Instrument.Description ?? FamilyTraits.Of(i.File.End.Family).Title), string.Join(' ', i.Reasons), i.DueBy is { } due ? DateText.Iso(due) : "now",
                i.Cost is { } cost ? ReportSource.Money(cost, file) : "not in the book"]),
        ]);

    private static Table Contents(PracticeFile file) => new(
        [new("Working end", 3), new("State", 2), new("Last verdict", 4), new("Inspected", 1.8)],
        [
            .. file.WorkingEnds.Select(e => (ImmutableArray<Cell>)[
                new Cell(e.Name, e.Instrument.Description ?? FamilyTraits.Of(e.End.Family).Title), ReportSource.StateWords(e),
                e.Latest is { } l ? new Cell(l.Headline, null, l.Verdict) : new Cell("never inspected"), e.Latest is { } last ? DateText.Iso(last.Day) : ""]),
        ]);

    private static VerdictKind? SignOf(PlanItem item) => item.Action switch
    {
        PlanAction.Retire => VerdictKind.Retire,
        PlanAction.Resharpen => VerdictKind.Resharpen,
        PlanAction.TouchUp => VerdictKind.TouchUp,
        PlanAction.PhotographAgain or PlanAction.Inspect => VerdictKind.Retake,
        PlanAction.Keep => VerdictKind.Keep,
        _ => null,
    };
}
