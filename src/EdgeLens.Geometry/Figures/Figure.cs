namespace EdgeLens.Geometry.Figures;

/// <summary>A figure that was asked for: measured, or missing with the reason. Never 0, NaN or -1 standing for "not known".</summary>
public readonly record struct Figure
{
    private Figure(Measured? measured, string? whyMissing)
    {
        Measured = measured;
        WhyMissing = whyMissing;
    }

    /// <summary>Value and uncertainty, or null when missing.</summary>
    public Measured? Measured { get; }

    /// <summary>The reason in words when missing, else null.</summary>
    public string? WhyMissing { get; }

    /// <summary>A measured figure.</summary>
    public static implicit operator Figure(Measured measured) => new(measured, null);

    /// <summary>A figure that could not be measured.</summary>
    /// <param name="why">In words for the user, not empty.</param>
    public static Figure Missing(string why) => new(null, string.IsNullOrWhiteSpace(why) ? throw new ArgumentException("A missing figure needs a reason.", nameof(why)) : why);
}
