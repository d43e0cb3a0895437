using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;
using EdgeLens.Store;
using Xunit;

namespace EdgeLens.Tests.RecordBooks;

/// <summary>What pages ask a database for, held against the same worked out from all rows, on invented histories with every turn that a book knows.</summary>
public sealed class PageQueryTests
{
    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void Queries_answer_what_all_rows_say(Server server)
    {
        using TestBook test = new(server);
        RecordBook book = test.Book;
        Fill(book, new Random(7));
        Dictionary<string, StateChange> states = book.Current<StateChange>().GroupBy(s => s.Instrument).ToDictionary(g => g.Key, g => g.OrderBy(s => s.Day).ThenBy(s => s.Id).Last());
        bool IsRetired(string code) => states.TryGetValue(code, out StateChange? state) && state.State == InstrumentState.Retired;
        Dictionary<string, string?> places = book.Current<Placement>().GroupBy(p => p.Instrument).ToDictionary(g => g.Key, g => g.OrderBy(p => p.Day).ThenBy(p => p.Id).Last().Cassette);
        HashSet<string> known = [.. book.Current<Instrument>().Select(i => i.Code)];
        EndInUse[] inUse =
        [
            .. from end in book.Current<WorkingEnd>()
               where known.Contains(end.Instrument) && !IsRetired(end.Instrument)
               orderby end.Instrument, end.End
               select new EndInUse(end, book.Current<Instrument>().Single(i => i.Code == end.Instrument).Description, places.GetValueOrDefault(end.Instrument)),
        ];
        Assert.Equal(inUse, book.EndsInUse());
        Assert.NotEmpty(inUse);
        Assert.Contains(known, IsRetired);

        HashSet<long> decided = [.. book.Current<SignOff>().Where(s => s.Agrees is not null).Select(s => s.InspectionId)];
        long[] undecided =
        [
            .. from end in book.Current<InspectionEntry>().GroupBy(i => (i.Instrument, i.End))
               let last = end.OrderBy(i => i.When).ThenBy(i => i.Id).Last()
               where !last.IsAsNew && last.Verdict is not (VerdictKind.Keep or VerdictKind.Retake) && !decided.Contains(last.Id) && !decided.Contains(last.Occasion) && !IsRetired(last.Instrument)
               orderby last.Verdict descending, last.When, last.Id
               select last.Id,
        ];
        Assert.Equal(undecided, book.Undecided().Select(i => i.Id));
        Assert.NotEmpty(undecided);

        long[] some = [.. book.Current<InspectionEntry>().Where(i => i.Id % 3 == 0).Select(i => i.Id)];
        Assert.Equal(book.Current<SignOff>().Where(s => some.Contains(s.InspectionId)), book.SignOffsOn(some));
        Assert.Equal(book.Current<Instrument>().Where(i => i.Code is "C-1" or "C-4"), book.Instruments("C-1", "C-4", "C-99"));
        Assert.Equal(book.Current<Procedure>().Where(p => p.Instrument == "C-1" || p.Cassette == "B").OrderBy(p => p.Day).ThenBy(p => p.Id), book.ProceduresWith(["C-1"], ["B"]));
        foreach (DateOnly? after in (DateOnly?[])[null, new(2025, 6, 1), new(2027, 1, 1)])
        {
            SharpeningRow[] uses = [.. book.Current<SharpeningRow>().Where(s => s.Stone == "S1").OrderBy(s => s.When).ThenBy(s => s.Id)];
            Assert.Equal(new StoneUse(uses.LastOrDefault(s => s.Zone is not null)?.Zone, uses.Count(s => after is null || s.Day > after)), book.UseOf("S1", after));
        }
        Assert.Equal(new StoneUse(null, 0), book.UseOf("S2", null));
    }

    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void The_revision_grows_with_every_row_and_stays_without(Server server)
    {
        using TestBook test = new TestBook(server).WithCurette();
        List<long> revisions = [test.Book.Revision];
        void Then(Action enter)
        {
            enter();
            revisions.Add(test.Book.Revision);
        }
        Then(() => test.Book.Append(TestBook.Inspection("C-07", new(2025, 6, 20), 3)));
        Then(() => test.Book.Append(new SignOff { By = "MK", InspectionId = test.Book.Current<InspectionEntry>()[0].Id, Agrees = true }));
        Then(() => test.Book.Append(new Procedure { By = "MK", Cassette = "A", Day = new(2025, 6, 1), LightCases = 1, HeavyCases = 0 }));
        Then(() => test.Book.Append(test.Book.Current<Procedure>()[0] with { Corrects = test.Book.Current<Procedure>()[0].Id, CorrectionReason = "typing error", LightCases = 2 }));
        Assert.Equal(revisions.Distinct().Order(), revisions);
        Assert.Equal(revisions[^1], test.Reopen().Revision);
    }

