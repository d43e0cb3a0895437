using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;
using Xunit;

namespace EdgeLens.Tests.Policies;

public sealed class PolicyReaderTests
{
    [Fact]
    public void The_default_policy_retires_at_a_fifth_and_watches_from_a_tenth_of_the_width() // common practice
    {
        PolicyLimits limits = Policy.Default.For(InstrumentFamily.UniversalCurette);

        Assert.Equal(10, limits.WidthLossWatchPercent);
        Assert.Equal(20, limits.WidthLossRetirePercent);
    }

    [Theory]
    [InlineData(InstrumentFamily.Luxator)]
    [InlineData(InstrumentFamily.StraightElevator)]
    [InlineData(InstrumentFamily.WingedElevator)]
    public void Where_only_the_tip_cuts_the_default_policy_judges_length_and_not_width(InstrumentFamily family)
    {
        PolicyLimits limits = Policy.Default.For(family);

        Assert.Null(limits.WidthLossRetirePercent);
        Assert.Equal(1.5, limits.LengthLossRetireMm);
        Assert.Equal(4, limits.SharpLimitUm);
    }

    [Fact]
    public void The_default_sharp_limit_stands_for_about_twice_the_radius_of_a_sharp_edge()
    {
        // Mirror reflection on a cylinder of radius r, seen from straight above the face: the facet whose normal is turned by a from the face's
        // normal mirrors the direction 2a. A panel from 38 - 23.5 to 38 + 23.5 degrees above the face thus fills the facets from
        // (90 - 61.5)/2 to (90 - 14.5)/2, and the line is r (sin of the one less sin of the other) wide.
        static double Sine(double deg) => Math.Sin(deg * Math.PI / 180);
        double lineOverRadius = Sine((90 - 14.5) / 2) - Sine((90 - 61.5) / 2);

        double radiusUm = Policy.Default.For(InstrumentFamily.UniversalCurette).SharpLimitUm / lineOverRadius;

        Assert.Equal(0.37, lineOverRadius, 0.005);
        Assert.InRange(radiusUm, 2 * 5, 2.5 * 5); // an edge is called sharp up to about 5 µm: common practice
    }

    [Fact]
    public void The_default_width_for_resharpening_takes_more_metal_than_the_nick_that_calls_for_it()
    {
        // Rounding of radius r between two flats that meet at 75°: it touches the face r / tan(75°/2) behind the lost corner. Moving the lateral
        // surface in by d moves the corner along the face by d / sin 75°, so fresh steel is reached at d = r sin 75° / tan 37.5° = 1.26 r.
        double metalOverRadius = Math.Sin(75 * Math.PI / 180) / Math.Tan(37.5 * Math.PI / 180);
        PolicyLimits limits = Policy.Default.For(InstrumentFamily.UniversalCurette);
        double radiusUm = limits.ReflectionWidthResharpenUm!.Value / 0.37;

        Assert.Equal(1.26, metalOverRadius, 0.005);
        Assert.InRange(metalOverRadius * radiusUm, limits.NickResharpenUm!.Value, 1.25 * limits.NickResharpenUm.Value);
    }

    [Fact]
    public void Every_default_limit_has_its_reason() =>
        Assert.All(typeof(PolicyLimits).GetProperties(), p => Assert.Contains(char.ToLowerInvariant(p.Name[0]) + p.Name[1..], Policy.Default.Reasons.Keys));

    [Fact]
    public void A_family_changes_single_limits_and_keeps_the_others()
    {
        Policy policy = PolicyReader.Read(Changed("\"families\": {", "\"families\": { \"universal-curette\": { \"sharpLimitUm\": 6 },")).Value;

        Assert.Equal(6, policy.For(InstrumentFamily.UniversalCurette).SharpLimitUm);
        Assert.Equal(20, policy.For(InstrumentFamily.UniversalCurette).WidthLossRetirePercent);
        Assert.Equal(4, policy.For(InstrumentFamily.AreaSpecificCurette).SharpLimitUm);
    }

