using System.CommandLine;
using EdgeLens.Cli.Rim;
using EdgeLens.Records.Instruments;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book retire</c> and <c>edgelens book state</c>.</summary>
internal static class StateCommands
{
    public static Command Retire(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> instrument = new("INSTRUMENT");
        Option<string?> reason = new("--reason") { Description = "Why.", Required = true };
        Option<string?> day = new("--day") { Description = "When; today without it.", HelpName = "yyyy-MM-dd" };
        Command command = new("retire", "Takes an instrument out of use for good; its history stays.") { instrument, reason, day };
        return Entering(command, terminal, json, options, instrument, day, reason, _ => InstrumentState.Retired, _ => "retired");
    }

    public static Command SetState(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> instrument = new("INSTRUMENT"), state = new("STATE") { Description = "in-use or at-sharpening." };
        state.AcceptOnlyFromAmong("in-use", "at-sharpening");
        Option<string?> reason = new("--reason") { Description = "Why." }, day = new("--day") { Description = "When; today without it.", HelpName = "yyyy-MM-dd" };
        Command command = new("state", "Says that an instrument is in use (again) or away to be sharpened.") { instrument, state, reason, day };
        return Entering(command, terminal, json, options, instrument, day, reason, parsed => parsed.GetValue(state) == "in-use" ? InstrumentState.InUse : InstrumentState.AtSharpening, parsed => parsed.GetValue(state)!);
    }

    /// <summary>Both enter one change of state.</summary>
    private static Command Entering(
        Command command, Terminal terminal, Option<bool> json, BookOptions options, Argument<string> instrument, Option<string?> day, Option<string?> reason,
        Func<ParseResult, InstrumentState> state, Func<ParseResult, string> words)
    {
        options.AddCorrectionTo(command);
        command.Does(parsed => BookCommand.Entered(
            terminal, parsed.GetValue(json),
            options.Open(parsed, terminal).Append(options.Corrected(parsed, new StateChange
            {
                By = options.By(parsed),
                Instrument = parsed.GetRequiredValue(instrument),
                Day = BookOptions.Day(parsed.GetValue(day), terminal.Today),
                State = state(parsed),
                Reason = parsed.GetValue(reason),
            }))[0],
            $"{parsed.GetValue(instrument)} is {words(parsed)}"));
        return command;
    }
}
