using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.PracticeReports.Content;
using EdgeLens.Records.Review;

namespace EdgeLens.PracticeReports.Reports;

/// <summary>The list for the bench: what is to be sharpened, how, and boxes to tick with a pen.</summary>
public static class WorkListReport
{
    /// <summary>Makes the list.</summary>
    /// <param name="source">Book, policy, day.</param>
    /// <param name="review">As <see cref="ReportSource.Review"/> makes it; null: it is made now.</param>
    public static PracticeReport Build(ReportSource source, PracticeReview? review = null)
    {
        ArgumentNullException.ThrowIfNull(source);
        review ??= source.Review();
        PlanItem[] work = [.. review.Items.Where(i => i.Action is PlanAction.Resharpen or PlanAction.TouchUp)];
        PlanItem[] away = [.. review.Items.Where(i => i.Action == PlanAction.Retire)];
        return new(
            "Sharpening work list", [work.Length == 1 ? "1 working end" : FormattableString.Invariant($"{work.Length} working ends"), "day: ____________", "initials: ________"],
            [
                new Heading("To sharpen"),
                work.Length == 0
                    ? new Paragraph("Nothing is to be sharpened.")
                    : new Table(
                        [new("Working end", 2.5), new("What and how", 6), new("Strokes, stone, zone", 2.2), new("Done", 3)],
                        [
                            .. work.Select(i => (ImmutableArray<Cell>)[
                                new Cell(i.File.Name, $"{FamilyTraits.Of(i.File.End.Family).Title}{(i.File.Cassette is { } c ? $"\ncassette {c}" : "")}"),
                                new Cell(i.File.Latest!.Headline, i.File.Latest.NextSteps, i.File.Latest.Verdict), "_________\n\n_________", new Cell("sharpened\nbites into the rod\nphotographed again", null, null, TickBoxes: 3)]),
                        ]),
                .. away.Length == 0 ? [] : (Block[])[new Heading("Not to be sharpened any more"), new Bullets([.. away.Select(i => $"{i.File.Name}: {i.Reasons[0]}")])],
                .. review.Stones.IsEmpty ? [] : (Block[])[new Heading("Stones"), new Bullets(review.Stones)],
                .. ReportSource.Cautions(),
            ],
            source.About(review.File));
    }
}
