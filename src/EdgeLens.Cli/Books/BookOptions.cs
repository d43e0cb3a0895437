using System.CommandLine;
using System.Globalization;
using EdgeLens.Cli.Rim;
using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Store;
using EdgeLens.Store.Opening;

namespace EdgeLens.Cli.Books;

/// <summary>What the commands on a book have in common: where it is, who enters, and what a row corrects.</summary>
internal sealed class BookOptions
{
    /// <summary>Folder of the book where the command line names none.</summary>
    public const string BookVariable = "EDGELENS_BOOK";

    /// <summary>Connection string of PostgreSQL; never on the command line, where other users of the machine could read the password.</summary>
    public const string DatabaseVariable = "EDGELENS_DATABASE";

    /// <summary>Staff code where the command line names none.</summary>
    public const string StaffVariable = "EDGELENS_STAFF";

    private readonly Option<string?> _book = new("--book", "-b") { Description = $"Folder of the book; without it the variable {BookVariable}, or ./book.", HelpName = "FOLDER", Recursive = true };
    private readonly Option<string?> _by = new("--by") { Description = $"Your initials or staff code; without it the variable {StaffVariable}.", HelpName = "CODE", Recursive = true };

    private readonly Option<long?> _corrects = new("--corrects") { Description = "The row that this one stands in for; the old one stays in the history.", HelpName = "ROW" };
    private readonly Option<string?> _because = new("--because") { Description = "With --corrects: why.", HelpName = "TEXT" };

    public void AddTo(Command parent)
    {
        parent.Options.Add(_book);
        parent.Options.Add(_by);
    }

    public void AddCorrectionTo(Command command)
    {
        command.Options.Add(_corrects);
        command.Options.Add(_because);
    }

    public string Folder(ParseResult parsed) => parsed.GetValue(_book) ?? Environment.GetEnvironmentVariable(BookVariable) ?? "book";

    public static string? Connection => Environment.GetEnvironmentVariable(DatabaseVariable);

    public RecordBook Open(ParseResult parsed, Terminal terminal)
    {
        try
        {
            return BookFolder.Open(Folder(parsed), Connection, terminal.Clock);
        }
        catch (BookException e)
        {
            throw new RimException(ExitCode.File, e.Message, e);
        }
    }

    public string By(ParseResult parsed)
    {
        string code = parsed.GetValue(_by) ?? Environment.GetEnvironmentVariable(StaffVariable) ?? throw new RimException(ExitCode.WrongArguments, $"Say who enters this: --by CODE, or the variable {StaffVariable}.");
        try
        {
            return StaffCode.Check(code);
        }
        catch (ArgumentException e)
        {
            throw new RimException(ExitCode.WrongArguments, e.Message, e);
        }
    }

    /// <summary>The row with what it corrects, if it does.</summary>
    public T Corrected<T>(ParseResult parsed, T entry) where T : Entry => parsed.GetValue(_corrects) is { } old
        ? entry with { Corrects = old, CorrectionReason = parsed.GetValue(_because) ?? throw new RimException(ExitCode.WrongArguments, "--corrects needs --because.") }
        : entry;

    /// <summary>A day as on the command line.</summary>
    public static DateOnly Day(string? text, DateOnly otherwise) => text is null ? otherwise
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day
        : throw new RimException(ExitCode.WrongArguments, $"\"{text}\" is no day: write it as 2025-01-31.");

    /// <summary>A time of day as on the command line.</summary>
    public static TimeOnly? Time(string? text) => text is null ? null
        : TimeOnly.TryParseExact(text, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly time) ? time
        : throw new RimException(ExitCode.WrongArguments, $"\"{text}\" is no time: write it as 14:30.");
}
