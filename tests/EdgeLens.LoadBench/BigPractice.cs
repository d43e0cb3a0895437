using System.Collections.Immutable;
using System.Security.Cryptography;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;
using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;
using EdgeLens.Store;

namespace EdgeLens.LoadBench;

/// <summary>
/// An invented practice of any size: curettes that are each inspected twenty times in two years, sharpened at every second inspection and then retired. The last of them, about 300, are in use.
/// </summary>
/// <param name="inspections">In all, over all years.</param>
/// <param name="seed">Of the scatter.</param>
internal sealed class BigPractice(int inspections, int seed)
{
    private const int FiguresEach = 40, Cassettes = 10, BatchSize = 500, Life = 20, LifeDays = 730, InUse = 300;
    private readonly int _instruments = inspections / Life;
    private readonly Random _random = new(seed);

    // As large as a packed document of a demo inspection: 90 kB would make 9 GB, so that only one in ten is; the others are small.
    private readonly byte[] _document = Packed(90_000, seed), _smallDocument = Packed(2_000, seed);

    public DateOnly LastDay { get; } = new(2025, 12, 31);

    /// <summary>One that is in use.</summary>
    public string Sample => Code(_instruments - 7);

    private static string Code(int instrument) => FormattableString.Invariant($"C-{instrument:00000}");

    public void Fill(RecordBook book)
    {
        List<Entry> rows = [new Practice { By = "DEMO", Name = "Load (invented)", Currency = "EUR", IsDemo = true }];
        for (int c = 0; c < Cassettes; c++) rows.Add(new Cassette { By = "DEMO", Code = $"K{c}", Name = $"Cassette {c}" });
        for (int i = 0; i < _instruments; i++)
        {
            rows.Add(new Instrument { By = "DEMO", Code = Code(i), Price = 48, PurchasedOn = Day(i, 0) });
            rows.Add(new WorkingEnd { By = "DEMO", Instrument = Code(i), End = 1, Family = InstrumentFamily.UniversalCurette });
            rows.Add(new Placement { By = "DEMO", Instrument = Code(i), Cassette = $"K{i % Cassettes}", Day = Day(i, 0) });
            for (int k = 1; k < Life; k += 2) rows.Add(new SharpeningRow { By = "DEMO", Instrument = Code(i), End = 1, Day = Day(i, k), SharpenedBy = "AB", Strokes = 12 });
            if (i < _instruments - InUse) rows.Add(new StateChange { By = "DEMO", Instrument = Code(i), Day = Day(i, Life), State = InstrumentState.Retired, Reason = "worn" });
        }
        for (int month = 0; month < 120; month++)
            for (int c = 0; c < Cassettes; c++) rows.Add(new Procedure { By = "DEMO", Cassette = $"K{c}", Day = LastDay.AddMonths(month - 120), LightCases = 20, HeavyCases = 5 });
        book.Append([.. rows]);
        int count = Life * _instruments;
        for (int from = 0; from < count; from += BatchSize)
            book.Append([.. Enumerable.Range(from, Math.Min(BatchSize, count - from)).Select(n => Inspection(n / Life, n % Life, [], n % 10 == 0 ? _document : _smallDocument))]);
    }

    /// <summary>One more, with a photograph.</summary>
    public NewInspection Next(int number)
    {
        byte[] photograph = new byte[1_000_000];
        _random.NextBytes(photograph);
        NewPhotograph added = new(new PhotographRow { FileName = "face.jpg", View = PhotographView.Face, Sha256 = Convert.ToHexStringLower(SHA256.HashData(photograph)) }, photograph);
        return Inspection(_instruments - 1 - number % InUse, Life, [added], _document);
    }

    // Bought one after the other, so that the last ones are in the middle of their lives.
    private DateOnly Day(int instrument, int k) => LastDay.AddDays(-LifeDays + LifeDays * k / Life - 2 * Math.Max(0, _instruments - InUse - instrument));

    private NewInspection Inspection(int instrument, int k, ImmutableArray<NewPhotograph> photographs, byte[] document)
    {
        double loss = 1.5 * (k / 2) * (0.8 + instrument % 5 * 0.1) + 0.4 * _random.NextDouble();
        return new(
            new()
            {
                By = "DEMO",
                Instrument = Code(instrument),
                End = 1,
                Day = Day(instrument, k),
                IsAsNew = k == 0,
                ProgramVersion = "bench",
                PolicyName = "bench",
                PolicyFingerprint = "bench",
                Verdict = loss > 20 ? VerdictKind.Retire : k % 2 == 1 ? VerdictKind.Resharpen : VerdictKind.Keep,
                Headline = "Invented",
                Reasons = "Invented for a measurement of speed: one sentence of the usual length, with a figure in it.",
                NextSteps = "None.",
                Origin = FigureOrigin.Invented,
            },
            [.. Enumerable.Range(0, FiguresEach).Select(p => FigureRow.Of(
                p == 0 ? InspectionFigures.JudgedWidthLossPercent : p == 1 ? InspectionFigures.LengthLossMm : "widthMm", p == 0 ? "%" : "mm", new Measured(p == 0 ? loss : p == 1 ? loss / 50 : 1, p == 0 ? 0.5 : 0.02), null, p, 0.01) with { Position = p })],
            photographs, new InspectionDocument { JsonGzip = document });
    }

    private static byte[] Packed(int bytes, int seed)
    {
        Random random = new(seed);
        // Digits pack to a little less than half: as many as it takes for the size that is wanted.
        char[] digits = new char[bytes * 9 / 4];
        for (int i = 0; i < digits.Length; i++) digits[i] = (char)('0' + random.Next(10));
        return InspectionDocument.Pack($"{{ \"digits\": \"{new string(digits)}\" }}");
    }
}
