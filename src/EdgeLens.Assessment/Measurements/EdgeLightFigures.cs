using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using MathNet.Numerics.Distributions;

namespace EdgeLens.Assessment.Measurements;

/// <summary>Sums the light up along one cutting edge.</summary>
/// <param name="SharpLimitUm">Reflection width from which an edge counts as reflecting.</param>
/// <param name="WidthCommonRelative">The part of the widths' relative standard uncertainty that all samples of the photograph share (level of lit steel).</param>
/// <param name="RadiusCommonRelative">The same of the radii (level, size and height of the panels).</param>
public sealed record EdgeLightFigures(double SharpLimitUm, double WidthCommonRelative, double RadiusCommonRelative)
{
    /// <summary>Samples as far apart along the edge, mm: a fitted block is as long, so that they hardly share pixels.</summary>
    public const double StepMm = 0.1;

    // A mean is taken over this much edge: one scratch does not make an edge dull, and a scaler's stroke works with more than that.
    private const double WindowMm = 0.5;

    // A dull stretch shorter than this is a scratch or noise.
    private const double LeastStretchMm = 0.2;

    private const string TooShort = "The edge is not seen far enough there.";

    /// <summary>Sums up one edge.</summary>
    /// <param name="part">Which.</param>
    /// <param name="samples">Of that edge alone, in order of arc.</param>
    public EdgeLightSummary Sum(EdgePart part, IReadOnlyList<LightSample> samples)
    {
        ArgumentNullException.ThrowIfNull(samples);
        LightSample[] seen = [.. samples.Where(s => s.ReflectionWidthUm.Measured is not null)];
        if (samples.Count == 0 || 2 * seen.Length < samples.Count)
        {
            string why = samples.FirstOrDefault(s => s.ReflectionWidthUm.Measured is null)?.ReflectionWidthUm.WhyMissing ?? "This part of the edge is not in the photograph.";
            return new(part, Figure.Missing(why), Figure.Missing(why), [], EdgeRadiusSummary.Missing(why));
        }
        return new(part, Fraction(seen), Greatest(seen, Width, WidthCommonRelative), Stretches(seen), new(
            GreatestRadius(samples), WorkingThird(part, samples), About(part, samples, 1), About(part, samples, 2)));
    }

    private static Measured Width(LightSample s) => s.ReflectionWidthUm.Measured!.Value;

    private static Measured Radius(LightSample s) => s.RadiusUm.Measured!.Value;

    private Measured Fraction(LightSample[] seen)
    {
        // A sample counts by the probability that its true width is above the limit, so that noise about the limit does not tip the share.
        // A stretch begins and ends somewhere in a sample: two errors that are even over ± half a sample, variance 1/12 each.
        double share = 0, variance = 2.0 / 12;
        foreach (LightSample s in seen)
        {
            double p = Normal.CDF(0, 1, (Width(s).Value - SharpLimitUm) / Math.Max(Width(s).StandardUncertainty, 1e-6));
            share += p;
            variance += p * (1 - p);
        }
        return new(100 * share / seen.Length, 100 * Math.Sqrt(variance) / seen.Length);
    }

    private Figure GreatestRadius(IReadOnlyList<LightSample> samples)
    {
        LightSample[] seen = [.. samples.Where(s => s.RadiusUm.Measured is not null)];
        return 2 * seen.Length >= samples.Count ? Greatest(seen, Radius, RadiusCommonRelative) : Figure.Missing(samples.First(s => s.RadiusUm.Measured is null).RadiusUm.WhyMissing!);
    }

    private static Measured Greatest(LightSample[] seen, Func<LightSample, Measured> figure, double commonRelative)
    {
        int window = Math.Min(seen.Length, (int)Math.Round(WindowMm / StepMm));
        return Enumerable.Range(0, seen.Length - window + 1).Select(i => Mean(seen.AsSpan(i, window), figure, commonRelative)).MaxBy(mean => mean.Value);
    }

    private Figure WorkingThird(EdgePart part, IReadOnlyList<LightSample> samples)
    {
        if (part == EdgePart.Toe) return MeanOf(samples, samples.Count);
        LightSample[] third = [.. samples.OrderBy(s => s.StationMm).Take((samples.Count + 2) / 3)];
        return MeanOf(third, third.Length);
    }

    private Figure About(EdgePart part, IReadOnlyList<LightSample> samples, double stationMm)
    {
        if (part == EdgePart.Toe) return Figure.Missing("Stations are counted along the sides; this edge runs round the end.");
        LightSample[] near = [.. samples.Where(s => Math.Abs(s.StationMm - stationMm) <= WindowMm / 2)];
        return MeanOf(near, (int)Math.Round(WindowMm / StepMm) - 1);
    }

    /// <summary>Mean radius; missing where fewer than half of the samples that should be there were seen.</summary>
    private Figure MeanOf(IReadOnlyList<LightSample> samples, int wanted)
    {
        LightSample[] seen = [.. samples.Where(s => s.RadiusUm.Measured is not null)];
        if (seen.Length > 0 && 2 * seen.Length >= wanted) return Mean(seen, Radius, RadiusCommonRelative);
        return Figure.Missing(samples.FirstOrDefault(s => s.RadiusUm.Measured is null)?.RadiusUm.WhyMissing ?? TooShort);
    }

    /// <summary>Mean of a figure: what the samples share does not average out, the rest does.</summary>
    private static Measured Mean(ReadOnlySpan<LightSample> samples, Func<LightSample, Measured> figure, double commonRelative)
    {
        double sum = 0, own = 0;
        foreach (LightSample s in samples)
        {
            Measured m = figure(s);
            sum += m.Value;
            own += Math.Max(0, m.StandardUncertainty * m.StandardUncertainty - Math.Pow(commonRelative * m.Value, 2));
        }
        double mean = sum / samples.Length;
        return new(mean, Quadrature.Sum(Math.Sqrt(own) / samples.Length, commonRelative * mean));
    }

    private ImmutableArray<DullStretch> Stretches(LightSample[] seen)
    {
        ImmutableArray<DullStretch>.Builder stretches = ImmutableArray.CreateBuilder<DullStretch>();
        for (int i = 0; i < seen.Length; i++)
        {
            int from = i;
            while (i < seen.Length && Width(seen[i]).Value > SharpLimitUm && (i == from || seen[i].ArcMm - seen[i - 1].ArcMm < 2.5 * StepMm)) i++;
            if (i == from) continue;
            LightSample[] stretch = seen[from..i];
            double length = stretch[^1].ArcMm - stretch[0].ArcMm + StepMm;
            if (length < LeastStretchMm - StepMm / 2) continue;
            stretches.Add(new(stretch.Min(s => s.StationMm), stretch.Max(s => s.StationMm), length, stretch.Select(Width).MaxBy(w => w.Value), GreatestIn(stretch)));
        }
        return stretches.ToImmutable();
    }

    private static Figure GreatestIn(LightSample[] stretch)
    {
        Measured[] radii = [.. stretch.Select(s => s.RadiusUm.Measured).OfType<Measured>()];
        return radii.Length > 0 ? radii.MaxBy(r => r.Value) : stretch[0].RadiusUm;
    }
}
