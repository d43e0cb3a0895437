using System.CommandLine;
using EdgeLens.Cli.Rim;
using EdgeLens.Records.Practices;
using EdgeLens.Store;
using EdgeLens.Store.Opening;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book init</c>.</summary>
internal static class InitCommand
{
    public static Command Create(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Option<string> name = new("--name") { Description = "The practice's name, for reports.", Required = true };
        Option<string> code = new("--code") { Description = "Short code that tells practices apart which share a database.", DefaultValueFactory = _ => "P1" };
        Option<string> currency = new("--currency") { Description = "Of prices: three letters.", DefaultValueFactory = _ => "EUR" };
        Command command = new("init", $"Makes an empty book: SQLite, or PostgreSQL where the variable {BookOptions.DatabaseVariable} names a database.") { name, code, currency };
        command.Does(parsed =>
        {
            string by = options.By(parsed);
            RecordBook book = BookFolder.Create(options.Folder(parsed), parsed.GetRequiredValue(code), BookOptions.Connection, terminal.Clock);
            return BookCommand.Entered(
                terminal, parsed.GetValue(json), book.Append(new Practice { By = by, Name = parsed.GetRequiredValue(name), Currency = parsed.GetRequiredValue(currency) })[0], $"The book is in {options.Folder(parsed)}");
        });
        return command;
    }
}
