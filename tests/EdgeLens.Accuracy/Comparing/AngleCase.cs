using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;

namespace EdgeLens.Accuracy.Comparing;

/// <summary>One good toe or side view: the truth, and what the program made of it.</summary>
/// <param name="Family">Of the working end.</param>
/// <param name="Truth">Of this photograph.</param>
/// <param name="Seen">Null when the program refused.</param>
public sealed record AngleCase(FamilyTraits Family, WorkingEndTruth Truth, AngleMeasurement? Seen);
