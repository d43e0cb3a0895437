using EdgeLens.Assessment.Instruments;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;
using EdgeLens.Store;
using EdgeLens.Store.Opening;
using Xunit;

namespace EdgeLens.Tests.RecordBooks;

/// <summary>The book against both real databases. Where no PostgreSQL server is named, its half is skipped with that reason.</summary>
public sealed class BookTests
{
    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void What_is_entered_comes_back_as_it_was_also_after_opening_again(Server server)
    {
        using TestBook test = new TestBook(server).WithCurette();
        RecordBook book = test.Reopen();
        Instrument instrument = Assert.Single(book.Current<Instrument>());
        Assert.Equal(("C-07", 42.50m, new DateOnly(2025, 1, 10)), (instrument.Code, instrument.Price, instrument.PurchasedOn));
        Assert.Equal(TestBook.Clock.GetUtcNow(), instrument.EnteredAt);
        WorkingEnd end = Assert.Single(book.CurrentOf<WorkingEnd>("C-07"));
        Assert.Equal((InstrumentFamily.UniversalCurette, 5.4, null), (end.Family, end.MakerLengthMm, end.WorkingEdge));
    }

    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void An_inspection_keeps_figures_to_the_last_bit_photographs_and_document(Server server)
    {
        using TestBook test = new TestBook(server).WithCurette();
        byte[] photograph = [0xFF, 0xD8, 1, 2, 3];
        NewInspection added = TestBook.Inspection("C-07", new(2025, 6, 20), 1 / 3.0, photograph);
        InspectionEntry stored = test.Book.Append(added);
        RecordBook book = test.Reopen();
        Assert.Equal(added.Figures.Select(f => f with { InspectionId = stored.Id }), book.Figures(stored.Id));
        PhotographRow row = Assert.Single(book.Photographs(stored.Id));
        Assert.Equal(added.Photographs[0].Row with { InspectionId = stored.Id }, row);
        Assert.Equal(photograph, File.ReadAllBytes(book.PhotographPath(row.Sha256)));
        Assert.Equal("{ \"µ\": 1 }", book.Document(stored.Id)!.ReadJson());
        DatedFigure dated = Assert.Single(book.FigureHistory([InspectionFigures.JudgedWidthLossPercent], "C-07"));
        Assert.Equal((stored, 1 / 3.0), (dated.Inspection, dated.Figure.Value));
        Assert.Empty(book.FigureHistory([InspectionFigures.JudgedWidthLossPercent], "C-08"));
    }

    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void A_correction_is_a_new_row_the_old_one_stays_and_each_is_corrected_once(Server server)
    {
        using TestBook test = new TestBook(server).WithCurette();
        SharpeningRow wrong = (SharpeningRow)test.Book.Append(new SharpeningRow { By = "AB", Instrument = "C-07", End = 1, Day = new(2025, 6, 21), Strokes = 5 })[0];
        SharpeningRow right = (SharpeningRow)test.Book.Append(wrong with { By = "MK", Strokes = 15, Corrects = wrong.Id, CorrectionReason = "typing error" })[0];
        Assert.Equal([right], test.Book.Current<SharpeningRow>());
        Assert.Equal([wrong, right], test.Book.History<SharpeningRow>());
        Assert.Contains("corrected already", Assert.Throws<BookException>(() => test.Book.Append(wrong with { Strokes = 50, Corrects = wrong.Id, CorrectionReason = "again" })).Message, StringComparison.Ordinal);
        Assert.Throws<BookException>(() => test.Book.Append(wrong with { Corrects = right.Id, CorrectionReason = " " }));
        Assert.Throws<BookException>(() => test.Book.Append(wrong with { Corrects = right.Id + 1000, CorrectionReason = "no such row" }));
        test.Book.Append(right with { Corrects = right.Id, CorrectionReason = "was another curette", IsWithdrawal = true });
        Assert.Empty(test.Book.Current<SharpeningRow>());
        Assert.Equal(3, test.Book.History<SharpeningRow>().Count);
    }

    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void Of_several_rows_all_are_entered_or_none(Server server)
    {
        using TestBook test = new TestBook(server).WithCurette();
        Procedure good = new() { By = "MK", Cassette = "A", Day = new(2025, 6, 1), LightCases = 3, HeavyCases = 1 };
        BookException refused = Assert.Throws<BookException>(() => test.Book.Append(good, good with { Cassette = "B" }));
        Assert.Contains("no cassette B", refused.Message, StringComparison.Ordinal);
        Assert.Empty(test.Book.Current<Procedure>());
    }

    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void A_code_is_given_once_and_a_correction_may_keep_it(Server server)
    {
        using TestBook test = new TestBook(server).WithCurette();
        Instrument there = test.Book.Current<Instrument>()[0];
        Assert.Throws<BookException>(() => test.Book.Append(new Instrument { By = "MK", Code = "C-07" }));
        test.Book.Append(there with { Price = 45, Corrects = there.Id, CorrectionReason = "price list" });
        Assert.Equal(45, Assert.Single(test.Book.Current<Instrument>()).Price);
    }

