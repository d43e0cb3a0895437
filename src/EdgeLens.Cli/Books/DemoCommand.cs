using System.CommandLine;
using EdgeLens.Cli.Rim;
using EdgeLens.Store.Opening;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book demo</c>: the invented practice.</summary>
internal static class DemoCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Argument<string> data = new("DATA") { Description = "Folder with clinic.json and the photographs (demo-images)." }, folder = new("FOLDER") { Description = "Of the new book." };
        Command command = new("demo", "Builds the book of an invented practice from rendered photographs and invented figures.") { data, folder };
        command.Does(parsed =>
        {
            Demo.DemoClinic clinic = Demo.DemoClinic.Read(parsed.GetRequiredValue(data));
            int inspections = clinic.Build(BookFolder.Create(parsed.GetRequiredValue(folder), "FLAC", BookOptions.Connection, terminal.Clock), terminal);
            terminal.Out.Write(parsed.GetValue(json)
                ? Writing.ConsoleJson.Write(j =>
                {
                    j.WriteNumber("exitCode", 0);
                    j.WriteNumber("inspections", inspections);
                })
                : FormattableString.Invariant($"The book of {clinic.Practice} (invented) is in {parsed.GetValue(folder)}: {inspections} inspections.\n"));
            return (int)ExitCode.Done;
        });
        return command;
    }
}
