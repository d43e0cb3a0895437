using System.Diagnostics;
using System.Globalization;
using EdgeLens.Assessment.Policies;
using EdgeLens.LoadBench;
using EdgeLens.PracticeReports.Content;
using EdgeLens.PracticeReports.Html;
using EdgeLens.PracticeReports.Pdf;
using EdgeLens.PracticeReports.Reports;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Review;
using EdgeLens.Store;
using EdgeLens.Store.Opening;

// Speed of a large book and of the web app; what is printed is what DEVELOPERS.md and docs/web.md state.
// dotnet run -c Release --project tests/EdgeLens.LoadBench -- FOLDER [INSPECTIONS]   fills a book with invented inspections (or takes one that was filled), then adds and reports
// ... -- web FOLDER      every page of the web app over that book
// ... -- upload          from upload to verdict, photographs of demo-images
// ... -- phones          twenty uploads at once
switch (args.FirstOrDefault())
{
    case "web" when args.Length == 2: return await WebPages.Run(args[1]);
    case "upload": return await WebUploads.Run();
    case "phones": return await WebUploads.RunPhones();
    case null or "web":
        Console.Error.WriteLine("Give a FOLDER for the book, and if you like how many inspections (100000); or: web FOLDER, upload, phones.");
        return 1;
}
string folder = args[0];
int inspections = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 100_000;
bool isNew = !File.Exists(Path.Combine(folder, BookFolder.SettingsFile));
string? server = Environment.GetEnvironmentVariable("EDGELENS_DATABASE");
RecordBook book = isNew ? BookFolder.Create(folder, "LOAD", server, TimeProvider.System) : BookFolder.Open(folder, server, TimeProvider.System);
BigPractice practice = new(inspections, seed: 1);
if (isNew) Timed($"fill with {inspections} inspections", () => practice.Fill(book));

List<double> adding = [];
TimeSpan busy = Busy();
for (int i = 0; i < 200; i++)
{
    NewInspection next = practice.Next(i);
    long start = Stopwatch.GetTimestamp();
    book.Append(next);
    adding.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
}
double busyEach = (Busy() - busy).TotalMilliseconds / adding.Count;
adding.Sort();
Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
    $"add one inspection with a photograph of 1 MB, 200 times: median {adding[100]:0.0} ms, 95 % {adding[190]:0.0} ms, longest {adding[^1]:0.0} ms; processor {busyEach:0.0} ms each, making the photograph included"));

ReportSource source = new(book, Policy.Default, practice.LastDay, "bench");
foreach (string turn in (string[])["first", "again"])
{
    PracticeFile? file = null;
    Timed($"read the instruments in use ({turn})", () => file = PracticeFile.Read(book, WearSeries.FigureNames));
    Timed($"plan them ({turn})", () => PracticeReview.Of(file!, source.Policy, source.Day, source.Planning));
    Report($"instrument report ({turn})", () => InstrumentReport.Build(source, practice.Sample, withUncertainty: true));
    Report($"cassette report ({turn})", () => ReviewReport.OfCassette(source, "K1"));
    Report($"practice review ({turn})", () => ReviewReport.OfPractice(source));
    Report($"sharpening work list ({turn})", () => WorkListReport.Build(source));
}
return 0;

static void Report(string name, Func<PracticeReport> build)
{
    TimeSpan busy = Busy();
    long start = Stopwatch.GetTimestamp();
    PracticeReport report = build();
    double built = Stopwatch.GetElapsedTime(start).TotalSeconds;
    int html = HtmlReport.Write(report).Length;
    double page = Stopwatch.GetElapsedTime(start).TotalSeconds;
    using MemoryStream pdf = new();
    PdfReport.Write(pdf, report, Paper.A4);
    double printed = Stopwatch.GetElapsedTime(start).TotalSeconds;
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"{name}: {built:0.00} s read and planned, {page - built:0.00} s HTML ({html / 1000} kB), {printed - page:0.00} s PDF ({pdf.Length / 1000} kB); processor {(Busy() - busy).TotalSeconds:0.00} s"));
}

// On a machine that others use too, the processor's time says more than the clock's.
static TimeSpan Busy() => Process.GetCurrentProcess().TotalProcessorTime;

static void Timed(string name, Action work)
{
    long start = Stopwatch.GetTimestamp();
    TimeSpan busy = Busy();
    work();
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: {Stopwatch.GetElapsedTime(start).TotalSeconds:0.00} s; processor {(Busy() - busy).TotalSeconds:0.00} s"));
}
