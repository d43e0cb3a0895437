using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Edges;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;

namespace EdgeLens.Measuring.FaceView;

/// <summary>
/// The stripes that the panels leave along the round shank: one for each panel beside the blade, on its panel's side, as bright as fully lit steel.
/// </summary>
/// <remarks>
/// A cylinder mirrors a panel of elevation ε where its normal is tilted by (90° - ε) / 2 to the panel's side, about 0.44 radii beside its middle. Between the stripes it
/// mirrors the room overhead, a tenth as bright. The shank is the only steel behind the heel, and nothing but lit steel is brighter than paper.
/// </remarks>
/// <param name="Levels">Plateaus of one stripe or two, linear, share of full scale; of two the one on the blade's +x side first. Of one the side is not known.</param>
internal sealed record ShankHighlights(ImmutableArray<double> Levels)
{
    // Behind the heel the neck is too curved; the shank leaves the picture some 10 mm on, and leans sideways by up to 25°.
    private const double FromMm = -1.5, ToMm = -14, HalfWidthMm = 8, GridMm = 0.05;

    // Profiles across are averaged over this length of shank and this width, so that scratches (along the shank) do not part a stripe.
    private const int SliceRows = 4;
    private const int SmoothColumns = 3;

    // A stripe is a third of the shank's radius wide, 0.2 mm and more.
    private const int LeastColumns = 2;

    // Two stripes are parted by the mirrored room: a valley below this share of the weaker one.
    private const double Valley = 0.7;

    // Panels of one photograph differ in brightness by up to 1.5 times, their stripes by a little more where the shank is out of focus.
    private const double Weaker = 0.4;

    // 1.6 mm of shank: less may be a bend or a spark.
    private const int LeastSlices = 8;

    private const double PlateauQuantile = 0.75;

    /// <summary>Finds the stripes; null where the shank shows none.</summary>
    /// <param name="grey">The photograph's luma, borrowed.</param>
    /// <param name="calibration">Of the photograph.</param>
    /// <param name="frame">A first frame of the working end.</param>
    /// <param name="heightMm">Of the face over the card.</param>
    /// <param name="paperLevel">Linear brightness of the card's white.</param>
    public static ShankHighlights? Find(Mat grey, CardCalibration calibration, Outline frame, double heightMm, double paperLevel)
    {
        double threshold = SteelLightEstimator.BrighterThanPaper * paperLevel;
        List<double> left = [], right = [], single = [];
        foreach (double[] profile in Slices(grey, calibration, frame, heightMm))
        {
            double[] stripes = Stripes(profile, threshold);
            if (stripes.Length == 1) single.Add(stripes[0]);
            if (stripes.Length != 2) continue;
            left.Add(stripes[0]);
            right.Add(stripes[1]);
        }
        if (left.Count >= LeastSlices && 2 * left.Count >= single.Count) return new([Plateau(left), Plateau(right)]);
        return single.Count >= LeastSlices ? new([Plateau(single)]) : null;
    }

    /// <summary>True when one panel alone was seen.</summary>
    public bool IsSingle => Levels.Length == 1;

    private static double Plateau(List<double> levels) => levels.Order().ElementAt((int)(PlateauQuantile * (levels.Count - 1)));

    /// <summary>Profiles across the shank from +x to -x, one for each 0.2 mm backwards; linear brightness, NaN outside the picture.</summary>
    private static IEnumerable<double[]> Slices(Mat grey, CardCalibration calibration, Outline frame, double heightMm)
    {
        BladeProjection projection = new(calibration, frame, heightMm);
        int columns = (int)(2 * HalfWidthMm / GridMm), slices = (int)((FromMm - ToMm) / (SliceRows * GridMm));
        for (int slice = 0; slice < slices; slice++)
        {
            double[] sum = new double[columns];
            int[] count = new int[columns];
            for (int row = 0; row < SliceRows; row++)
            {
                double z = FromMm - (slice * SliceRows + row) * GridMm;
                // Along a row the picture is straight and even to far below a grid step.
                PixelPoint first = projection.Pixel(new Vector2(HalfWidthMm, z)), last = projection.Pixel(new Vector2(-HalfWidthMm, z));
                for (int i = 0; i < columns; i++)
                {
                    double t = (double)i / columns;
                    int x = (int)Math.Round(first.X + t * (last.X - first.X)), y = (int)Math.Round(first.Y + t * (last.Y - first.Y));
                    if (x < 0 || y < 0 || x >= grey.Cols || y >= grey.Rows) continue;
                    sum[i] += LinearLight.OfTone[grey.RowSpan<byte>(y)[x]];
                    count[i]++;
                }
            }
            yield return Smooth([.. sum.Zip(count, (s, n) => n == 0 ? double.NaN : s / n)]);
        }
    }

    private static double[] Smooth(double[] profile) =>
        [.. profile.Select((_, i) => profile.AsSpan(Math.Max(0, i - SmoothColumns / 2)..Math.Min(profile.Length, i + SmoothColumns / 2 + 1)).ToArray().Average())];

    /// <summary>Peaks of the stripes in a profile; those that no valley parts are one.</summary>
    private static double[] Stripes(double[] profile, double threshold)
    {
        List<double> peaks = [];
        for (int i = 0; i < profile.Length; i++)
        {
            int start = i;
            while (i < profile.Length && profile[i] > threshold) i++;
            // A run may hold two stripes whose valley stays above paper.
            if (i - start >= LeastColumns) peaks.AddRange(Parted(profile, start, i));
        }
        if (peaks.Count == 0) return [];
        double strongest = peaks.Max();
        return [.. peaks.Where(p => p >= Weaker * strongest)];
    }

    /// <summary>One peak, or two when a valley lies between.</summary>
    private static double[] Parted(double[] profile, int start, int end)
    {
        int top = Enumerable.Range(start, end - start).MaxBy(i => profile[i]);
        int before = Other(top, start - 1, -1), after = Other(top, end, 1);
        return (before >= 0, after >= 0) switch
        {
            (true, _) => [profile[before], profile[top]],
            (_, true) => [profile[top], profile[after]],
            _ => [profile[top]],
        };

        int Other(int from, int stop, int step)
        {
            double lowest = double.MaxValue;
            int best = -1;
            for (int i = from; i != stop; i += step)
            {
                lowest = Math.Min(lowest, profile[i]);
                if (lowest < Valley * profile[i] && (best < 0 || profile[i] > profile[best])) best = i;
            }
            return best;
        }
    }
}
