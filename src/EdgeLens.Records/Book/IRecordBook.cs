using System.Collections.Immutable;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Uses;

namespace EdgeLens.Records.Book;

/// <summary>
/// The book of one practice. Rows are only added; what a call has returned survives a crash at any later moment. Several threads and processes may use the same book.
/// </summary>
public interface IRecordBook : ICurrentRows
{
    /// <summary>Which practice, where several share a database.</summary>
    string PracticeCode { get; }

    /// <summary>The rows about some instruments that hold today, in the order of entry.</summary>
    /// <typeparam name="T">Kind of row.</typeparam>
    IReadOnlyList<T> CurrentOf<T>(params IReadOnlyCollection<string> instruments) where T : InstrumentEntry;

    /// <summary>Grows with every row that is entered, by whatever process: as long as it stays the same, the book says the same. Costs a look at the end of each table.</summary>
    long Revision { get; }

    /// <summary>Some instruments as they hold today, in the order of entry.</summary>
    IReadOnlyList<Instrument> Instruments(params IReadOnlyCollection<string> codes);

    /// <summary>The working ends of all instruments that are not retired, in order of instrument and end. In a book of many years they are few among the instruments.</summary>
    IReadOnlyList<EndInUse> EndsInUse();

    /// <summary>What waits for a decision: the last inspection of each working end in use, if its verdict asks for something, it is not as-new and nobody has decided on it.</summary>
    /// <returns>The most urgent verdict first, then the oldest.</returns>
    IReadOnlyList<InspectionEntry> Undecided();

    /// <summary>Sign-offs that name one of some inspections, in the order of entry.</summary>
    IReadOnlyList<SignOff> SignOffsOn(params IReadOnlyCollection<long> inspections);

    /// <summary>Procedures that name one of some instruments or cassettes, in order of day and entry.</summary>
    IReadOnlyList<Procedure> ProceduresWith(IReadOnlyCollection<string> instruments, IReadOnlyCollection<string> cassettes);

    /// <summary>How a stone was used, on whatever instruments.</summary>
    /// <param name="stone">Its code.</param>
    /// <param name="after">Sharpenings of later days are counted; null: all.</param>
    StoneUse UseOf(string stone, DateOnly? after);

    /// <summary>One row, corrected or not; null when there is none.</summary>
    /// <typeparam name="T">Kind of row.</typeparam>
    T? Find<T>(long id) where T : Entry;

    /// <summary>All rows that were ever entered, corrected and withdrawn ones too, in the order of entry.</summary>
    /// <typeparam name="T">Kind of row.</typeparam>
    IReadOnlyList<T> History<T>() where T : Entry;

    /// <summary>Adds rows, all or none.</summary>
    /// <returns>The rows as they were stored, with ids, in the order given.</returns>
    /// <exception cref="BookException">A row names something that is not there, is in the wrong form, or corrects a row that is corrected already.</exception>
    ImmutableArray<Entry> Append(params ReadOnlySpan<Entry> entries);

    /// <summary>Adds an inspection: photographs first, each safely on the disk before the rows that name it.</summary>
    /// <exception cref="BookException">It names an instrument or photograph that is not there.</exception>
    InspectionEntry Append(NewInspection inspection);

    /// <summary>All figures of an inspection, in their order.</summary>
    IReadOnlyList<FigureRow> Figures(long inspectionId);

    /// <summary>Named figures of all inspections that hold today, by instrument, end and time.</summary>
    /// <param name="names">As in <see cref="FigureRow.Name"/>.</param>
    /// <param name="instruments">Of which instruments.</param>
    IReadOnlyList<DatedFigure> FigureHistory(IReadOnlyCollection<string> names, params IReadOnlyCollection<string> instruments);

    /// <summary>The photographs of an inspection, in their order.</summary>
    IReadOnlyList<PhotographRow> Photographs(long inspectionId);

    /// <summary>The inspection that holds today and was made from this very file under this very name; null when there is none.</summary>
    /// <param name="sha256">Of the file's bytes.</param>
    /// <param name="nameEnding">How <see cref="PhotographRow.FileName"/> ends.</param>
    long? InspectionWith(string sha256, string nameEnding);

    /// <summary>What else is kept of an inspection; null when there is no such inspection.</summary>
    InspectionDocument? Document(long inspectionId);

    /// <summary>Path of a kept photograph; never to be written to.</summary>
    /// <exception cref="BookException">It is not in the folder.</exception>
    string PhotographPath(string sha256);
}