    [Theory]
    [InlineData("\"nickTouchUpUm\": 20", "\"nickTouchUpUm\": -3", 9, "limits.nickTouchUpUm", "20 to 1000")]
    [InlineData("\"nickTouchUpUm\": 20", "\"nickTouchUpUm\": \"deep\"", 9, "limits.nickTouchUpUm", "number")]
    [InlineData("\"nickTouchUpUm\": 20", "\"nickTouchUpUm\": true", 9, "limits.nickTouchUpUm", "number")]
    [InlineData("\"sharpLimitUm\": 4,", "\"sharpLimitUm\": null,", 5, "limits.sharpLimitUm", "number")]
    [InlineData("\"sharpLimitUm\": 4,", "", 4, "limits.sharpLimitUm", "missing")]
    [InlineData("\"nickTouchUpUm\"", "\"nickTouchUpMicrons\"", 9, "limits.nickTouchUpMicrons", "unknown")]
    [InlineData("\"nickTouchUpUm\": 20", "\"nickTouchUpUm\": 20, \"nickTouchUpUm\": 25", 9, "limits.nickTouchUpUm", "twice")]
    [InlineData("\"nickTouchUpUm\": 20", "\"nickTouchUpUm\": 40", 9, "limits.nickTouchUpUm", "nickTouchUpUm (40) must be less than nickResharpenUm (30)")]
    [InlineData("\"widthLossRetirePercent\": 20", "\"widthLossRetirePercent\": 2000", 12, "limits.widthLossRetirePercent", "0 to 100")]
    [InlineData("\"name\": \"EdgeLens default\"", "\"name\": \"  \"", 3, "name", "1 to 80")]
    [InlineData("\"schemaVersion\": 1", "\"schemaVersion\": 2", 2, "schemaVersion", "1")]
    [InlineData("\"luxator\"", "\"chisel\"", 25, "families.chisel", "unknown")]
    [InlineData("\"universal-scaler\": {", "\"universal-scaler\": 5, \"universal-curette\": {", 24, "families.universal-scaler", "object")]
    [InlineData("\"lengthLossWatchMm\": 0.45, \"lengthLossRetireMm\": 0.9", "\"lengthLossWatchMm\": 0.85", 24, "families.universal-scaler.lengthLossWatchMm", "0.8")]
    public void What_is_wrong_is_named_with_its_line_and_property(string original, string changed, int line, string property, string fact)
    {
        Refusal refusal = PolicyReader.Read(Changed(original, changed)).Refusal!;

        Assert.Equal("policy-invalid", refusal.Code);
        string complaint = Assert.Single(refusal.Reason.Split('\n'), c => c.StartsWith(FormattableString.Invariant($"line {line}: {property}: "), StringComparison.Ordinal));
        Assert.Contains(fact, complaint, StringComparison.Ordinal);
    }

    [Fact]
    public void All_complaints_come_at_once_in_the_order_of_the_file()
    {
        string json = Changed("\"sharpLimitUm\": 4", "\"sharpLimitUm\": 0").Replace("\"nickResharpenUm\": 30", "\"nickResharpenUm\": 1", StringComparison.Ordinal);

        string[] complaints = PolicyReader.Read(json).Refusal!.Reason.Split('\n');

        Assert.Collection(complaints, c => Assert.StartsWith("line 5: ", c, StringComparison.Ordinal), c => Assert.StartsWith("line 10: ", c, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("", "not JSON")]
    [InlineData("{\n\"name\": \"x\",\n\"limits\" 5}", "line 3: not JSON")]
    [InlineData("[]", "must be an object")]
    [InlineData("{} {}", "not JSON")]
    [InlineData("{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":1}}}}}}}}}}}}}}}}}", "not JSON")]
    public void What_is_not_a_policy_at_all_is_refused(string json, string fact) =>
        Assert.Contains(fact, PolicyReader.Read(json).Refusal!.Reason, StringComparison.Ordinal);

    private static string Changed(string original, string changed)
    {
        Assert.Contains(original, Policy.DefaultJson, StringComparison.Ordinal);
        int at = Policy.DefaultJson.IndexOf(original, StringComparison.Ordinal);
        return Policy.DefaultJson.Remove(at, original.Length).Insert(at, changed);
    }
}