    private static void Fill(RecordBook book, Random random)
    {
        List<Entry> rows = [new Practice { By = "MK", Name = "Test", Currency = "EUR" }, new Cassette { By = "MK", Code = "A", Name = "A" }, new Cassette { By = "MK", Code = "B", Name = "B" }, new Stone { By = "MK", Code = "S1", Description = "fine", Zones = 4 }];
        DateOnly Day() => new DateOnly(2025, 1, 1).AddDays(random.Next(700));
        TimeOnly? Time() => random.Next(2) == 0 ? null : new TimeOnly(random.Next(24), random.Next(60));
        for (int i = 0; i < 12; i++)
        {
            string code = $"C-{i}";
            rows.Add(new Instrument { By = "MK", Code = code, Description = i % 3 == 0 ? null : $"pattern {i}" });
            for (int end = 1; end <= 1 + i % 2; end++) rows.Add(new WorkingEnd { By = "MK", Instrument = code, End = end, Family = InstrumentFamily.UniversalCurette });
            for (int k = random.Next(3); k > 0; k--) rows.Add(new Placement { By = "MK", Instrument = code, Day = Day(), Cassette = random.Next(3) switch { 0 => "A", 1 => "B", _ => null } });
            for (int k = random.Next(4); k > 0; k--) rows.Add(new StateChange { By = "MK", Instrument = code, Day = Day(), State = (InstrumentState)random.Next(3) });
            for (int k = 0; k < 5; k++) rows.Add(new SharpeningRow { By = "MK", Instrument = code, End = 1, Day = Day(), Time = Time(), Stone = random.Next(2) == 0 ? "S1" : null, Zone = random.Next(2) == 0 ? random.Next(1, 5) : null });
            rows.Add(random.Next(2) == 0 ? new Procedure { By = "MK", Instrument = code, Day = Day(), LightCases = 1, HeavyCases = 1 } : new Procedure { By = "MK", Cassette = "B", Day = Day(), LightCases = 1, HeavyCases = 1 });
        }
        book.Append([.. rows]);
        for (int n = 0; n < 120; n++)
        {
            NewInspection made = TestBook.Inspection($"C-{random.Next(12)}", Day(), 1);
            InspectionEntry entered = book.Append(made with { Entry = made.Entry with { Time = Time(), IsAsNew = random.Next(8) == 0, Verdict = (VerdictKind)random.Next(5) } });
            // Measured again, decided on before or after, spoken about, taken back.
            if (random.Next(4) == 0) book.Append(made with { Entry = made.Entry with { Day = entered.Day, Time = entered.Time, Verdict = (VerdictKind)random.Next(5), Remeasures = entered.Id } });
            if (random.Next(3) == 0) book.Append(new SignOff { By = "MK", InspectionId = entered.Id, Agrees = random.Next(3) switch { 0 => true, 1 => false, _ => null }, Comment = "seen" });
            if (random.Next(10) == 0) book.Append(entered with { Corrects = entered.Id, CorrectionReason = "another blade", IsWithdrawal = true });
        }
        // The last of all, measured again after it was decided on, or not.
        for (int i = 0; i < 6; i++)
        {
            NewInspection last = TestBook.Inspection($"C-{i}", new(2027, 2, 1), 1);
            last = last with { Entry = last.Entry with { Verdict = VerdictKind.Resharpen } };
            InspectionEntry first = book.Append(last);
            if (i % 2 == 0) book.Append(new SignOff { By = "MK", InspectionId = first.Id, Agrees = true });
            book.Append(last with { Entry = last.Entry with { Remeasures = first.Id } });
        }
        foreach (StateChange state in book.Current<StateChange>().Where(s => s.Id % 5 == 0).ToList()) book.Append(state with { Corrects = state.Id, CorrectionReason = "was not so", IsWithdrawal = true });
        foreach (SignOff signed in book.Current<SignOff>().Where(s => s.Id % 5 == 0).ToList()) book.Append(signed with { Corrects = signed.Id, CorrectionReason = "was not so", IsWithdrawal = true });
    }
}
