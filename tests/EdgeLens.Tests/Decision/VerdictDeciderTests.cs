using System.Collections.Immutable;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Drift;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Decision;

public sealed class VerdictDeciderTests
{
    private static readonly FaceMeasurement Curette = SyntheticCases.Sharp.Today();
    private static readonly DriftMeasurement NoDrift = SyntheticCases.Sharp.Drift();
    private static readonly FaceMeasurement Luxator = SyntheticCases.LuxatorLitFromTheSides.Today();

    // Limits of the default policy: touch-up 5 %, resharpen 25 % or 10 µm or a nick of 30 µm, touch-up for a nick of 20 µm; U = 2 u.
    [Theory]
    [InlineData(0, 0.5, 1, 0.5, VerdictKind.Keep)]
    [InlineData(4, 0.5, 6, 0.5, VerdictKind.Keep)]                 // 4 + 1 = 5: still inside
    [InlineData(4.1, 0.5, 6, 0.5, VerdictKind.Retake)]             // 3.1 to 5.1 holds 5
    [InlineData(5.9, 0.5, 6, 0.5, VerdictKind.Retake)]
    [InlineData(6.1, 0.5, 6, 0.5, VerdictKind.TouchUp)]            // 5.1 at least
    [InlineData(20, 2, 7, 1, VerdictKind.TouchUp)]
    [InlineData(24, 2, 7, 1, VerdictKind.TouchUp)]                // clear of 5, not of 25
    [InlineData(29.1, 2, 7, 1, VerdictKind.Resharpen)]
    [InlineData(10, 1, 12.1, 1, VerdictKind.Resharpen)]            // a short stretch, but rounded too far for light strokes
    [InlineData(10, 1, 11.9, 1, VerdictKind.TouchUp)]
    public void Light_on_an_edge_decides_only_where_it_is_clear_of_its_limit(double fraction, double u, double width, double widthU, VerdictKind expected)
    {
        FaceMeasurement today = WithLight(Curette, EdgePart.Left, new Measured(fraction, u), new Measured(width, widthU));

        Assert.Equal(expected, VerdictDecider.Decide(today, NoDrift, Policy.Default).Kind);
    }

    [Theory]
    [InlineData(22, 2, VerdictKind.Retake)]
    [InlineData(26, 2, VerdictKind.TouchUp)]
    [InlineData(33, 2, VerdictKind.TouchUp)]
    [InlineData(35, 2, VerdictKind.Resharpen)]
    public void A_nick_decides_by_its_depth(double depthUm, double u, VerdictKind expected) =>
        Assert.Equal(expected, VerdictDecider.Decide(Curette with { Nicks = [NickOn(EdgePart.Right, depthUm, u)] }, NoDrift, Policy.Default).Kind);

    [Fact]
    public void Many_nicks_of_one_edge_make_one_reason_and_all_of_them_stay_in_the_comparisons()
    {
        Nick[] nicks = [.. new[] { 40.0, 90, 60 }.Select((depth, i) => NickOn(EdgePart.Right, depth, 2) with { StationMm = 1 + i }), NickOn(EdgePart.Left, 50, 2)];

        Verdict verdict = VerdictDecider.Decide(Curette with { Nicks = [.. nicks] }, NoDrift, Policy.Default);

        VerdictReason right = Assert.Single(verdict.Reasons, r => r.Check is { What: CheckedFigure.NickDepth, Part: EdgePart.Right });
        Assert.Contains("a nick 90.0 ± 4.0 µm deep, 2.00 mm from the toe and 2 more there, clear above", right.Words, StringComparison.Ordinal);
        Assert.Equal(4, verdict.Checks.Count(c => c is { What: CheckedFigure.NickDepth, Role: LimitRole.Resharpen }));
    }

    [Theory]
    [InlineData("The bright line is clipped: expose less.")]
    [InlineData("the bright line is clipped: expose less")]
    public void Why_something_is_missing_is_told_as_part_of_the_reason(string why)
    {
        Verdict verdict = VerdictDecider.Decide(WithLight(Curette, EdgePart.Right, Figure.Missing(why), Figure.Missing(why)), NoDrift, Policy.Default);

        Assert.Equal("Right edge: the light cannot show it (the bright line is clipped: expose less).", verdict.Reasons[0].Words);
    }

