using System.CommandLine;
using System.Net;
using EdgeLens.Assessment.Policies;
using EdgeLens.Cli.Commands;
using EdgeLens.Cli.Isolation;
using EdgeLens.Cli.Rim;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Store;
using EdgeLens.Web.Serving;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens serve</c>: the web app of one book.</summary>
internal static class ServeCommand
{
    /// <summary>Password of the certificate's file; never on the command line.</summary>
    public const string CertificatePasswordVariable = "EDGELENS_CERTIFICATE_PASSWORD";

    public static Command Create(Terminal terminal)
    {
        BookOptions options = new();
        Option<string> listen = new("--listen") { Description = "Address to listen on: 127.0.0.1 (this machine only), one of the machine's addresses, or 0.0.0.0. Beyond this machine only over HTTPS.", DefaultValueFactory = _ => "127.0.0.1", HelpName = "ADDRESS" };
        Option<int> port = new("--port") { Description = "Port; 0 for any free one.", DefaultValueFactory = _ => 8370 };
        Option<string?> certificate = new("--certificate") { Description = $"Your certificate with its key as a PFX file; its password in the variable {CertificatePasswordVariable}. Without it the server makes one.", HelpName = "FILE" };
        Option<string[]> names = new("--host-name") { Description = "Name by which browsers call this server, besides its addresses and the machine's name.", HelpName = "NAME", AllowMultipleArgumentsPerToken = true };
        Option<bool> measuring = new("--measuring") { Description = "For the server's own use: measures what it is told to on standard input.", Hidden = true };
        BarOptions bars = new("", "the practice's card");
        SetupOptions setup = new();
        Command command = new("serve", "Serves the web app of a book to this machine or, over HTTPS, to the paired phones of the practice (docs/web.md).") { listen, port, certificate, names, measuring };
        options.AddTo(command);
        bars.AddTo(command);
        setup.AddTo(command);
        command.Does(parsed =>
        {
            RecordBook book = options.Open(parsed, terminal);
            if (!IPAddress.TryParse(parsed.GetRequiredValue(listen), out IPAddress? address)) throw new RimException(ExitCode.WrongArguments, "--listen takes an address, for example 127.0.0.1 or 0.0.0.0.");
            if (parsed.GetValue(port) is < 0 or > 65535) throw new RimException(ExitCode.WrongArguments, "--port must be from 0 to 65535.");
            CardDescription card = setup.Card(parsed);
            PrintMeasurement? print = bars.Of(parsed, card);
            Policy policy = setup.Policy(parsed);
            TextWriter console = TextWriter.Synchronized(terminal.Error);
            CaptureMeasurer measurer = new(book, policy, setup.Reader(parsed, card, terminal with { Error = console }, registers: true), print);
            if (parsed.GetValue(measuring))
            {
                MeasuringWorker.Run(measurer, Console.OpenStandardInput(), Console.OpenStandardOutput());
                return (int)ExitCode.Done;
            }
            using MeasuringProcesses processes = new([.. parsed.Tokens.Select(t => t.Value), measuring.Name], MeasuringLimits.Default, console.WriteLine);
            WebServer.Run(new()
            {
                Book = book,
                BookFolder = options.Folder(parsed),
                Policy = policy,
                Measure = processes.Measure,
                Prepare = processes.Prepare,
                Register = processes.Register,
                ProgramVersion = Terminal.ProgramVersion,
                Clock = terminal.Clock,
                Say = console.WriteLine,
                Address = address,
                Port = parsed.GetValue(port),
                CertificatePath = parsed.GetValue(certificate),
                CertificatePassword = Environment.GetEnvironmentVariable(CertificatePasswordVariable),
                HostNames = parsed.GetValue(names) ?? [],
            });
            return (int)ExitCode.Done;
        });
        return command;
    }
}
