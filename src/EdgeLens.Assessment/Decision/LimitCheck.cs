using System.Collections.Immutable;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Decision;

/// <summary>What follows when a figure is clear above a limit, from the mildest to the most severe.</summary>
public enum LimitRole
{
    /// <summary>Nothing yet: keep an eye on it.</summary>
    Watch,

    /// <summary>A touch-up.</summary>
    TouchUp,

    /// <summary>Resharpening.</summary>
    Resharpen,

    /// <summary>The end of its use.</summary>
    Retire,
}

/// <summary>What was measured, for the words of a reason.</summary>
public enum CheckedFigure
{
    /// <summary>Reflecting fraction of an edge, %.</summary>
    ReflectingFraction,

    /// <summary>Greatest reflection width over 0.5 mm of edge, µm.</summary>
    GreatestReflectionWidth,

    /// <summary>Depth of a nick, µm.</summary>
    NickDepth,

    /// <summary>Greatest width loss at the judged stations, %.</summary>
    WidthLoss,

    /// <summary>Length loss, mm.</summary>
    LengthLoss,

    /// <summary>Greatest edge radius over 0.5 mm, µm.</summary>
    EdgeRadius,

    /// <summary>Shape drift, µm rms.</summary>
    ShapeDrift,

    /// <summary>Drift of the angle between face and terminal shank, either way, °.</summary>
    FaceAngleDrift,

    /// <summary>Drift of an internal angle, either way, °.</summary>
    InternalAngleDrift,

    /// <summary>Drift of the wedge angle, either way, °.</summary>
    WedgeAngleDrift,
}

/// <summary>One figure held against one upper limit.</summary>
/// <param name="What">Which figure.</param>
/// <param name="Figure">Value and uncertainty, or why there is none; in the unit of the limit.</param>
/// <param name="Limit">Upper limit, unit of <paramref name="What"/>.</param>
/// <param name="Role">What follows when it is exceeded.</param>
/// <param name="Part">Which edge; null where the whole blade is meant.</param>
/// <param name="Where">Which stretches along the edge, nearest to the apex first; empty where the whole edge or blade is meant.</param>
public sealed record LimitCheck(CheckedFigure What, Figure Figure, double Limit, LimitRole Role, EdgePart? Part, ImmutableArray<Stretch> Where)
{
    /// <summary>Where the figure's uncertainty comes from, unit of the limit; null where it is not known in parts.</summary>
    public UncertaintyBudget? Budget { get; init; }

    /// <summary>Signed value of a drift that is judged either way, unit of the limit; null for other figures.</summary>
    public double? SignedValue { get; init; }

    /// <summary>
    /// True for what says whether an edge is sharp: an edge is only kept when these are shown to be inside. Form and angles are only ever acted on when they are clear of a
    /// limit: an angle that the photograph cannot tell does not send a sharp instrument back.
    /// </summary>
    public bool IsOfSharpness => What is CheckedFigure.ReflectingFraction or CheckedFigure.GreatestReflectionWidth or CheckedFigure.NickDepth or CheckedFigure.EdgeRadius;

    /// <summary>Where the figure stands; null when it is missing.</summary>
    public Conformity? Conformity => Figure.Measured is { } m ? ConformityRule.Judge(m, Limit) : null;

    /// <summary>True when the limit is clearly exceeded.</summary>
    public bool IsExceeded => Conformity is Decision.Conformity.Outside;

    /// <summary>True when the photograph does not say whether the limit is kept: figure missing or too near to it.</summary>
    public bool IsOpen => Conformity is null or Decision.Conformity.NotDecidable;

    /// <summary>Name of the figure in files: that of measurands.md with its unit.</summary>
    public string FigureName => What switch
    {
        CheckedFigure.ReflectingFraction => "reflectingFractionPercent",
        CheckedFigure.GreatestReflectionWidth => "greatestReflectionWidthUm",
        CheckedFigure.NickDepth => "nickDepthUm",
        CheckedFigure.WidthLoss => "widthLossPercent",
        CheckedFigure.LengthLoss => "lengthLossMm",
        CheckedFigure.EdgeRadius => "edgeRadiusUm",
        CheckedFigure.ShapeDrift => "shapeDriftUm",
        CheckedFigure.FaceAngleDrift => "faceAngleDriftDeg",
        CheckedFigure.InternalAngleDrift => "internalAngleDriftDeg",
        _ => "wedgeAngleDriftDeg",
    };

    /// <summary>Name of what follows, in files: watch, touch-up, resharpen, retire.</summary>
    public string RoleName => Role switch
    {
        LimitRole.Watch => "watch",
        LimitRole.TouchUp => "touch-up",
        LimitRole.Resharpen => "resharpen",
        _ => "retire",
    };

    /// <summary>Unit of figure and limit.</summary>
    public string Unit => What switch
    {
        CheckedFigure.ReflectingFraction or CheckedFigure.WidthLoss => "%",
        CheckedFigure.LengthLoss => "mm",
        CheckedFigure.FaceAngleDrift or CheckedFigure.InternalAngleDrift or CheckedFigure.WedgeAngleDrift => "°",
        _ => "µm",
    };
}

/// <summary>A stretch of an edge or blade, mm back from the station origin.</summary>
/// <param name="FromStationMm">Nearer to the apex.</param>
/// <param name="ToStationMm">Nearer to the heel; equal for a single place.</param>
public readonly record struct Stretch(double FromStationMm, double ToStationMm);
