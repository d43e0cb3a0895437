using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Policies;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Review;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;
using EdgeLens.Tests.RecordBooks;
using Xunit;

namespace EdgeLens.Tests.PracticeReview;

/// <summary>From rows to what a practice has to do.</summary>
public sealed class PlanTests
{
    private static readonly DateOnly Today = new(2025, 12, 1);

    [Fact]
    public void A_working_end_to_be_retired_comes_first_and_a_new_one_is_to_be_ordered_at_its_price()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        Add(test, "C-01", new(2025, 11, 1), VerdictKind.Resharpen);
        Inspect(test, "C-07", new(2025, 11, 1), 25, VerdictKind.Retire);
        Records.Review.PracticeReview review = Review(test);
        Assert.Equal([(PlanAction.Retire, "C-07"), (PlanAction.Resharpen, "C-01"), (PlanAction.Order, "C-07")], review.Items.Select(i => (i.Action, i.File.Instrument.Code)));
        Assert.Equal((42.50m, 0), (review.KnownCost, review.PricesMissing));
    }

    [Fact]
    public void A_price_that_is_not_in_the_book_is_said_and_not_counted_as_nothing()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        Add(test, "C-01", new(2025, 11, 1), VerdictKind.Retire);
        Records.Review.PracticeReview review = Review(test);
        Assert.Equal((0m, 1), (review.KnownCost, review.PricesMissing));
        Assert.Null(review.Items.Single(i => i.Action == PlanAction.Order).Cost);
    }

    [Fact]
    public void What_was_sharpened_since_is_photographed_again_but_lost_metal_stays_lost()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        Add(test, "C-01", new(2025, 11, 1), VerdictKind.Resharpen);
        Inspect(test, "C-07", new(2025, 11, 1), 25, VerdictKind.Retire);
        foreach (string code in (string[])["C-01", "C-07"]) test.Book.Append(new SharpeningRow { By = "MK", Instrument = code, End = 1, Day = new(2025, 11, 3) });
        Records.Review.PracticeReview review = Review(test);
        Assert.Equal(PlanAction.PhotographAgain, review.Items.Single(i => i.File.Instrument.Code == "C-01").Action);
        Assert.Contains(review.Items, i => i is { Action: PlanAction.Retire, File.Instrument.Code: "C-07" });
    }

    [Theory]
    [InlineData(182, PlanAction.Keep)]
    [InlineData(183, PlanAction.Inspect)]
    public void What_was_kept_is_looked_at_again_after_half_a_year(int daysAgo, PlanAction expected)
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        Inspect(test, "C-07", Today.AddDays(-daysAgo), 2, VerdictKind.Keep);
        Assert.Equal(expected, Assert.Single(Review(test).Items).Action);
    }

    [Fact]
    public void A_retired_instrument_is_not_planned_for_and_one_never_inspected_is()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        Add(test, "C-01", null, VerdictKind.Keep);
        test.Book.Append(new StateChange { By = "MK", Instrument = "C-07", Day = Today, State = InstrumentState.Retired });
        PlanItem item = Assert.Single(Review(test).Items);
        Assert.Equal((PlanAction.Inspect, "C-01"), (item.Action, item.File.Instrument.Code));
    }

    /// <summary>
    /// Every sharpening takes 2 %, one a month: after six 12 % are gone, and the limit of 20 % (default policy) is four sharpenings and as many months away. The forecast starts at the last
    /// inspection (mid-June), so that the likely day lies in the second half of October; sharpenings with and without scatter are the trend's own tests.
    /// </summary>
    [Fact]
    public void An_instrument_that_will_be_worn_soon_is_ordered_in_time()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        Steady(test, i => "0.1.0");
        PlanItem early = Assert.Single(Review(test, new(2025, 7, 1)).Items, i => i.Action == PlanAction.Order);
        DateOnly likely = WearSeries.Of(early.File, Policy.Default.For(early.File.End.Family))[0].Forecast!.MeetsLimit!.Likely!.Value;
        Assert.InRange(likely, new DateOnly(2025, 10, 10), new DateOnly(2025, 11, 1));
        Assert.InRange(early.DueBy!.Value, new DateOnly(2025, 8, 1), likely.AddDays(-PlanningOptions.Default.DeliveryDays));
        Assert.DoesNotContain(Review(test, new(2025, 6, 15), new PlanningOptions { AheadDays = 20 }).Items, i => i.Action == PlanAction.Order);
    }

    [Fact]
    public void A_trend_is_of_one_version_and_the_others_points_are_shown_apart()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        Steady(test, i => i < 2 ? "0.1.0" : "0.2.0");
        WorkingEndFile file = Assert.Single(PracticeFile.Read(test.Book, WearSeries.FigureNames).WorkingEnds);
        WearSeries series = WearSeries.Of(file, Policy.Default.For(file.End.Family))[0];
        Assert.Equal((4, 2, "EdgeLens 0.2.0"), (series.Points.Length, series.LeftOut.Length, series.Source));
        Assert.All(series.LeftOut, p => Assert.Equal("0.1.0", p.Inspection.ProgramVersion));

        // Measured again by the new version, the two are part of it, and their old figures stay in the book.
        foreach (InspectionEntry old in series.LeftOut.Select(p => p.Inspection))
        {
            NewInspection again = TestBook.Inspection("C-07", old.Day, 2);
            test.Book.Append(again with { Entry = again.Entry with { ProgramVersion = "0.2.0", Remeasures = old.Id } });
        }
        file = Assert.Single(PracticeFile.Read(test.Book, WearSeries.FigureNames).WorkingEnds);
        series = WearSeries.Of(file, Policy.Default.For(file.End.Family))[0];
        Assert.Equal((6, 0), (series.Points.Length, series.LeftOut.Length));
        Assert.Equal(7, file.Inspections.Length);
        Assert.Equal(9, test.Book.History<InspectionEntry>().Count);
    }

    [Fact]
    public void Use_is_counted_by_where_the_instrument_lay_that_day()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        test.Book.Append(
            new Records.Practices.Cassette { By = "MK", Code = "B", Name = "B" },
            new Placement { By = "MK", Instrument = "C-07", Cassette = "B", Day = new(2025, 3, 1) },
            new Procedure { By = "MK", Cassette = "A", Day = new(2025, 2, 1), LightCases = 1, HeavyCases = 0 },
            new Procedure { By = "MK", Cassette = "A", Day = new(2025, 4, 1), LightCases = 10, HeavyCases = 0 },
            new Procedure { By = "MK", Cassette = "B", Day = new(2025, 4, 1), LightCases = 100, HeavyCases = 0 },
            new Procedure { By = "MK", Instrument = "C-07", Day = new(2025, 5, 1), LightCases = 1000, HeavyCases = 0 });
        WorkingEndFile file = Assert.Single(PracticeFile.Read(test.Book, []).WorkingEnds);
        Assert.Equal(1101, file.Procedures.Sum(p => p.LightCases));
    }

    [Fact]
    public void Stones_go_round_their_zones_and_are_wiped_and_dressed_in_time()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        test.Book.Append(new Stone { By = "MK", Code = "S1", Description = "ceramic", Zones = 3 }, new StoneCare { By = "MK", Stone = "S1", Day = new(2025, 1, 1), WasWiped = true, IsFlat = false });
        for (int i = 0; i < 5; i++) test.Book.Append(new SharpeningRow { By = "MK", Instrument = "C-07", End = 1, Day = new(2025, 2, 1 + i), Stone = "S1", Zone = i % 3 + 1 });
        string words = string.Join('\n', Review(test).Stones);
        Assert.Contains("hollow", words, StringComparison.Ordinal);
        Assert.Contains("5 times since it was wiped", words, StringComparison.Ordinal);
        Assert.Contains("zone 3 of 3 next", words, StringComparison.Ordinal); // zones 1 2 3 1 2 were used
    }

    private static Records.Review.PracticeReview Review(TestBook test, DateOnly? day = null, PlanningOptions? options = null) =>
        Records.Review.PracticeReview.Of(PracticeFile.Read(test.Book, WearSeries.FigureNames), Policy.Default, day ?? Today, options);

    private static void Add(TestBook test, string code, DateOnly? inspected, VerdictKind verdict)
    {
        test.Book.Append(new Instrument { By = "MK", Code = code }, new WorkingEnd { By = "MK", Instrument = code, End = 1, Family = Assessment.Instruments.InstrumentFamily.UniversalCurette });
        if (inspected is { } day) Inspect(test, code, day, 5, verdict);
    }

    private static void Inspect(TestBook test, string code, DateOnly day, double widthLossPercent, VerdictKind verdict)
    {
        NewInspection inspection = TestBook.Inspection(code, day, widthLossPercent);
        test.Book.Append(inspection with { Entry = inspection.Entry with { Verdict = verdict, Headline = verdict.ToString() } });
    }

    /// <summary>As new on 1 December 2024; sharpened on the 5th and inspected on the 15th of each month from January to June, 2 % lost each time.</summary>
    private static void Steady(TestBook test, Func<int, string> version)
    {
        NewInspection asNew = TestBook.Inspection("C-07", new(2024, 12, 1), 0);
        test.Book.Append(asNew with { Entry = asNew.Entry with { IsAsNew = true }, Figures = [] });
        // A little scatter, within the stated uncertainty of 0.3 %.
        double[] scatter = [0.1, -0.1, 0.05, -0.05, 0.1, -0.1];
        for (int i = 0; i < 6; i++)
        {
            test.Book.Append(new SharpeningRow { By = "MK", Instrument = "C-07", End = 1, Day = new(2025, 1 + i, 5) });
            NewInspection inspection = TestBook.Inspection("C-07", new(2025, 1 + i, 15), 2 * (i + 1) + scatter[i]);
            test.Book.Append(inspection with { Entry = inspection.Entry with { ProgramVersion = version(i) } });
        }
    }
}
