namespace EdgeLens.Geometry.Figures;

/// <summary>A measured figure: value and standard uncertainty in the same unit, which the property that holds it names.</summary>
/// <remarks>JCGM 100:2008, 2.3.1 and 6.2. There is no conversion to a bare number: a reader takes <see cref="Value"/> knowingly.</remarks>
public readonly record struct Measured
{
    /// <summary>Coverage factor of every expanded uncertainty in EdgeLens: about 95 % for a normal error.</summary>
    public const double CoverageFactor = 2;

    /// <param name="value">Finite.</param>
    /// <param name="standardUncertainty">Finite and not negative, same unit as the value.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, or the uncertainty is negative.</exception>
    public Measured(double value, double standardUncertainty)
    {
        if (!double.IsFinite(value)) throw new ArgumentOutOfRangeException(nameof(value), value, "A measured value must be finite.");
        if (!double.IsFinite(standardUncertainty) || standardUncertainty < 0)
            throw new ArgumentOutOfRangeException(nameof(standardUncertainty), standardUncertainty, "A standard uncertainty must be finite and at least 0.");
        Value = value;
        StandardUncertainty = standardUncertainty;
    }

    /// <summary>The best estimate.</summary>
    public double Value { get; }

    /// <summary>One standard deviation of the estimate's error, all contributions combined.</summary>
    public double StandardUncertainty { get; }

    /// <summary>Half width of the interval that holds the true value about 95 times of 100 (k = 2).</summary>
    public double ExpandedUncertainty => CoverageFactor * StandardUncertainty;

    /// <summary>The same figure in another unit.</summary>
    /// <param name="factor">How many of the new unit make one of the old.</param>
    public Measured Scale(double factor) => new(Value * factor, StandardUncertainty * Math.Abs(factor));

    /// <summary>This figure less an independent other one; the uncertainties add in quadrature.</summary>
    public Measured MinusIndependent(Measured other) => new(Value - other.Value, Quadrature.Sum(StandardUncertainty, other.StandardUncertainty));

    /// <summary>The same value with further independent contributions to its standard uncertainty.</summary>
    public Measured WithAdded(params ReadOnlySpan<double> contributions) => new(Value, Quadrature.Sum(StandardUncertainty, Quadrature.Sum(contributions)));
}
