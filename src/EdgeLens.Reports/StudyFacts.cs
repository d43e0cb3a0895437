using System.Collections.Immutable;

namespace EdgeLens.Reports;

/// <summary>What a study's report says beside its figures.</summary>
/// <param name="PolicyName">Whose limits.</param>
/// <param name="PhotographCount">That were measured.</param>
/// <param name="Refused">Photographs that were not, and why.</param>
public sealed record StudyFacts(string PolicyName, int PhotographCount, ImmutableArray<(string FileName, string Reason)> Refused);
