using System.CommandLine;
using System.CommandLine.Invocation;
using EdgeLens.Cli.Books;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Imaging.Photographs;

namespace EdgeLens.Cli.Commands;

/// <summary>The program: what is on the command line, and the one place where exceptions become a text and an exit code.</summary>
public static class CommandLine
{
    internal const string ExitCodes =
        "Exit codes: 0 done; 1 wrong arguments, nothing done; 2 a photograph or a comparison was refused, the rest done; " +
        "3 a file cannot be read or written or has the wrong form; 4 the program broke down.";

    /// <summary>Runs one command.</summary>
    /// <param name="args">As given to the program.</param>
    /// <param name="terminal">Where it speaks.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public static int Run(IReadOnlyList<string> args, Terminal terminal)
    {
        ArgumentNullException.ThrowIfNull(terminal);
        Option<bool> json = new("--json") { Description = "Write the result to standard output as JSON; progress and complaints stay on standard error.", Recursive = true };
        RootCommand root = new("Looks at the working end of a dental hand instrument in a macro photograph and says whether it is sharp, how far it has drifted from new, and what to do.\n\n" + ExitCodes)
        {
            CardCommand.Create(terminal, json), LensCommand.Create(terminal, json), MeasureCommand.Create(terminal, json), InspectCommand.Create(terminal, json), SharpenedCommand.Create(terminal, json), ReportCommand.Create(terminal, json), BookCommand.Create(terminal, json), ServeCommand.Create(terminal),
            StudyCommand.Create(terminal, json), VerifyCommand.Create(terminal, json), json,
        };
        ParseResult parsed = root.Parse(args);
        try
        {
            if (parsed.Action is ParseErrorAction) throw new RimException(ExitCode.WrongArguments, WhatIsWrong(parsed));
            return parsed.Invoke(new InvocationConfiguration { Output = terminal.Out, Error = terminal.Error, EnableDefaultExceptionHandler = false });
        }
        catch (RimException e)
        {
            return Complain(e.Code, e.Message);
        }
        catch (OpenCvMissingException e)
        {
            return Complain(ExitCode.BrokeDown, e.Message);
        }

        int Complain(ExitCode code, string message)
        {
            terminal.Error.WriteLine(message);
            if (parsed.GetValue(json)) terminal.Out.Write(ConsoleJson.Write(j =>
            {
                j.WriteNumber("exitCode", (int)code);
                j.WriteString("error", message);
            }));
            return (int)code;
        }
    }

    private static string WhatIsWrong(ParseResult parsed)
    {
        string command = parsed.CommandResult.Command is RootCommand ? "edgelens" : $"edgelens {parsed.CommandResult.Command.Name}";
        return string.Join('\n', parsed.Errors.Select(e => e.Message).Distinct()) + $"\n`{command} --help` says what can be given.";
    }
}
