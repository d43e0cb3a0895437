using System.Collections.Immutable;
using System.Text;
using EdgeLens.Assessment.Instruments;

namespace EdgeLens.Assessment.Policies;

/// <summary>The limits of a practice. Every verdict names the policy that it was made by.</summary>
/// <param name="Name">For people; stands in every report.</param>
/// <param name="Limits">One set for each of the six families, in their order.</param>
/// <param name="Reasons">Why a limit is what it is, by its name in the file; may lack some or all.</param>
public sealed record Policy(string Name, ImmutableArray<PolicyLimits> Limits, ImmutableSortedDictionary<string, string> Reasons)
{
    private static readonly Lazy<Policy> Shipped = new(() => PolicyReader.Read(DefaultJson).Value);

    /// <summary>The policy that EdgeLens ships: common practice where there is one, physics where there is not.</summary>
    public static Policy Default => Shipped.Value;

    /// <summary>The text of the default policy: a practice's own policy starts as a copy of it.</summary>
    public static string DefaultJson
    {
        get
        {
            using Stream stream = typeof(Policy).Assembly.GetManifestResourceStream("default-policy.json")!;
            byte[] utf8 = new byte[stream.Length];
            stream.ReadExactly(utf8);
            return Encoding.UTF8.GetString(utf8);
        }
    }

    /// <summary>The limits of a family.</summary>
    public PolicyLimits For(InstrumentFamily family) => Limits[(int)family];
}
