using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.MeasuringSetup;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;
using EdgeLens.Store;
using EdgeLens.Store.Transfer;
using Xunit;

namespace EdgeLens.Tests.RecordBooks;

/// <summary>Out of a book and into another one, to the same figures; backup, restore and check.</summary>
public sealed class TransferTests
{
    [Theory]
    [InlineData(Server.Sqlite, TableFormat.Csv)]
    [InlineData(Server.Sqlite, TableFormat.Json)]
    [InlineData(Server.PostgreSql, TableFormat.Csv)]
    [InlineData(Server.PostgreSql, TableFormat.Json)]
    public void What_is_exported_and_imported_again_is_the_same_in_every_row(Server server, TableFormat format)
    {
        using TestBook test = Filled(server);
        BookManifest manifest = BookExport.ToFolder(test.Book, test.Aside("export"), format, TestBook.Clock);
        Assert.Equal(3, manifest.Tables["Sharpenings"]);
        RecordBook second = test.Second("second");
        BookImport.FromFolder(second, test.Aside("export"));
        AssertAlike(test.Book, second);
        // And the next row goes on counting where the imported ones end.
        long last = second.History<SharpeningRow>()[^1].Id;
        Assert.True(second.Append(new SharpeningRow { By = "MK", Instrument = "C-07", End = 1, Day = new(2025, 9, 1) })[0].Id > last);
    }

    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void A_book_of_one_kind_of_database_moves_to_the_other(Server from)
    {
        using TestBook test = Filled(from), target = new(from == Server.Sqlite ? Server.PostgreSql : Server.Sqlite);
        BookExport.ToFolder(test.Book, test.Aside("export"), TableFormat.Csv, TestBook.Clock);
        BookImport.FromFolder(target.Book, test.Aside("export"));
        AssertAlike(test.Book, target.Book);
    }

    [Fact]
    public void A_second_practice_comes_into_a_shared_database_with_its_references_right()
    {
        using TestBook test = Filled(Server.PostgreSql);
        BookExport.ToFolder(test.Book, test.Aside("export"), TableFormat.Json, TestBook.Clock);
        RecordBook other = new(test.Book.Database, test.Book.Folder, "OTHER", TestBook.Clock);
        BookImport.FromFolder(other, test.Aside("export"));
        SharpeningRow[] rows = [.. other.History<SharpeningRow>()];
        Assert.Equal(rows[0].Id, rows[1].Corrects);
        Assert.NotEqual(test.Book.History<SharpeningRow>()[0].Id, rows[0].Id);
        InspectionEntry inspection = other.Current<InspectionEntry>()[0];
        SharpeningPair pair = Assert.Single(other.Current<SharpeningPair>());
        Assert.Equal((inspection.Id, other.Current<InspectionEntry>()[1].Id, rows[2].Id), (pair.BeforeInspectionId, pair.InspectionId, pair.SharpeningId));
        Assert.Equal(2, other.Figures(inspection.Id).Count);
        Assert.Equal(inspection.Id, Assert.Single(other.Current<SignOff>()).InspectionId);
        Assert.Equal(2, test.Book.Current<InspectionEntry>().Count);
    }

    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void A_backup_restores_rows_and_photographs(Server server)
    {
        using TestBook test = Filled(server);
        string file = test.Aside("backup.zip");
        BookExport.Backup(test.Book, file, TestBook.Clock);
        RecordBook restored = BookImport.Restore(file, test.Aside("restored"), null, TestBook.Clock);
        AssertAlike(test.Book, restored);
        PhotographRow photograph = restored.Photographs(restored.Current<InspectionEntry>()[0].Id)[0];
        Assert.Equal(File.ReadAllBytes(test.Book.PhotographPath(photograph.Sha256)), File.ReadAllBytes(restored.PhotographPath(photograph.Sha256)));
        BookCheckResult check = BookCheck.Run(restored);
        Assert.True(check.IsSound, string.Join('\n', check.Complaints));
        Assert.Equal((2, 2), (check.Inspections, check.Photographs));
    }

