namespace EdgeLens.Imaging.Edges;

/// <summary>What a block's pixels say about its piece of edge.</summary>
/// <param name="Shape">The fitted profile.</param>
/// <param name="OffsetSigmaPx">Standard uncertainty of the silhouette's place from the fit: noise and its trade against the light on the edge.</param>
/// <param name="RadiusSigmaPx">Standard uncertainty of the radius from the fit.</param>
/// <param name="SumOfSquares">Of the residuals, tone squared.</param>
/// <param name="PixelCount">Pixels that took part.</param>
/// <param name="IsLit">True when a lit band explains the pixels better than a dark rounding.</param>
public readonly record struct EdgeFit(EdgeShape Shape, double OffsetSigmaPx, double RadiusSigmaPx, double SumOfSquares, int PixelCount, bool IsLit)
{
    /// <summary>Root mean square residual, share of full tone.</summary>
    public double ResidualRms => Math.Sqrt(SumOfSquares / PixelCount);

    /// <summary>Step from ground to face, linear light, share of full scale.</summary>
    public double StepLevel => Shape.FaceLevel - Shape.GroundLevel;
}
