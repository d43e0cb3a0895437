using System.CommandLine;
using EdgeLens.Cli.Rim;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;
using EdgeLens.Store;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book withdraw</c>: takes back a row that should not have been entered.</summary>
internal static class WithdrawCommand
{
    private static readonly Dictionary<string, Func<RecordBook, long, Entry?>> Kinds = new(StringComparer.Ordinal)
    {
        ["inspection"] = (book, id) => book.Find<InspectionEntry>(id),
        ["procedure"] = (book, id) => book.Find<Procedure>(id),
        ["sharpening"] = (book, id) => book.Find<SharpeningRow>(id),
        ["rod-test"] = (book, id) => book.Find<RodTest>(id),
        ["sharpening-pair"] = (book, id) => book.Find<SharpeningPair>(id),
        ["tag"] = (book, id) => book.Find<EndTag>(id),
        ["move"] = (book, id) => book.Find<Placement>(id),
        ["state"] = (book, id) => book.Find<StateChange>(id),
        ["stone"] = (book, id) => book.Find<StoneCare>(id),
        ["sign-off"] = (book, id) => book.Find<SignOff>(id),
    };

    public static Command Create(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> kind = new("KIND") { Description = string.Join(", ", Kinds.Keys) };
        kind.AcceptOnlyFromAmong([.. Kinds.Keys]);
        Argument<long> row = new("ROW");
        Option<string> because = new("--because") { Description = "Why.", Required = true };
        Command command = new("withdraw", "Takes back a row that should not have been entered; it stays in the history.") { kind, row, because };
        command.Does(parsed =>
        {
            RecordBook book = options.Open(parsed, terminal);
            Entry old = Kinds[parsed.GetRequiredValue(kind)](book, parsed.GetValue(row)) ?? throw new RimException(ExitCode.WrongArguments, $"There is no {parsed.GetValue(kind)} with row {parsed.GetValue(row)}.");
            Entry withdrawal = old with { By = options.By(parsed), Corrects = old.Id, CorrectionReason = parsed.GetRequiredValue(because), IsWithdrawal = true };
            return BookCommand.Entered(terminal, parsed.GetValue(json), book.Append(withdrawal)[0], $"Withdrawn: {parsed.GetValue(kind)} {old.Id}");
        });
        return command;
    }
}
