using EdgeLens.Assessment.Policies;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Policies;

public sealed class PolicyPageTests
{
    private static readonly string Page = Repository.ReadText("docs/policy.md");

    [Fact]
    public void The_page_shows_the_policy_that_is_shipped() => Assert.Contains($"```json\n{Policy.DefaultJson.TrimEnd()}\n```", Page, StringComparison.Ordinal);

    [Fact]
    public void The_page_explains_every_limit_with_the_range_that_is_checked() =>
        Assert.All(Policy.Default.Reasons.Keys, name =>
        {
            string row = Assert.Single(Page.Split('\n'), l => l.StartsWith($"| `{name}` |", StringComparison.Ordinal));
            string range = row.Split('|')[3].Trim();
            // The reader names the range when a value is out of it.
            string broken = Policy.DefaultJson.Replace($"    \"{name}\": ", $"    \"{name}\": 1e9, \"unused\": ", StringComparison.Ordinal);
            Assert.Contains($"limits.{name}: must be a number from {range}", PolicyReader.Read(broken).Refusal!.Reason, StringComparison.Ordinal);
        });
}
