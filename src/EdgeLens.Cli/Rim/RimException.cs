namespace EdgeLens.Cli.Rim;

/// <summary>Ends a command with a text for the user and an exit code.</summary>
/// <param name="code">Not <see cref="ExitCode.Done"/>.</param>
/// <param name="message">What, where, what to do.</param>
/// <param name="inner">Where it came from.</param>
public sealed class RimException(ExitCode code, string message, Exception? inner = null) : Exception(message, inner)
{
    /// <summary>What the program ends with.</summary>
    public ExitCode Code => code;
}
