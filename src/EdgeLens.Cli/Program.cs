using System.Text;
using EdgeLens.Cli.Commands;
using EdgeLens.Cli.Rim;

// Figures are written with µ and ±, whatever the console is set to.
Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
return CommandLine.Run(args, new Terminal(Console.Out, Console.Error, TimeProvider.System));