    [Fact]
    public void Practices_that_share_a_database_do_not_see_each_other()
    {
        using TestBook test = new TestBook(Server.PostgreSql).WithCurette();
        InspectionEntry ours = test.Book.Append(TestBook.Inspection("C-07", new(2025, 6, 20), 5));
        RecordBook other = new(test.Book.Database, test.Book.Folder, "OTHER", TestBook.Clock);
        Assert.Empty(other.Current<Instrument>());
        Assert.Empty(other.Figures(ours.Id));
        Assert.Null(other.Document(ours.Id));
        other.Append(new Practice { By = "X1", Name = "Other", Currency = "USD" }, new Instrument { By = "X1", Code = "C-07" });
        Assert.Single(test.Book.Current<Instrument>());
    }

    [Fact]
    public void A_photograph_whose_bytes_are_not_what_its_row_says_is_not_entered()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        NewInspection good = TestBook.Inspection("C-07", new(2025, 6, 20), 5, [1, 2, 3]);
        NewInspection wrong = good with { Photographs = [good.Photographs[0] with { Bytes = new byte[] { 9 } }] };
        Assert.Throws<BookException>(() => test.Book.Append(wrong));
        Assert.Throws<BookException>(() => test.Book.Append(good with { Photographs = [good.Photographs[0] with { Bytes = null }] }));
        Assert.Empty(test.Book.Current<InspectionEntry>());
    }

    [Theory]
    [InlineData("Maria Keller")]
    [InlineData("")]
    [InlineData("KELLERM")]
    public void People_stand_in_the_book_by_code_and_never_by_name(string name) =>
        Assert.Throws<ArgumentException>(() => new Site { By = name, Code = "S", Name = "S" });

    [Fact]
    public void A_book_of_a_newer_program_is_refused_with_what_is_needed()
    {
        using TestBook test = new(Server.Sqlite);
        using (Microsoft.Data.Sqlite.SqliteConnection connection = new($"Data Source={Path.Combine(test.Folder, BookFolder.DatabaseFile)}"))
        {
            connection.Open();
            using Microsoft.Data.Sqlite.SqliteCommand command = connection.CreateCommand();
            command.CommandText = "INSERT INTO __EFMigrationsHistory VALUES ('29990101000000_Future', '99.0')";
            command.ExecuteNonQuery();
        }
        Assert.Contains("newer EdgeLens", Assert.Throws<BookException>(test.Reopen).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_that_holds_something_is_not_made_a_book()
    {
        using TestBook test = new(Server.Sqlite);
        Assert.Throws<BookException>(() => BookFolder.Create(test.Folder, "FL", null, TestBook.Clock));
        Assert.Throws<BookException>(() => BookFolder.Open(test.Aside("nothing"), null, TestBook.Clock));
    }

    [Fact]
    public void The_sqlite_file_syncs_its_log_at_every_commit()
    {
        using TestBook test = new(Server.Sqlite);
        using EdgeLens.Store.Database.BookContext context = test.Book.Database.Open("FL");
        Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.OpenConnection(context.Database);
        Assert.Equal("wal", Pragma("journal_mode"));
        Assert.Equal("2", Pragma("synchronous")); // 2 is FULL (SQLite documentation, "PRAGMA synchronous")
        Assert.Equal("1", Pragma("foreign_keys"));

        string Pragma(string name)
        {
            using System.Data.Common.DbCommand command = Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.GetDbConnection(context.Database).CreateCommand();
            command.CommandText = $"PRAGMA {name}";
            return Convert.ToString(command.ExecuteScalar(), System.Globalization.CultureInfo.InvariantCulture)!;
        }
    }

    /// <summary>One set of schema steps serves both servers: the columns on the PostgreSQL server are those that its own mapping wants.</summary>
    [Fact]
    public void The_tables_on_the_server_have_the_types_of_the_model()
    {
        using TestBook test = new(Server.PostgreSql);
        using EdgeLens.Store.Database.BookContext context = test.Book.Database.Open("FL");
        Dictionary<(string, string), string> onServer = [];
        Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.OpenConnection(context.Database);
        using System.Data.Common.DbCommand command = Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.GetDbConnection(context.Database).CreateCommand();
        command.CommandText = "SELECT table_name, column_name, data_type FROM information_schema.columns WHERE table_schema = 'public'";
        using (System.Data.Common.DbDataReader reader = command.ExecuteReader())
            while (reader.Read()) onServer.Add((reader.GetString(0), reader.GetString(1)), reader.GetString(2));
        foreach (Microsoft.EntityFrameworkCore.Metadata.IEntityType table in context.Model.GetEntityTypes())
            foreach (EdgeLens.Store.Database.TableColumn column in EdgeLens.Store.Database.TableColumn.Of(table))
                Assert.Equal(column.Mapping.StoreType, onServer[(Microsoft.EntityFrameworkCore.RelationalEntityTypeExtensions.GetTableName(table)!, column.Name)]);
    }
}
