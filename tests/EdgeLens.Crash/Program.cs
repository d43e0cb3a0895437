using System.Globalization;
using System.Security.Cryptography;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Sharpening;
using EdgeLens.Store;
using EdgeLens.Store.Opening;

// A victim: it enters inspections with photographs and sharpenings as fast as it can, and says on its output what the book has acknowledged. It never ends by
// itself; KillTests kills it and looks whether all that it said is there.
string folder = args[0];
int seed = int.Parse(args[1], CultureInfo.InvariantCulture);
Random random = new(seed);
RecordBook book = BookFolder.Open(folder, null, TimeProvider.System);
using StreamWriter acknowledged = new(Console.OpenStandardOutput()) { AutoFlush = true };
for (int i = 0; ; i++)
{
    if (i % 4 == 3)
    {
        long id = book.Append(new SharpeningRow { By = "MK", Instrument = "C-07", End = 1, Day = new(2025, 1, 1), Strokes = 1 + i % 1000 })[0].Id;
        acknowledged.WriteLine(FormattableString.Invariant($"sharpening {id} {1 + i % 1000}"));
        continue;
    }
    byte[][] photographs = [Photograph(), Photograph()];
    string[] names = [.. photographs.Select(p => Convert.ToHexStringLower(SHA256.HashData(p)))];
    InspectionEntry stored = book.Append(new NewInspection(
        new()
        {
            By = "MK",
            Instrument = "C-07",
            End = 1,
            Day = new(2025, 1, 1),
            ProgramVersion = "0",
            PolicyName = "p",
            PolicyFingerprint = "f",
            Verdict = VerdictKind.Keep,
            Headline = "h",
            Reasons = "r",
            NextSteps = "n",
            Origin = FigureOrigin.Photographs,
        },
        [.. Enumerable.Range(0, 30).Select(k => new FigureRow { Position = k, Name = "widthMm", Unit = "mm", Value = seed + i + k / 30.0, StandardUncertainty = 0.01 })],
        [.. photographs.Select((bytes, k) => new NewPhotograph(new PhotographRow { Position = k, FileName = "p.jpg", Sha256 = names[k], View = PhotographView.Face }, bytes))],
        new InspectionDocument { JsonGzip = InspectionDocument.Pack($"{{ \"seed\": {seed} }}") }));
    acknowledged.WriteLine(FormattableString.Invariant($"inspection {stored.Id} {seed + i} {names[0]} {names[1]}"));
}

byte[] Photograph()
{
    byte[] bytes = new byte[random.Next(10_000, 200_000)];
    random.NextBytes(bytes);
    return bytes;
}
