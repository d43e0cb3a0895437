using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Instruments;

/// <summary>What the trade holds true of a family (common practice; measurands.md lists the same).</summary>
/// <param name="Family">The family.</param>
/// <param name="Name">Its name in files and on the command line: lower case with hyphens.</param>
/// <param name="Title">Its name for people.</param>
/// <param name="FaceAngleDeg">Nominal angle between face and terminal shank; null where the family has none.</param>
/// <param name="EdgeAngleMinDeg">Least nominal internal (or wedge) angle.</param>
/// <param name="EdgeAngleMaxDeg">Greatest nominal internal (or wedge) angle.</param>
/// <param name="TipCuts">True when the arc of the tip cuts and the sides do not (luxators, elevators).</param>
/// <param name="HasPointedTip">True for the scaler: the tip width is measured, not a toe radius.</param>
/// <param name="ShankLeanDeg">How far the terminal shank leans from the face's normal towards the heel; null where the shank goes on along the blade.</param>
/// <param name="ShankLeanLimitDeg">Makes differ from that by no more, either way (rectangular).</param>
public sealed record FamilyTraits(
    InstrumentFamily Family, string Name, string Title, double? FaceAngleDeg, double EdgeAngleMinDeg, double EdgeAngleMaxDeg, bool TipCuts, bool HasPointedTip,
    double? ShankLeanDeg = null, double ShankLeanLimitDeg = 0)
{
    /// <summary>The family's nominal internal (or wedge) angle: the middle of its range, any place in it as likely (rectangular, JCGM 100:2008, 4.3.7).</summary>
    public Measured EdgeAngleDeg => new((EdgeAngleMinDeg + EdgeAngleMaxDeg) / 2, Quadrature.FromLimits((EdgeAngleMaxDeg - EdgeAngleMinDeg) / 2));

    /// <summary>From where the family shows its angles.</summary>
    public PhotographView AngleView => TipCuts ? PhotographView.Side : PhotographView.Toe;

    /// <summary>All six, in the order of the enumeration.</summary>
    public static ImmutableArray<FamilyTraits> All { get; } =
    [
        new(InstrumentFamily.UniversalScaler, "universal-scaler", "universal scaler", 90, 70, 80, false, true, 25, 5),
        new(InstrumentFamily.UniversalCurette, "universal-curette", "universal curette", 90, 70, 80, false, false, 25, 5),
        new(InstrumentFamily.AreaSpecificCurette, "area-specific-curette", "area-specific curette", 70, 70, 80, false, false, 25, 5),
        new(InstrumentFamily.Luxator, "luxator", "luxator", null, 45, 45, true, false),
        new(InstrumentFamily.StraightElevator, "straight-elevator", "straight elevator", null, 45, 45, true, false),
        new(InstrumentFamily.WingedElevator, "winged-elevator", "winged elevator", null, 45, 45, true, false),
    ];

    /// <summary>The traits of a family.</summary>
    public static FamilyTraits Of(InstrumentFamily family) => All[(int)family];

    /// <summary>Finds a family by its name in files; null when there is none.</summary>
    public static FamilyTraits? Named(string name) => All.FirstOrDefault(t => t.Name == name);
}
