using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Decision;

/// <summary>Where a figure stands against an upper limit when its uncertainty is heeded.</summary>
public enum Conformity
{
    /// <summary>Conformity is proved: even value + U is not above the limit.</summary>
    Inside,

    /// <summary>Neither is proved: the interval value ± U holds the limit.</summary>
    NotDecidable,

    /// <summary>Non-conformity is proved: even value - U is above the limit.</summary>
    Outside,
}

/// <summary>Decision rule of ISO 14253-1:2017 for one upper limit, with the expanded uncertainty U (k = 2) as guard band on both sides.</summary>
/// <remarks>
/// From memory: the 2017 edition asks for 95 % probability and so allows a guard band of 1.65 standard uncertainties against a single limit;
/// U is a little wider (97.7 %), as in the earlier editions, and is the figure that our reports print.
/// </remarks>
public static class ConformityRule
{
    /// <summary>Judges a figure.</summary>
    /// <param name="figure">Value and uncertainty.</param>
    /// <param name="upperLimit">Finite, same unit as the figure.</param>
    /// <exception cref="ArgumentOutOfRangeException">The limit is not finite.</exception>
    public static Conformity Judge(Measured figure, double upperLimit)
    {
        if (!double.IsFinite(upperLimit)) throw new ArgumentOutOfRangeException(nameof(upperLimit), upperLimit, "A limit must be finite.");
        if (figure.Value + figure.ExpandedUncertainty <= upperLimit) return Conformity.Inside;
        return figure.Value - figure.ExpandedUncertainty > upperLimit ? Conformity.Outside : Conformity.NotDecidable;
    }
}
