using System.CommandLine;
using System.Data.Common;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book</c>: the practice's records over the years.</summary>
internal static class BookCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        BookOptions options = new();
        Command command = new("book", "The practice's records over the years: instruments, inspections, use, sharpenings, reports (docs/records.md).")
        {
            InitCommand.Create(terminal, json, options), AddCommand.Create(terminal, json, options), LogCommand.Create(terminal, json, options), FindCommand.Create(terminal, json, options),
            InspectIntoBook.Create(terminal, json, options), RemeasureCommand.Create(terminal, json, options), StateCommands.Retire(terminal, json, options), StateCommands.SetState(terminal, json, options),
            WithdrawCommand.Create(terminal, json, options), BookReportCommand.Review(terminal, json, options), BookReportCommand.Create(terminal, json, options), BackupCommands.Backup(terminal, json, options),
            BackupCommands.Restore(terminal, json), BackupCommands.Export(terminal, json, options), BackupCommands.Import(terminal, json, options), BackupCommands.Verify(terminal, json, options),
            DemoCommand.Create(terminal, json), StaffCommand.Create(terminal, json, options), TagCommands.Tag(terminal, json, options), TagCommands.Tags(terminal, json, options),
        };
        options.AddTo(command);
        return command;
    }

    /// <summary>Sets what a command does; what the book refuses ends it with a text and nothing done.</summary>
    public static void Does(this Command command, Func<ParseResult, int> action) => command.SetAction(parsed =>
    {
        try
        {
            return action(parsed);
        }
        catch (BookException e)
        {
            throw new RimException(ExitCode.WrongArguments, e.Message, e);
        }
        catch (DbException e)
        {
            throw new RimException(ExitCode.File, $"The book's database cannot be used: {e.Message}", e);
        }
        catch (Exception e) when (Files.InputFile.IsOfTheDisk(e))
        {
            throw new RimException(ExitCode.File, $"{e.Message} Check the path, the rights and the room on the disk.", e);
        }
    });

    /// <summary>Says what was entered.</summary>
    public static int Entered(Terminal terminal, bool json, Entry entry, string words)
    {
        terminal.Out.Write(json
            ? ConsoleJson.Write(j =>
            {
                j.WriteNumber("exitCode", 0);
                j.WriteNumber("row", entry.Id);
            })
            : FormattableString.Invariant($"{words} (row {entry.Id})\n"));
        return (int)ExitCode.Done;
    }
}
