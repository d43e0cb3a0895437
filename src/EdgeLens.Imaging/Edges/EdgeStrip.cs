using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using OpenCvSharp;

namespace EdgeLens.Imaging.Edges;

/// <summary>The pixels along a line, cut into overlapping blocks that are filled once and fitted as often as needed.</summary>
internal sealed class EdgeStrip
{
    // A block of 9 pixels along the edge averages the noise of 9 scan lines; a toe of 0.4 mm radius sags by a third of a pixel in it,
    // which the curved distance takes out.
    private const double HalfLengthPx = 4.5;

    // Offsets beyond this cannot be trusted to belong to the same edge.
    private const double GreatestShiftPx = 4;

    // A dark, dull rounding is believed where it explains the pixels of this many neighbours to either side better than a sharp edge does
    // by 16 in -2 ln L: four standard deviations.
    private const int EvidenceReach = 4;
    private const double Evidence = 16;

    // An edge without light on it may be rounded by this much, and differ by that much, without its blur telling: as-new edges have 2 to 6 µm.
    private const double UnseenRadiusPx = 0.35;
    private const double UnseenRadiusSigmaPx = 0.2;

    // What the model leaves out: a lens's point spread is no exact Gaussian, a rounding no exact circle. Measured on rendered
    // photographs of known truth: docs/physics/edge-profile.md.
    private const double ModelSigmaPx = 0.05;

    private readonly EdgePlace[] _places;
    private readonly EdgeBlock[] _blocks;

    /// <param name="grey">CV_8UC1, borrowed during the call.</param>
    /// <param name="line">Where the edge is thought to be.</param>
    /// <param name="stridePx">Between blocks.</param>
    public EdgeStrip(Mat grey, EdgeLine line, int stridePx)
    {
        double[] reach = InnerReach.Of(line);
        _places = [.. Enumerable.Range(0, (line.Points.Length - 1) / stridePx + 1).Select(i => line.PlaceAt(i * stridePx, HalfLengthPx, reach[i * stridePx]))];
        _blocks = new EdgeBlock[_places.Length];
        Parallel.For(0, _places.Length, i =>
        {
            _blocks[i] = new EdgeBlock();
            _blocks[i].Fill(grey, _places[i]);
        });
    }

    /// <summary>About so many blocks, evenly along the line.</summary>
    public IReadOnlyList<EdgeBlock> Sample(int count) => Thin(_blocks, count);

    /// <summary>Blocks whose rounding hardly widens the edge, about so many; all kinds of blocks where there are too few.</summary>
    /// <param name="points">A fit of this strip.</param>
    /// <param name="radiusPx">Greatest radius that counts.</param>
    /// <param name="count">How many.</param>
    public IReadOnlyList<EdgeBlock> SharpSample(IReadOnlyList<EdgeTracePoint?> points, double radiusPx, int count)
    {
        EdgeBlock[] sharp = [.. _blocks.Where((_, i) => points[i] is { } p && p.RadiusPx < radiusPx)];
        return Thin(sharp.Length >= count / 2 ? sharp : _blocks, count);
    }

    /// <summary>Fits every block; null where there is no edge.</summary>
    public EdgeTracePoint?[] Fit(EdgeOptics optics, SteelLight light)
    {
        (EdgeFit? Lit, EdgeFit? Dark)[] fits = new (EdgeFit?, EdgeFit?)[_blocks.Length];
        Parallel.For(0, fits.Length, () => new EdgeFitter(), (i, _, fitter) =>
        {
            fits[i] = (fitter.Fit(_blocks[i], optics, light, true), fitter.Fit(_blocks[i], optics, light, false));
            return fitter;
        }, _ => { });
        double[] evidence = [.. fits.Select(f => f is ({ } lit, { } dark) ? lit.PixelCount / BlurEstimator.PixelsPerDegree * Math.Log(lit.SumOfSquares / dark.SumOfSquares) : 0)];
        EdgeTracePoint?[] points = new EdgeTracePoint?[fits.Length];
        for (int i = 0; i < fits.Length; i++)
        {
            double sum = 0;
            for (int k = Math.Max(0, i - EvidenceReach); k <= Math.Min(fits.Length - 1, i + EvidenceReach); k++) sum += evidence[k];
            EdgeFit? fit = sum > Evidence ? fits[i].Dark : fits[i].Lit;
            if (fit is { } f && Math.Abs(f.Shape.OffsetPx) <= GreatestShiftPx) points[i] = Point(_places[i], f, light);
        }
        return points;
    }

    private static EdgeBlock[] Thin(EdgeBlock[] blocks, int count)
    {
        int stride = Math.Max(1, blocks.Length / count);
        return [.. blocks.Where((_, i) => i % stride == 0)];
    }

    private static EdgeTracePoint Point(in EdgePlace place, in EdgeFit fit, SteelLight light)
    {
        EdgeShape s = fit.Shape;
        double offset = s.OffsetPx, fromLight;
        if (fit.IsLit && s.RadiusPx > UnseenRadiusPx)
        {
            // The band's middle lies (1 - middle) radii inside the silhouette; a radius that is wrong by the band's and the level's
            // uncertainty moves the silhouette by as much.
            double lever = 1 - (light.BandStart + light.BandEnd) / 2;
            fromLight = lever * s.RadiusPx * Quadrature.Sum(light.BandRelativeUncertainty, light.LitLevelRelativeUncertainty);
        }
        else if (fit.IsLit)
        {
            offset += EdgeProfileModel.DarkCentre * (UnseenRadiusPx - s.RadiusPx);
            fromLight = EdgeProfileModel.DarkCentre * UnseenRadiusSigmaPx;
        }
        else
        {
            // Radius from blur alone: fall and spread of the dark part are known to about a third.
            fromLight = EdgeProfileModel.DarkCentre * s.RadiusPx / 3;
        }
        double sigma = Quadrature.Sum(fit.OffsetSigmaPx, fromLight, ModelSigmaPx);
        PixelPoint position = new(place.Centre.X + offset * place.Outward.X, place.Centre.Y + offset * place.Outward.Y);
        return new(position, place.Outward, sigma, s.RadiusPx, fit.RadiusSigmaPx, s.FaceLevel, s.GroundLevel, fit.IsLit, false);
    }
}
