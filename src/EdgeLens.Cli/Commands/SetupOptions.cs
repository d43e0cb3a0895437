using System.CommandLine;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cli.Commands;

/// <summary>The files that hold for all photographs of a command.</summary>
internal sealed class SetupOptions
{
    private readonly Option<string?> _card = new("--card") { Description = "Description of another card than the one that comes with the program.", HelpName = "FILE" };
    private readonly Option<string?> _lens = new("--lens") { Description = "Profile of the phone and loupe, made by `edgelens lens`.", HelpName = "FILE" };
    private readonly Option<string?> _policy = new("--policy") { Description = "Limits of your practice (docs/policy.md).", HelpName = "FILE" };

    private readonly Option<bool> _budget = new("--budget") { Description = "End each report with where its uncertainties come from." };

    /// <summary>Adds <c>--budget</c>, to commands that write inspection reports.</summary>
    public void AddBudgetTo(Command command) => command.Options.Add(_budget);

    public bool ShowsBudgets(ParseResult parsed) => parsed.GetValue(_budget);

    public void AddTo(Command command)
    {
        foreach (Option option in (Option[])[_card, _lens, _policy]) command.Options.Add(option);
    }

    public string? CardPath(ParseResult parsed) => parsed.GetValue(_card);

    public CardDescription Card(ParseResult parsed) => InputFile.Card(parsed.GetValue(_card));

    /// <summary>Whose limits.</summary>
    public Policy Policy(ParseResult parsed) => InputFile.Policy(parsed.GetValue(_policy));

    /// <summary>What measures the photographs.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="card">In the photographs.</param>
    /// <param name="terminal">For complaints.</param>
    /// <param name="registers">As <see cref="ViewReader.Registers"/>.</param>
    public ViewReader Reader(ParseResult parsed, CardDescription card, Terminal terminal, bool registers = false)
    {
        LensProfile? lens = InputFile.Lens(parsed.GetValue(_lens));
        if (lens?.VerificationDue is { } due && due < terminal.Today)
            terminal.Error.WriteLine(FormattableString.Invariant($"The lens profile {lens.Name} was due for verification by {due:yyyy-MM-dd}: see docs/verification.md."));
        return new(card, lens, Policy(parsed), terminal.Error.WriteLine) { Registers = registers };
    }

    /// <summary>What measures and judges the photographs.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="card">In the photographs.</param>
    /// <param name="terminal">For progress.</param>
    /// <param name="photographs">How many there will be.</param>
    public WorkingEndInspector Inspector(ParseResult parsed, CardDescription card, Terminal terminal, int photographs)
    {
        int done = 0;
        return new(
            Reader(parsed, card, terminal), Policy(parsed),
            path => terminal.Error.WriteLine(FormattableString.Invariant($"[{++done}/{photographs}] {path}")));
    }
}
