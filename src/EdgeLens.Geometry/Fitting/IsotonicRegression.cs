namespace EdgeLens.Geometry.Fitting;

/// <summary>The rising course nearest to given values.</summary>
public static class IsotonicRegression
{
    /// <summary>Least squares under the condition that no value is less than the one before: neighbours that violate it are pooled to their mean.</summary>
    /// <param name="values">In order, any unit.</param>
    /// <returns>As many, none less than the one before.</returns>
    /// <remarks>Pool adjacent violators: Barlow, Bartholomew, Bremner, Brunk, Statistical Inference under Order Restrictions, 1972, section 1.2.</remarks>
    public static double[] Rising(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        Stack<(double Sum, int Count)> pools = [];
        foreach (double value in values)
        {
            (double sum, int count) = (value, 1);
            while (pools.TryPeek(out (double Sum, int Count) last) && last.Sum / last.Count > sum / count)
            {
                pools.Pop();
                (sum, count) = (sum + last.Sum, count + last.Count);
            }
            pools.Push((sum, count));
        }
        return [.. pools.Reverse().SelectMany(p => Enumerable.Repeat(p.Sum / p.Count, p.Count))];
    }
}