    [Fact]
    public async Task A_backup_made_while_another_writes_is_of_one_moment()
    {
        using TestBook test = Filled(Server.Sqlite);
        using CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        Task writing = Task.Run(() =>
        {
            // Each transaction adds a procedure and a sharpening: a backup that sees one without the other is torn.
            while (!stop.IsCancellationRequested)
                test.Book.Append(
                    new Procedure { By = "MK", Instrument = "C-07", Day = new(2025, 8, 1), LightCases = 1, HeavyCases = 0 },
                    new SharpeningRow { By = "MK", Instrument = "C-07", End = 1, Day = new(2025, 8, 1) });
        }, TestContext.Current.CancellationToken);
        for (int i = 0; i < 5; i++)
        {
            BookManifest manifest = BookExport.Backup(test.Book, test.Aside("backup.zip"), TestBook.Clock);
            Assert.Equal(manifest.Tables["Procedures"] + 2, manifest.Tables["Sharpenings"]);
        }
        await stop.CancelAsync();
        await writing;
    }

    [Fact]
    public void A_damaged_backup_is_refused_and_an_export_that_lacks_rows_too()
    {
        using TestBook test = Filled(Server.Sqlite);
        string file = test.Aside("backup.zip");
        BookExport.Backup(test.Book, file, TestBook.Clock);
        byte[] bytes = File.ReadAllBytes(file);
        File.WriteAllBytes(file, bytes[..(bytes.Length / 2)]);
        Assert.Throws<BookException>(() => BookImport.Restore(file, test.Aside("restored"), null, TestBook.Clock));

        BookExport.ToFolder(test.Book, test.Aside("export"), TableFormat.Csv, TestBook.Clock);
        string table = Path.Combine(test.Aside("export"), "Sharpenings.csv");
        string[] lines = File.ReadAllLines(table);
        File.WriteAllLines(table, lines[..^1]);
        RecordBook second = test.Second("second");
        Assert.Contains("should have 3 rows", Assert.Throws<BookException>(() => BookImport.FromFolder(second, test.Aside("export"))).Message, StringComparison.Ordinal);
        Assert.Empty(second.History<Instrument>());
    }

    [Fact]
    public void The_check_finds_a_photograph_that_is_gone_damaged_or_unnamed()
    {
        using TestBook test = Filled(Server.Sqlite);
        InspectionEntry inspection = test.Book.Current<InspectionEntry>()[0];
        PhotographRow[] rows = [.. test.Book.Photographs(inspection.Id)];
        File.Delete(test.Book.PhotographPath(rows[0].Sha256));
        string second = test.Book.PhotographPath(rows[1].Sha256);
        File.WriteAllBytes(second, [.. File.ReadAllBytes(second).Select(b => (byte)(b ^ 1))]);
        string stray = test.Book.Folder.Keep([7, 7, 7]);
        BookCheckResult check = BookCheck.Run(test.Book);
        Assert.Equal([rows[0].Sha256], check.Missing);
        Assert.Equal([rows[1].Sha256], check.Damaged);
        Assert.Equal([stray], check.Unnamed);
        Assert.False(check.IsSound);
        Assert.Throws<BookException>(() => BookExport.Backup(test.Book, test.Aside("backup.zip"), TestBook.Clock));
        Assert.False(File.Exists(test.Aside("backup.zip")));
    }

    [Fact]
    public void An_export_of_a_program_that_knew_no_tags_is_read_and_one_of_this_program_must_have_them()
    {
        using TestBook test = Filled(Server.Sqlite);
        string folder = test.Aside("export"), head = Path.Combine(folder, BookManifest.FileName);
        BookExport.ToFolder(test.Book, folder, TableFormat.Csv, TestBook.Clock);
        File.Delete(Path.Combine(folder, "EndTags.csv"));
        Assert.Contains("EndTags is missing", Assert.Throws<BookException>(() => BookImport.FromFolder(test.Second("whole"), folder)).Message, StringComparison.Ordinal);
        File.Delete(Path.Combine(folder, "SharpeningPairs.csv"));
        System.Text.Json.Nodes.JsonNode manifest = System.Text.Json.Nodes.JsonNode.Parse(File.ReadAllText(head))!;
        manifest["schema"] = "20261125133422_Begin";
        foreach (string table in (string[])["EndTags", "SharpeningPairs"]) manifest["tables"]!.AsObject().Remove(table);
        File.WriteAllText(head, manifest.ToJsonString());
        RecordBook second = test.Second("older");
        BookImport.FromFolder(second, folder);
        Assert.Equal(test.Book.History<SharpeningRow>(), second.History<SharpeningRow>());
        Assert.Empty(second.History<EndTag>());
    }

