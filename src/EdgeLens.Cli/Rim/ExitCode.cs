namespace EdgeLens.Cli.Rim;

/// <summary>What the program ends with. When several hold, the highest.</summary>
public enum ExitCode
{
    /// <summary>Everything was done.</summary>
    Done = 0,

    /// <summary>The command line is wrong; nothing was done.</summary>
    WrongArguments = 1,

    /// <summary>A photograph, or the comparison of two, was refused; everything else was done.</summary>
    Refused = 2,

    /// <summary>A file cannot be read or written, or is not in the right form.</summary>
    File = 3,

    /// <summary>The program broke down: a mistake of ours or a machine that lacks something.</summary>
    BrokeDown = 4,
}
