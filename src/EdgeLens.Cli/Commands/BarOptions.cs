using System.CommandLine;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Rim;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;

namespace EdgeLens.Cli.Commands;

/// <summary>The two bars of the printed card as measured by caliper.</summary>
/// <param name="prefix">"" or "baseline-".</param>
/// <param name="whose">For the help.</param>
internal sealed class BarOptions(string prefix, string whose)
{
    private readonly Option<double?> _x = new($"--{prefix}bar-x") { Description = $"Length of the horizontal bar of {whose} as measured with a caliper. Without both bars widths are known to about 1 % less surely.", HelpName = "mm" };
    private readonly Option<double?> _y = new($"--{prefix}bar-y") { Description = $"Length of the vertical bar of {whose} as measured with a caliper.", HelpName = "mm" };

    public void AddTo(Command command)
    {
        command.Options.Add(_x);
        command.Options.Add(_y);
    }

    public bool IsGiven(ParseResult parsed) => parsed.GetValue(_x) is not null || parsed.GetValue(_y) is not null;

    /// <summary>Null when they were not measured.</summary>
    public PrintMeasurement? Of(ParseResult parsed, CardDescription card)
    {
        if (!IsGiven(parsed)) return null;
        if (parsed.GetValue(_x) is not { } x || parsed.GetValue(_y) is not { } y) throw new RimException(ExitCode.WrongArguments, $"{_x.Name} and {_y.Name} must be given together.");
        if (CaliperReadings.Complaint(card, x, y) is { } complaint) throw new RimException(ExitCode.WrongArguments, $"{_x.Name} and {_y.Name}: the pair {complaint}.");
        return PrintMeasurement.FromReadings(x, y);
    }
}