    private static TestBook Filled(Server server)
    {
        TestBook test = new TestBook(server).WithCurette();
        InspectionEntry inspection = test.Book.Append(TestBook.Inspection("C-07", new(2025, 6, 20), 1 / 3.0, [0xFF, 0xD8, 1], [0xFF, 0xD8, 2]));
        SharpeningRow wrong = (SharpeningRow)test.Book.Append(new SharpeningRow { By = "AB", Instrument = "C-07", End = 1, Day = new(2025, 6, 21), Time = new(14, 30), Strokes = 5 })[0];
        test.Book.Append(
            wrong with { Strokes = 15, Corrects = wrong.Id, CorrectionReason = "typing error, \"15\"" },
            new Procedure { By = "MK", Cassette = "A", Day = new(2025, 6, 1), LightCases = 3, HeavyCases = 1 },
            new Stone { By = "MK", Code = "S1", Description = "ceramic, fine; Arkansas is \"the other\"\r\none", Zones = 3 },
            new StoneCare { By = "MK", Stone = "S1", Day = new(2025, 6, 22), WasWiped = true },
            new RodTest { By = "MK", Instrument = "C-07", End = 1, Day = new(2025, 6, 21), Bites = true, Note = "" },
            new StateChange { By = "MK", Instrument = "C-07", Day = new(2025, 6, 21), State = InstrumentState.AtSharpening, Reason = "schärfen, µ ± ≤" },
            new EndTag { By = "MK", Instrument = "C-07", End = 1, Number = 17 },
            new SignOff { By = "DR", InspectionId = inspection.Id, Agrees = true },
            new LensProfileEntry { By = "MK", Name = "phone", Day = new(2025, 1, 2), Json = "{\n}" },
            new EdgeLens.Records.MeasuringSetup.Verification { By = "MK", Day = new(2025, 1, 2), Subject = "pin", KnownMm = 1, MeasuredMm = 1.002, StandardUncertaintyMm = 0.003 });
        InspectionEntry after = test.Book.Append(TestBook.Inspection("C-07", new(2025, 6, 22), 1 / 3.0) with { Sharpening = new(new SharpeningRow { By = "AB", Instrument = "C-07", End = 1, Day = new(2025, 6, 22) }, inspection.Id) });
        Assert.Equal(after.Id, Assert.Single(test.Book.Current<SharpeningPair>()).InspectionId);
        return test;
    }

    private static void AssertAlike(RecordBook expected, RecordBook actual)
    {
        Alike<Practice>();
        Alike<Site>();
        Alike<Cassette>();
        Alike<Instrument>();
        Alike<WorkingEnd>();
        Alike<EndTag>();
        Alike<SharpeningPair>();
        Alike<Placement>();
        Alike<StateChange>();
        Alike<Procedure>();
        Alike<RodTest>();
        Alike<Stone>();
        Alike<StoneCare>();
        Alike<SharpeningRow>();
        Alike<LensProfileEntry>();
        Alike<EdgeLens.Records.MeasuringSetup.Verification>();
        Alike<InspectionEntry>();
        Alike<SignOff>();
        foreach (InspectionEntry inspection in expected.History<InspectionEntry>())
        {
            Assert.Equal(expected.Figures(inspection.Id), actual.Figures(inspection.Id));
            Assert.Equal(expected.Photographs(inspection.Id), actual.Photographs(inspection.Id));
            Assert.Equal(expected.Document(inspection.Id)!.JsonGzip, actual.Document(inspection.Id)!.JsonGzip);
        }

        void Alike<T>() where T : Entry => Assert.Equal(expected.History<T>(), actual.History<T>());
    }
}
