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

    // The blur may differ by 15 % over a blade (focus, curvature, JPEG): a dark rounding counts from where it widens the edge by more,
    // (0.18 r)² > (1.15² - 1) σ², so from about three times the blur.
    private const double LeastDarkRadiusInBlurs = 3;

    // A band at least this sure is light.
    private const double ClearSigmas = 6;

    // An edge without light on it may be rounded by this much, and differ by that much, without its blur telling: as-new edges have 2 to 6 µm.
    internal const double UnseenRadiusPx = 0.35;
    private const double UnseenRadiusSigmaPx = 0.2;

    // What the model leaves out: a lens's point spread is no exact Gaussian, a rounding no exact circle. Measured on rendered
    // photographs of known truth: docs/physics/edge-profile.md.
    private const double ModelSigmaPx = 0.05;

    private PanelLight _light;
    private readonly EdgePlace[] _places;
    private readonly EdgeBlock[] _blocks;
    // A block that faces no panel has, in the place of the lit fit, one with the radius held as new.
    private readonly (EdgeFit? Lit, EdgeFit? Dark)[] _fits;

    /// <param name="grey">CV_8UC1, borrowed during the call.</param>
    /// <param name="line">Where the edge is thought to be.</param>
    /// <param name="stridePx">Between blocks.</param>
    /// <param name="light">How the steel shows the light.</param>
    /// <param name="leanDeg">Of the line of sight, see <see cref="EdgeTracer"/>.</param>
    public EdgeStrip(Mat grey, EdgeLine line, int stridePx, PanelLight light, Func<PixelPoint, Vector2> leanDeg)
    {
        _light = light;
        double[] reach = InnerReach.Of(line);
        _places = [.. Enumerable.Range(0, (line.Points.Length - 1) / stridePx + 1).Select(i => line.PlaceAt(i * stridePx, HalfLengthPx, reach[i * stridePx]))];
        _blocks = new EdgeBlock[_places.Length];
        _fits = new (EdgeFit?, EdgeFit?)[_places.Length];
        Parallel.For(0, _places.Length, i =>
        {
            _blocks[i] = new EdgeBlock { FacesPanel = light.ExposureOf(_places[i].Outward) != Exposure.None };
            _blocks[i].Fill(grey, _places[i], SeenAt(i, leanDeg));
        });
    }

    /// <summary>All blocks in order along the line.</summary>
    public IReadOnlyList<EdgeBlock> Blocks => _blocks;

    /// <summary>About so many blocks, evenly along the line.</summary>
    public IReadOnlyList<EdgeBlock> Sample(int count) => Thin(_blocks, count);

    /// <summary>Blocks whose rounding hardly widens the edge, about so many, lit ones if there are enough; all kinds of blocks where there are too few.</summary>
    /// <param name="points">A fit of this strip.</param>
    /// <param name="radiusPx">Greatest radius that counts.</param>
    /// <param name="count">How many.</param>
    public IReadOnlyList<EdgeBlock> SharpSample(IReadOnlyList<EdgeTracePoint?> points, double radiusPx, int count)
    {
        EdgeBlock[] sharp = [.. _blocks.Where((_, i) => points[i] is { } p && p.RadiusPx < radiusPx)], lit = [.. sharp.Where(b => b.FacesPanel)];
        return Thin(lit.Length >= count / 4 ? lit : sharp.Length >= count / 4 ? sharp : _blocks, count);
    }

    /// <summary>Fits every block; null where there is no edge.</summary>
    public EdgeTracePoint?[] Fit(EdgeOptics optics)
    {
        Parallel.For(0, _fits.Length, () => new EdgeFitter(), (i, _, fitter) =>
        {
            if (!_blocks[i].FacesPanel)
            {
                _fits[i] = (fitter.FitHeld(_blocks[i], optics, UnseenRadiusPx), fitter.Fit(_blocks[i], optics, false, _fits[i].Dark?.Shape));
                return fitter;
            }
            EdgeFit? lit = fitter.Fit(_blocks[i], optics, true, _fits[i].Lit?.Shape);
            // A band that stands out leaves no question; else the same pixels may be a dull edge that mirrors no panel.
            bool isClear = lit is { } f && f.Shape.RadiusPx > UnseenRadiusPx && f.Shape.RadiusPx > ClearSigmas * f.RadiusSigmaPx;
            _fits[i] = (lit, isClear ? null : fitter.Fit(_blocks[i], optics, false, _fits[i].Dark?.Shape));
            return fitter;
        }, _ => { });
        double[] evidence = [.. _fits.Select(f => f is ({ } lit, { } dark) ? lit.PixelCount / BlurEstimator.PixelsPerDegree * Math.Log(lit.SumOfSquares / dark.SumOfSquares) : 0)];
        EdgeTracePoint?[] points = new EdgeTracePoint?[_fits.Length];
        for (int i = 0; i < _fits.Length; i++)
        {
            double sum = 0;
            for (int k = Math.Max(0, i - EvidenceReach); k <= Math.Min(_fits.Length - 1, i + EvidenceReach); k++) sum += evidence[k];
            EdgeFit? fit = sum > Evidence && _fits[i].Dark is { } dark && dark.Shape.RadiusPx > LeastDarkRadiusInBlurs * optics.BlurSigmaPx ? dark : _fits[i].Lit;
            if (fit is { } f && Math.Abs(f.Shape.OffsetPx) <= GreatestShiftPx) points[i] = Point(i, f);
        }
        return points;
    }

    /// <summary>The same blocks under another light.</summary>
    public void Relight(PanelLight light, Func<PixelPoint, Vector2> leanDeg)
    {
        _light = light;
        for (int i = 0; i < _blocks.Length; i++) _blocks[i].Light = SeenAt(i, leanDeg);
    }

    /// <summary>Which blocks mirror a whole panel.</summary>
    /// <param name="panel">One of the light's.</param>
    public IReadOnlyList<int> Facing(Panel panel) =>
        [.. Enumerable.Range(0, _blocks.Length).Where(i => _light.Facing(_places[i].Outward) == panel && (!_light.IsPlaceKnown || _light.ExposureOf(_places[i].Outward) == Exposure.Full))];

    private RoundingLight SeenAt(int index, Func<PixelPoint, Vector2> leanDeg)
    {
        EdgePlace place = _places[index];
        return _light.Facing(place.Outward).Light.Seen(leanDeg(place.Centre).Dot(place.Outward));
    }

    private static EdgeBlock[] Thin(EdgeBlock[] blocks, int count)
    {
        int stride = Math.Max(1, blocks.Length / count);
        return [.. blocks.Where((_, i) => i % stride == 0)];
    }

    private EdgeTracePoint Point(int index, in EdgeFit fit)
    {
        EdgePlace place = _places[index];
        RoundingLight light = _blocks[index].Light;
        EdgeShape s = fit.Shape;
        double offset = s.OffsetPx, fromLight;
        SteelLight panel = _light.Facing(place.Outward).Light;
        if (!_blocks[index].FacesPanel && s.RadiusPx <= UnseenRadiusPx) fromLight = light.DarkCentre * UnseenRadiusSigmaPx;
        else if (!fit.IsLit) fromLight = RoundingLight.DarkRelativeUncertainty * light.DarkCentre * s.RadiusPx;
        else if (s.RadiusPx > UnseenRadiusPx)
        {
            // A radius that is wrong by the band's and the level's uncertainty moves the silhouette by the band's depth under it.
            fromLight = light.BandDepth * s.RadiusPx * Quadrature.Sum(panel.BandRelativeUncertainty, panel.LitLevelRelativeUncertainty);
        }
        else
        {
            offset += light.DarkCentre * (UnseenRadiusPx - s.RadiusPx);
            fromLight = light.DarkCentre * UnseenRadiusSigmaPx;
        }
        double sigma = Quadrature.Sum(fit.OffsetSigmaPx, fromLight, ModelSigmaPx);
        PixelPoint position = new(place.Centre.X + offset * place.Outward.X, place.Centre.Y + offset * place.Outward.Y);
        return new(position, place.Outward, sigma, Math.Max(s.RadiusPx, 0), fit.RadiusSigmaPx, s.FaceLevel, s.GroundLevel, fit.IsLit, _blocks[index].IsClipped);
    }
}
