using System.Collections.Immutable;
using EdgeLens.Accuracy.Comparing;
using EdgeLens.Accuracy.Statistics;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Accuracy.Running;

/// <summary>All that the bench found.</summary>
/// <param name="Good">Photographs that should be measured, in the set's order.</param>
/// <param name="ToRefuse">Photographs that should be refused.</param>
public sealed record BenchRun(ImmutableArray<GoodPhoto> Good, ImmutableArray<BadPhoto> ToRefuse)
{
    /// <summary>Family of a row that sums up all.</summary>
    public const string AllFamilies = "all";

    /// <summary>Photographs given to the program.</summary>
    public int PhotoCount => Good.Length + ToRefuse.Length;

    /// <summary>Median over all photographs; null without any.</summary>
    public double? MedianSeconds
    {
        get
        {
            double[] sorted = [.. Good.Select(photo => photo.Reply.Seconds).Concat(ToRefuse.Select(photo => photo.Reply.Seconds)).Order()];
            return sorted.Length == 0 ? null : (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
        }
    }

    /// <summary>Photographs on which the program threw.</summary>
    public ImmutableArray<(string File, Refusal Crash)> Crashes =>
    [
        .. Good.Select(photo => (photo.File, photo.Reply.Refusal)).Concat(ToRefuse.Select(photo => (photo.File, photo.Reply.Refusal)))
            .Where(photo => photo.Refusal?.Code == Reply.CrashCode).Select(photo => (photo.File, photo.Refusal!)),
    ];

    /// <summary>How well the radius tells dull stretches of edge from sharp ones.</summary>
    public DullnessStatistics Dullness => DullnessStatistics.Of([.. Good.SelectMany(photo => photo.Stretches)]);

    /// <summary>One row per measurand and family, then all families together; nothing where a measurand does not exist.</summary>
    public IEnumerable<MeasurandRow> ByFamily() => Rows(photo => photo.Family, withAll: true);

    /// <summary>One row per measurand and photograph.</summary>
    public IEnumerable<MeasurandRow> ByPhoto() => Rows(photo => photo.File, withAll: false);

    private IEnumerable<MeasurandRow> Rows(Func<GoodPhoto, string> groupOf, bool withAll)
    {
        for (int i = 0; i < Measurands.Rows.Length; i++)
        {
            int measurand = i;
            (string name, string unit) = Measurands.Rows[i];
            foreach (IGrouping<string, GoodPhoto> group in Good.GroupBy(groupOf))
                if (Sum(group) is { } sum) yield return new(name, unit, group.Key, sum);
            if (withAll && Sum(Good) is { } all) yield return new(name, unit, AllFamilies, all);

            ErrorStatistics? Sum(IEnumerable<GoodPhoto> photos)
            {
                ErrorStatistics sum = ErrorStatistics.Of(photos.Select(photo => photo.Comparisons[measurand]));
                return sum is { Count: 0, Missing: 0 } ? null : sum;
            }
        }
    }
}

/// <summary>A photograph that should be measured.</summary>
/// <param name="File">From the set's folder.</param>
/// <param name="Family">Name of the family.</param>
/// <param name="Reply">What the program said.</param>
/// <param name="Comparisons">One for each of <see cref="Measurands.Rows"/>.</param>
/// <param name="Stretches">Its cutting edges in stretches of 0.5 mm, with their radius.</param>
public sealed record GoodPhoto(string File, string Family, Reply Reply, ImmutableArray<Comparison> Comparisons, ImmutableArray<EdgeStretch> Stretches);

/// <summary>A photograph that should be refused.</summary>
/// <param name="File">From the set's folder.</param>
/// <param name="Reason">Code that is right.</param>
/// <param name="Reply">What the program said.</param>
public sealed record BadPhoto(string File, string Reason, Reply Reply)
{
    /// <summary>What happened.</summary>
    public RefusalResult Result => Reply.Refusal is not { } refusal ? RefusalResult.NotRefused : refusal.Code == Reason ? RefusalResult.RightReason : RefusalResult.OtherReason;
}

/// <summary>How a photograph that should be refused fared.</summary>
public enum RefusalResult
{
    /// <summary>Refused for what is wrong with it.</summary>
    RightReason,

    /// <summary>Refused for something else.</summary>
    OtherReason,

    /// <summary>Measured.</summary>
    NotRefused,
}

/// <summary>One line of the result.</summary>
/// <param name="Name">Of the measurand.</param>
/// <param name="Unit">Of its errors.</param>
/// <param name="Group">Family, or photograph.</param>
/// <param name="Statistics">The errors summed up.</param>
public sealed record MeasurandRow(string Name, string Unit, string Group, ErrorStatistics Statistics);
