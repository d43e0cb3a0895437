using System.CommandLine;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Records.Inspections;
using EdgeLens.Store;
using EdgeLens.Store.Transfer;

namespace EdgeLens.Cli.Books;

/// <summary>Backup, restore, export, import and check of a book.</summary>
internal static class BackupCommands
{
    public static Command Backup(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> file = new("FILE") { Description = "ZIP file to write." };
        Command command = new("backup", "Writes all rows and photographs, unaltered, into one file, while others may go on working.") { file };
        command.Does(parsed => Tell(terminal, parsed.GetValue(json), BookExport.Backup(options.Open(parsed, terminal), parsed.GetRequiredValue(file), terminal.Clock), $"Backed up into {parsed.GetValue(file)}"));
        return command;
    }

    public static Command Restore(Terminal terminal, Option<bool> json)
    {
        Argument<string> file = new("FILE") { Description = "That `book backup` wrote." }, folder = new("FOLDER") { Description = "Of the new book." };
        Command command = new("restore", $"Makes a new book from a backup: SQLite, or PostgreSQL where the variable {BookOptions.DatabaseVariable} names a database.") { file, folder };
        command.Does(parsed =>
        {
            RecordBook book = BookImport.Restore(parsed.GetRequiredValue(file), parsed.GetRequiredValue(folder), BookOptions.Connection, terminal.Clock);
            return TellCheck(terminal, parsed.GetValue(json), BookCheck.Run(book));
        });
        return command;
    }

    public static Command Export(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> folder = new("FOLDER");
        Option<string> format = new("--format") { Description = "Of the tables: csv or json.", DefaultValueFactory = _ => "csv" };
        format.AcceptOnlyFromAmong("csv", "json");
        Option<bool> photographs = new("--photographs") { Description = "With copies of the photographs that say neither where they were taken nor by whom." };
        Command command = new("export", "Writes every row as tables, for other programs and for `book import`.") { folder, format, photographs };
        command.Does(parsed =>
        {
            RecordBook book = options.Open(parsed, terminal);
            string target = parsed.GetRequiredValue(folder);
            BookManifest manifest = BookExport.ToFolder(book, target, parsed.GetValue(format) == "json" ? TableFormat.Json : TableFormat.Csv, terminal.Clock);
            int refused = parsed.GetValue(photographs) ? Copies(book, Path.Combine(target, "photographs"), terminal) : 0;
            Tell(terminal, parsed.GetValue(json), manifest, $"Exported into {target}");
            return (int)(refused == 0 ? ExitCode.Done : ExitCode.Refused);
        });
        return command;
    }

    public static Command Import(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> folder = new("FOLDER") { Description = "That `book export` wrote." };
        Command command = new("import", "Reads the rows of an export into a book without rows (`book restore` brings photographs back too).") { folder };
        command.Does(parsed =>
        {
            RecordBook book = Directory.Exists(options.Folder(parsed)) ? options.Open(parsed, terminal) : Store.Opening.BookFolder.Create(options.Folder(parsed), "P1", BookOptions.Connection, terminal.Clock);
            return Tell(terminal, parsed.GetValue(json), BookImport.FromFolder(book, parsed.GetRequiredValue(folder)), $"Imported from {parsed.GetValue(folder)}");
        });
        return command;
    }

    public static Command Verify(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Command command = new("verify", "Checks that every row and photograph that was acknowledged is there and as it was.");
        command.Does(parsed => TellCheck(terminal, parsed.GetValue(json), BookCheck.Run(options.Open(parsed, terminal))));
        return command;
    }

    /// <summary>Copies that may leave the practice. What cannot be stripped is left out and told.</summary>
    private static int Copies(RecordBook book, string target, Terminal terminal)
    {
        int refused = 0;
        foreach (PhotographRow row in book.Current<InspectionEntry>().SelectMany(i => book.Photographs(i.Id)).DistinctBy(p => p.Sha256))
        {
            if (PrivateCopy.Of(File.ReadAllBytes(book.PhotographPath(row.Sha256))) is { } copy) AtomicFile.Write(Path.Combine(target, row.Sha256 + copy.Extension), stream => stream.Write(copy.Bytes.Span));
            else
            {
                terminal.Error.WriteLine($"{row.FileName} ({row.Sha256}): left out, its kind of file cannot be freed from position data.");
                refused++;
            }
        }
        return refused;
    }

    private static int Tell(Terminal terminal, bool json, BookManifest manifest, string words)
    {
        terminal.Out.Write(json
            ? ConsoleJson.Write(j =>
            {
                j.WriteNumber("exitCode", 0);
                j.WriteNumber("photographs", manifest.Photographs.Length);
                j.WriteStartObject("tables");
                foreach ((string table, long rows) in manifest.Tables) j.WriteNumber(table, rows);
                j.WriteEndObject();
            })
            : FormattableString.Invariant($"{words}: {manifest.Tables.Values.Sum()} rows in {manifest.Tables.Count} tables{(manifest.Photographs.Length > 0 ? $", {manifest.Photographs.Length} photographs" : "")}.\n"));
        return (int)ExitCode.Done;
    }

    private static int TellCheck(Terminal terminal, bool json, BookCheckResult check)
    {
        ExitCode code = check.IsSound ? ExitCode.Done : ExitCode.File;
        if (json) terminal.Out.Write(ConsoleJson.Write(j =>
        {
            j.WriteNumber("exitCode", (int)code);
            j.WriteNumber("inspections", check.Inspections);
            j.WriteNumber("photographs", check.Photographs);
            foreach ((string name, IEnumerable<string> items) in new (string, IEnumerable<string>)[] { ("missing", check.Missing), ("damaged", check.Damaged), ("unnamed", check.Unnamed), ("complaints", check.Complaints) })
            {
                j.WriteStartArray(name);
                foreach (string item in items) j.WriteStringValue(item);
                j.WriteEndArray();
            }
        }));
        else
        {
            terminal.Out.WriteLine(FormattableString.Invariant($"{check.Inspections} inspections, {check.Photographs} photographs: {(check.IsSound ? "all there and as they were" : "NOT SOUND")}."));
            foreach (string missing in check.Missing) terminal.Out.WriteLine($"missing: {missing}");
            foreach (string damaged in check.Damaged) terminal.Out.WriteLine($"damaged: {damaged}");
            foreach (string complaint in check.Complaints) terminal.Out.WriteLine(complaint);
            if (check.Unnamed.Length > 0) terminal.Out.WriteLine(FormattableString.Invariant($"{check.Unnamed.Length} photographs belong to no row (harmless: an entry was cut short before it was acknowledged)."));
        }
        return (int)code;
    }
}
