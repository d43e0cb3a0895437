using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Sharpening;
using EdgeLens.Store;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Xunit;

namespace EdgeLens.Tests.RecordBooks;

/// <summary>One tag, one end; a sharpening with its photographs before and after.</summary>
public sealed class TagTests
{
    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void A_tag_stands_for_one_end_and_goes_to_another_only_when_it_is_taken_back(Server server)
    {
        using TestBook test = new TestBook(server).WithCurette();
        WorkingEnd end = test.Book.Current<WorkingEnd>()[0];
        test.Book.Append(end with { End = 2 });
        EndTag first = (EndTag)test.Book.Append(Tag(1, 17))[0];
        Assert.Contains("17 stands for C-07 end 1", Assert.Throws<BookException>(() => test.Book.Append(Tag(2, 17))).Message, StringComparison.Ordinal);
        Assert.Contains("has the tag 17", Assert.Throws<BookException>(() => test.Book.Append(Tag(1, 18))).Message, StringComparison.Ordinal);
        Assert.Throws<BookException>(() => test.Book.Append(Tag(2, 0)));
        Assert.Throws<BookException>(() => test.Book.Append(Tag(2, 1000)));
        Assert.Throws<BookException>(() => test.Book.Append(Tag(3, 18)));
        // Of a batch none is entered when two of it want the same tag.
        Assert.Throws<BookException>(() => test.Book.Append(Tag(2, 18), Tag(2, 19)));
        test.Book.Append(first with { Corrects = first.Id, CorrectionReason = "lost", IsWithdrawal = true }, Tag(2, 17));
        Assert.Equal((17, 2), Assert.Single(test.Reopen().Current<EndTag>()) is var now ? (now.Number, now.End) : default);
        Assert.Equal(3, test.Book.History<EndTag>().Count);
    }

    [Theory]
    [InlineData(Server.Sqlite)]
    [InlineData(Server.PostgreSql)]
    public void An_inspection_after_sharpening_enters_with_its_sharpening_and_pair_or_not_at_all(Server server)
    {
        using TestBook test = new TestBook(server).WithCurette();
        InspectionEntry before = test.Book.Append(TestBook.Inspection("C-07", new(2025, 6, 20), 5));
        SharpeningRow row = new() { By = "MK", Instrument = "C-07", End = 1, Day = new(2025, 6, 20), Time = new(14, 30) };
        NewInspection after = TestBook.Inspection("C-07", new(2025, 6, 20), 6) is var made ? made with { Entry = made.Entry with { Moment = InspectionMoment.AfterSharpening } } : null!;
        Assert.ThrowsAny<Exception>(() => test.Book.Append(after with { Sharpening = new(row, 9999) }));
        Assert.Single(test.Book.Current<InspectionEntry>());
        Assert.Empty(test.Book.Current<SharpeningRow>());
        InspectionEntry stored = test.Book.Append(after with { Sharpening = new(row, before.Id) });
        RecordBook book = test.Reopen();
        Assert.Equal(InspectionMoment.AfterSharpening, book.Find<InspectionEntry>(stored.Id)!.Moment);
        SharpeningPair pair = Assert.Single(book.Current<SharpeningPair>());
        Assert.Equal((before.Id, stored.Id, book.Current<SharpeningRow>().Single().Id), (pair.BeforeInspectionId, pair.InspectionId, pair.SharpeningId));
        // A sharpening that was logged before gets the pair, and no second row.
        test.Book.Append(after with { Sharpening = new(book.Current<SharpeningRow>()[0], before.Id) });
        Assert.Single(book.Current<SharpeningRow>());
    }

    [Fact]
    public void A_book_from_before_there_were_tags_is_brought_up_to_date_with_its_rows()
    {
        using TestBook test = new TestBook(Server.Sqlite).WithCurette();
        InspectionEntry old = test.Book.Append(TestBook.Inspection("C-07", new(2025, 6, 20), 5));
        using (EdgeLens.Store.Database.BookContext context = test.Book.Database.Open("FL")) context.GetService<IMigrator>().Migrate("20261125133422_Begin");
        RecordBook book = test.Reopen();
        Assert.Equal(old, Assert.Single(book.Current<InspectionEntry>()));
        Assert.Empty(book.Current<EndTag>());
        book.Append(Tag(1, 17));
    }

    private static EndTag Tag(int end, int number) => new() { By = "MK", Instrument = "C-07", End = end, Number = number };
}
