using System.Collections.Immutable;
using EdgeLens.Assessment.Trend;
using EdgeLens.Tests.Fitting;

namespace EdgeLens.Tests.Trend;

/// <summary>A working end whose wear is made, with known rates, scatter and errors of measuring.</summary>
internal sealed record MadeHistory
{
    public static readonly DateTime AsNew = new(2025, 1, 10);

    /// <summary>Per sharpening, µm.</summary>
    public double StepUm { get; init; } = 40;

    public double StepScatterUm { get; init; } = 12;

    /// <summary>Per light case, µm.</summary>
    public double CaseUm { get; init; } = 0.5;

    public double OwnUm { get; init; } = 4;

    public double SharedUm { get; init; } = 3;

    public int Inspections { get; init; } = 6;

    /// <summary>Days from one inspection to the next; a sharpening lies in the middle, and uses before and after it.</summary>
    public int Days { get; init; } = 60;

    /// <summary>Light and heavy cases before each inspection, in turn.</summary>
    public ImmutableArray<(int Light, int Heavy)> Cases { get; init; } = [(10, 1), (4, 6), (20, 0), (2, 2)];

    public ImmutableArray<string> Hands { get; init; } = ["AB"];

    /// <summary>Further loss that each person's sharpening takes, µm, in the order of <see cref="Hands"/>.</summary>
    public ImmutableArray<double> HandUm { get; init; } = [0];

    /// <summary>Made history and the true loss at the last inspection and after one sharpening more (no use in between).</summary>
    public (WearHistory History, double LastUm, double NextUm) Make(Random random)
    {
        List<WearObservation> seen = [];
        List<UseEntry> uses = [];
        List<SharpeningEntry> sharpenings = [];
        double loss = 0, shared = SharedUm * Noise.Normal(random);
        for (int i = 1; i <= Inspections; i++)
        {
            DateTime when = AsNew.AddDays(Days * i);
            (int light, int heavy) = Cases[(i - 1) % Cases.Length];
            int hand = random.Next(Hands.Length);
            uses.Add(new(when.AddDays(-Days + 5), light, heavy));
            sharpenings.Add(new(when.AddDays(-Days / 2), Hands[hand]));
            loss += StepUm + HandUm[hand] + StepScatterUm * Noise.Normal(random) + CaseUm * (light + 2.5 * heavy);
            seen.Add(new(when, new(loss + shared + OwnUm * Noise.Normal(random), Math.Sqrt(OwnUm * OwnUm + SharedUm * SharedUm)), SharedUm, "1.0"));
        }
        return (new(new("meanEdgeLossUm", "µm"), AsNew, [.. seen], [.. uses], [.. sharpenings]), loss, loss + StepUm + HandUm.Average() + StepScatterUm * Noise.Normal(random));
    }
}
