namespace EdgeLens.Accuracy.Comparing;

/// <summary>Holds one measurand of a photograph against the truth.</summary>
public interface IMeasurandComparer
{
    /// <summary>Name in measurands.md in camel case, ending with the unit.</summary>
    string Name { get; }

    /// <summary>Unit of every error.</summary>
    string Unit { get; }

    /// <summary>Compares; a photograph that was refused counts with everything it should have given as missing.</summary>
    Comparison Compare(FaceCase face);
}
