using Xunit;

namespace EdgeLens.Tests.HouseRules;

/// <summary>The places where a rule is broken, all shown in full: a rule that only says "not empty" is no help.</summary>
internal static class Violations
{
    public static void MustBeNone(IEnumerable<string> violations, string rule)
    {
        string[] all = [.. violations];
        if (all.Length > 0) Assert.Fail(rule + "\n" + string.Join('\n', all));
    }
}
