using System.Collections.Immutable;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Rim;
using EdgeLens.Measuring.Pictures;

namespace EdgeLens.Cli.Inspecting;

/// <summary>One working end on one day, judged.</summary>
/// <param name="Inspection">What reports are made from.</param>
/// <param name="Picture">Of today's face view; null when there is none.</param>
/// <param name="AnglePictures">Of today's toe or side view; empty when there is none.</param>
/// <param name="NotMeasured">Photographs of the day that the verdict does not rest on.</param>
/// <param name="Code">What this day alone would end the program with.</param>
public sealed record InspectedDay(Inspection Inspection, WorkingEndPicture? Picture, ImmutableArray<AnglePicture> AnglePictures, ImmutableArray<PhotographNotMeasured> NotMeasured, ExitCode Code);

/// <summary>A photograph that was left out.</summary>
/// <param name="FileName">Without folder.</param>
/// <param name="View">What it shows.</param>
/// <param name="Why">One sentence.</param>
public sealed record PhotographNotMeasured(string FileName, PhotographView View, string Why);
