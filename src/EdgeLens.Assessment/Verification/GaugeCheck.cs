using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Wording;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Verification;

/// <summary>What a verification says.</summary>
public enum CheckResult
{
    /// <summary>The diameter lies within the gauge's limits by its uncertainty.</summary>
    Pass,

    /// <summary>It lies outside by its uncertainty: something in the chain of card, print, lens and loupe is wrong.</summary>
    Fail,

    /// <summary>Neither is shown.</summary>
    Undecided,
}

/// <summary>A measured diameter held against the gauge's limits by ISO 14253-1.</summary>
/// <param name="Gauge">What was photographed.</param>
/// <param name="DiameterMm">As measured.</param>
/// <param name="Budget">Of its uncertainty, mm.</param>
public sealed record GaugeCheck(RoundGauge Gauge, Measured DiameterMm, UncertaintyBudget Budget)
{
    /// <summary>The decision: both limits are judged, each with U as guard band.</summary>
    public CheckResult Result
    {
        get
        {
            // The lower limit is an upper one of the negative figure.
            Conformity upper = ConformityRule.Judge(DiameterMm, Gauge.GreatestMm), lower = ConformityRule.Judge(DiameterMm.Scale(-1), -Gauge.LeastMm);
            if (upper == Conformity.Outside || lower == Conformity.Outside) return CheckResult.Fail;
            return upper == Conformity.Inside && lower == Conformity.Inside ? CheckResult.Pass : CheckResult.Undecided;
        }
    }

    /// <summary>In one or two sentences: figure, limits, decision, and what to do.</summary>
    public string Words
    {
        get
        {
            string seen = FormattableString.Invariant($"{Gauge.Name}: {FigureText.WithUncertainty(DiameterMm, "mm")} measured, {Gauge.LeastMm:0.000} to {Gauge.GreatestMm:0.000} mm stated");
            return Result switch
            {
                CheckResult.Pass => $"{seen}: pass.",
                CheckResult.Fail => $"{seen}: fail. Measure the card's bars again, check that the gauge lay flat across the window, and make a new lens profile; do not judge wear until it passes.",
                _ => $"{seen}: not decidable. {WhatWouldDecide}",
            };
        }
    }

    private string WhatWouldDecide => 2 * DiameterMm.ExpandedUncertainty >= Gauge.GreatestMm - Gauge.LeastMm
        ? "The uncertainty is too large for these limits: measure the card's bars with a caliper, use a lens profile, or take a larger gauge."
        : "The gauge may lie near one of its limits: take another one, or a pin of known diameter.";
}
