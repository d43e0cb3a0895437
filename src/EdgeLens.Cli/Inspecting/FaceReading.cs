using EdgeLens.Cli.Rim;
using EdgeLens.Geometry.Figures;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Measuring.Pictures;

namespace EdgeLens.Cli.Inspecting;

/// <summary>What came of one face view: a result or a refusal, never an exception.</summary>
/// <param name="Path">Of the file.</param>
/// <param name="Face">Null when refused.</param>
/// <param name="Refusal">Null when measured.</param>
/// <param name="Picture">To be shown; null when the file could not be read.</param>
/// <param name="TakenOn">By the camera's clock; null when the file does not tell.</param>
/// <param name="Code">What this photograph alone would end the program with.</param>
public sealed record FaceReading(string Path, FaceResult? Face, Refusal? Refusal, WorkingEndPicture? Picture, DateOnly? TakenOn, ExitCode Code);
