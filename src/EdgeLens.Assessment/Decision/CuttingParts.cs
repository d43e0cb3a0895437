using System.Collections.Immutable;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Assessment.Decision;

/// <summary>Which parts of the outline cut, so that light and nicks on them count.</summary>
/// <param name="Judged">Parts whose figures count.</param>
/// <param name="Needed">Those of them that must be shown sharp before the instrument can be called sharp.</param>
/// <param name="IsWorkingEdgeAssumed">True when an area-specific curette's working edge was not stated and both are judged.</param>
/// <remarks>
/// The toe of a curette counts when it was measured but is not needed: under lights from left and right its edge, which looks ahead,
/// reflects nothing to the camera whether sharp or not, and asking for it would send back every photograph.
/// The wing fronts of a winged elevator are not part of the outline's named parts yet.
/// </remarks>
public sealed record CuttingParts(ImmutableArray<EdgePart> Judged, ImmutableArray<EdgePart> Needed, bool IsWorkingEdgeAssumed)
{
    /// <summary>The parts that cut on a working end.</summary>
    /// <param name="family">Kind of working end.</param>
    /// <param name="workingEdge">Left or right for an area-specific curette when known; of no effect otherwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The toe was named as working edge.</exception>
    public static CuttingParts Of(InstrumentFamily family, EdgePart? workingEdge)
    {
        if (workingEdge is EdgePart.Toe) throw new ArgumentOutOfRangeException(nameof(workingEdge), workingEdge, "The working edge is left or right.");
        if (FamilyTraits.Of(family).TipCuts) return new([EdgePart.Toe], [EdgePart.Toe], false);
        if (family == InstrumentFamily.AreaSpecificCurette && workingEdge is { } edge) return new([edge, EdgePart.Toe], [edge], false);
        return new([EdgePart.Left, EdgePart.Right, EdgePart.Toe], [EdgePart.Left, EdgePart.Right], family == InstrumentFamily.AreaSpecificCurette);
    }
}
