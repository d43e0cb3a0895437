namespace EdgeLens.Assessment.Instruments;

/// <summary>The six kinds of working end that EdgeLens knows.</summary>
public enum InstrumentFamily
{
    /// <summary>Sickle: triangular section, pointed tip, both edges cut.</summary>
    UniversalScaler,

    /// <summary>Half-round back, rounded toe, both edges cut.</summary>
    UniversalCurette,

    /// <summary>Gr-type curette (ISO 13397-2): half-round back, rounded toe, face offset, only the lower edge cuts.</summary>
    AreaSpecificCurette,

    /// <summary>Thin flat blade; the tip arc cuts.</summary>
    Luxator,

    /// <summary>Thick hollow blade; the tip arc cuts.</summary>
    StraightElevator,

    /// <summary>As the straight elevator, with wings beside the blade that cut too.</summary>
    WingedElevator,
}