    [Theory]
    [InlineData(5, 1, VerdictKind.Keep, "Keep in use")]
    [InlineData(11, 1, VerdictKind.Keep, "Keep in use")]           // watching is not decidable
    [InlineData(15, 1, VerdictKind.Keep, "Keep in use and watch the wear")]
    [InlineData(21.9, 1, VerdictKind.Keep, "Keep in use and watch the wear")] // 19.9 to 23.9: never retired on that
    [InlineData(22.1, 1, VerdictKind.Retire, "Retire this working end")]
    public void Width_loss_retires_only_when_clear_of_its_limit(double percent, double u, VerdictKind expected, string headline)
    {
        Verdict verdict = VerdictDecider.Decide(Curette, WithWidthLoss(2, percent, u), Policy.Default);

        Assert.Equal((expected, headline), (verdict.Kind, verdict.Headline));
    }

    [Fact]
    public void A_loss_too_near_to_its_limit_says_what_would_decide()
    {
        Verdict verdict = VerdictDecider.Decide(Curette, WithWidthLoss(2, 21, 1), Policy.Default);

        VerdictReason open = Assert.Single(verdict.Reasons, r => r.Open is { Role: LimitRole.Retire, What: CheckedFigure.WidthLoss });
        Assert.Equal((Conformity.Outside, Conformity.NotDecidable), (open.Check!.Conformity, open.Open!.Conformity));
        Assert.All(new[] { "21.0 ± 2.0 %", "limit of 20 %", "19.0 to 23.0 %", "2.00 mm from the toe", "Another photograph", "caliper bars", "height" }, fact => Assert.Contains(fact, open.Words, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0.5, false)] // the toe's shape decides there, not the blade's strength
    [InlineData(1.0, true)]
    [InlineData(2.5, true)]
    [InlineData(3.0, false)]
    public void Only_the_stations_of_the_working_half_count(double stationMm, bool retires) =>
        Assert.Equal(retires, VerdictDecider.Decide(Curette, WithWidthLoss(stationMm, 40, 1), Policy.Default).Kind == VerdictKind.Retire);

    [Theory]
    [InlineData(InstrumentFamily.UniversalCurette, 0.9, VerdictKind.Retire)]
    [InlineData(InstrumentFamily.UniversalCurette, 0.81, VerdictKind.Keep)]
    [InlineData(InstrumentFamily.UniversalScaler, 0.9, VerdictKind.Keep)]
    public void Length_loss_is_held_against_the_limit_of_its_family(InstrumentFamily family, double lengthLossMm, VerdictKind expected) =>
        Assert.Equal(expected, VerdictDecider.Decide(Curette with { Family = family }, NoDrift with { LengthLossUm = new Measured(lengthLossMm * 1000, 9) }, Policy.Default).Kind);

    [Fact]
    public void The_most_severe_clear_finding_holds_and_all_are_given()
    {
        FaceMeasurement today = WithLight(Curette with { Nicks = [NickOn(EdgePart.Right, 60, 3)] }, EdgePart.Left, new Measured(12, 1), new Measured(7, 1));

        Verdict verdict = VerdictDecider.Decide(today, WithWidthLoss(2, 30, 1), Policy.Default);

        Assert.Equal(VerdictKind.Retire, verdict.Kind);
        Assert.Equal([LimitRole.Retire, LimitRole.Resharpen, LimitRole.TouchUp], verdict.Reasons.Select(r => r.Check!.Role));
    }

    [Fact]
    public void A_reason_names_figure_uncertainty_limit_edge_and_stretch()
    {
        FaceMeasurement today = WithLight(Curette, EdgePart.Left, new Measured(12.34, 1.05), new Measured(7, 1), new DullStretch(0.4, 0.9, 0.5, new(7, 1), new Measured(21, 3)), new DullStretch(2, 2.25, 0.25, new(5, 1), new Measured(15, 3)));

        string words = VerdictDecider.Decide(today, NoDrift, Policy.Default).Reasons[0].Words;

        Assert.Equal("Left edge: 12.3 ± 2.1 % of it reflects light (0.40 to 0.90 and 2.00 to 2.25 mm from the toe), clear above the limit of 5 % for a touch-up.", words);
    }

    [Fact]
    public void A_kept_instrument_is_proved_to_be_inside_every_limit_that_could_call_for_work()
    {
        Verdict verdict = VerdictDecider.Decide(Curette, NoDrift, Policy.Default);

        Assert.Equal(VerdictKind.Keep, verdict.Kind);
        Assert.All(verdict.Reasons, r => Assert.Equal(Conformity.Inside, r.Check!.Conformity));
        Assert.Contains(verdict.Reasons, r => r.Check!.Part == EdgePart.Left);
        Assert.Contains(verdict.Reasons, r => r.Check!.Part == EdgePart.Right);
        Assert.Contains(verdict.Reasons, r => r.Check!.What == CheckedFigure.WidthLoss);
    }

    [Fact]
    public void Without_a_baseline_light_and_nicks_alone_are_judged_and_the_verdict_says_so()
    {
        Verdict verdict = VerdictDecider.Decide(Curette, null, Policy.Default);

        Assert.Equal(VerdictKind.Keep, verdict.Kind);
        Assert.DoesNotContain(verdict.Checks, c => c.What is CheckedFigure.WidthLoss or CheckedFigure.LengthLoss);
        Assert.Contains(verdict.Remarks, r => r.Contains("light and nicks alone", StringComparison.Ordinal));
    }

    [Fact]
    public void A_tip_that_the_light_cannot_show_is_not_kept_but_photographed_with_the_panels_ahead_of_it()
    {
        Verdict verdict = VerdictDecider.Decide(Luxator, null, Policy.Default);

        Assert.Equal(VerdictKind.Retake, verdict.Kind);
        Assert.Contains("the light cannot show it", verdict.Reasons[0].Words, StringComparison.Ordinal);
        Assert.Contains("Put the panels ahead of the tip", verdict.Reasons[0].Words, StringComparison.Ordinal);
        Assert.Contains(verdict.NextSteps, s => s.Contains("Put the panels ahead of the tip", StringComparison.Ordinal));
    }

    [Fact]
    public void A_nick_in_a_tip_that_the_light_cannot_show_still_calls_for_resharpening_and_the_dark_is_told()
    {
        Verdict verdict = VerdictDecider.Decide(Luxator with { Nicks = [NickOn(EdgePart.Toe, 90, 4)] }, null, Policy.Default);

        Assert.Equal((VerdictKind.Resharpen, "Resharpen the tip arc"), (verdict.Kind, verdict.Headline));
        Assert.Contains(verdict.Reasons, r => r.Words.Contains("the light cannot show it", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(EdgePart.Left)]
    [InlineData(EdgePart.Right)]
    public void On_a_luxator_only_the_tip_arc_counts(EdgePart side)
    {
        FaceMeasurement today = SyntheticCases.DullLuxator.Today() with { Nicks = [NickOn(side, 90, 4)] };

        Verdict verdict = VerdictDecider.Decide(WithLight(today, EdgePart.Toe, new Measured(0, 0.5), new Measured(1, 0.5)), null, Policy.Default);

        Assert.Equal(VerdictKind.Keep, verdict.Kind);
    }

    [Theory]
    [InlineData(EdgePart.Right, VerdictKind.Keep)]
    [InlineData(EdgePart.Left, VerdictKind.Resharpen)]
    [InlineData(null, VerdictKind.Resharpen)]
    public void On_an_area_specific_curette_only_the_working_edge_counts_and_both_when_it_is_not_known(EdgePart? workingEdge, VerdictKind expected)
    {
        FaceMeasurement today = WithLight(Curette with { Family = InstrumentFamily.AreaSpecificCurette }, EdgePart.Left, new Measured(60, 2), new Measured(25, 1));

        Verdict verdict = VerdictDecider.Decide(today, NoDrift, Policy.Default, workingEdge);

        Assert.Equal(expected, verdict.Kind);
        Assert.Equal(workingEdge is null, verdict.Remarks.Any(r => r.Contains("was not stated", StringComparison.Ordinal)));
        Assert.Equal(workingEdge is null, verdict.Reasons.Any(r => r.Words.Contains("if it is the working one", StringComparison.Ordinal)));
    }

    [Fact]
    public void An_edge_in_the_dark_stops_a_curette_from_being_kept_but_a_toe_in_the_dark_does_not()
    {
        FaceMeasurement today = WithLight(Curette, EdgePart.Right, Figure.Missing("one panel only"), Figure.Missing("one panel only"));

        Verdict dark = VerdictDecider.Decide(today, NoDrift, Policy.Default);
        Verdict toeDark = VerdictDecider.Decide(Curette, NoDrift, Policy.Default);

        Assert.Equal(VerdictKind.Retake, dark.Kind);
        Assert.Contains("one panel only", Assert.Single(dark.Reasons, r => r.Check!.IsOpen).Words, StringComparison.Ordinal);
        Assert.Equal(VerdictKind.Keep, toeDark.Kind);
        Assert.Contains(toeDark.Remarks, r => r.Contains("round the toe", StringComparison.Ordinal));
    }

    [Fact]
    public void Light_summed_up_with_another_sharp_limit_is_not_judged()
    {
        Verdict verdict = VerdictDecider.Decide(Curette with { Light = Curette.Light with { SharpLimitUm = 12 } }, NoDrift, Policy.Default);

        Assert.Equal(VerdictKind.Retake, verdict.Kind);
        Assert.Contains("12 µm", verdict.Reasons[0].Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_refused_photograph_asks_for_another_with_figure_limit_and_advice()
    {
        Refusal tilted = new("tilted", "The camera looks at the card from the side.", "Hold the phone parallel to the card.", 21.4, 15, "°");

        Verdict verdict = VerdictDecider.Refused([tilted], Policy.Default);

        Assert.Equal(VerdictKind.Retake, verdict.Kind);
        Assert.Equal("The camera looks at the card from the side: measured 21.4 °, limit 15 °.", Assert.Single(verdict.Reasons).Words);
        Assert.Equal(tilted.Advice, Assert.Single(verdict.NextSteps));
        Assert.Throws<ArgumentException>(() => VerdictDecider.Refused([], Policy.Default));
    }

    [Fact]
    public void A_policy_that_judges_nothing_keeps_everything()
    {
        PolicyLimits open = new() { SharpLimitUm = 4, WidthStationsFromMm = 1, WidthStationsToMm = 2.5 };
        Policy policy = new("none", [.. Enumerable.Repeat(open, FamilyTraits.All.Length)], ImmutableSortedDictionary<string, string>.Empty);

        Verdict verdict = VerdictDecider.Decide(SyntheticCases.DullAndNicked.Today(), SyntheticCases.Worn.Drift(), policy);

        Assert.Equal(VerdictKind.Keep, verdict.Kind);
        Assert.Empty(verdict.Checks);
    }

    [Theory]
    [InlineData(34.23, 3.05, "34.2 ± 6.1 %")]
    [InlineData(0.4178, 0.0153, "0.4 ± 0.1 %")]
    [InlineData(0.0, 0.007, "0.0 ± 0.1 %")]
    [InlineData(1234.6, 60, "1235 ± 120 %")]
    [InlineData(-0.04, 0.5, "0.0 ± 1.0 %")]
    [InlineData(-3.2, 0.5, "−3.2 ± 1.0 %")]
    [InlineData(12.345, 0, "12.3 %")]
    public void Figures_are_rounded_to_two_digits_of_their_uncertainty(double value, double u, string expected) // JCGM 100:2008, 7.2.6
    {
        string text = EdgeLens.Assessment.Wording.FigureText.WithUncertainty(new(value, u), "%");
        Assert.Equal(expected, text);
    }

    private static FaceMeasurement WithLight(FaceMeasurement face, EdgePart part, Figure fraction, Figure width, params DullStretch[] stretches) => face with
    {
        Light = face.Light with { Edges = [.. face.Light.Edges.Where(e => e.Part != part), new(part, fraction, width, [.. stretches], EdgeRadiusSummary.Missing("not made"))] },
    };

    private static DriftMeasurement WithWidthLoss(double stationMm, double percent, double u) => NoDrift with
    {
        WidthLosses = [.. NoDrift.WidthLosses.Select(w => w.StationMm == stationMm ? w with { LossPercent = new(percent, u) } : w)],
    };

    private static Nick NickOn(EdgePart part, double depthUm, double u) => new(part, 2.1, 6.3, new(depthUm, u), new(0.3, 0.02));
}
