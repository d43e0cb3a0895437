using System.Collections.Immutable;

namespace EdgeLens.Cli.Books.Demo;

/// <summary>clinic.json of the demonstration (demo-images/README.md). Days are texts as 2025-01-31.</summary>
internal sealed record ClinicData(
    string Practice, string Currency, string Card, ImmutableArray<ClinicPlace> Sites, ImmutableArray<ClinicCassette> Cassettes, ImmutableArray<ClinicStone> Stones, ImmutableArray<ClinicInstrument> Instruments,
    ImmutableArray<ClinicUse> Uses);

internal sealed record ClinicPlace(string Code, string Name);

internal sealed record ClinicCassette(string Code, string Name, string Site);

internal sealed record ClinicStone(string Code, string Description, int Zones, string Wiped, string CheckedFlat);

/// <summary>Procedures with a cassette in a month.</summary>
internal sealed record ClinicUse(string Cassette, string Day, int Light, int Heavy);

internal sealed record ClinicInstrument(
    string Code, string Description, string Cassette, DateOnly Bought, decimal? Price, ImmutableArray<ClinicEnd> Ends, string? State, DateOnly? StateDay, string? StateReason);

internal sealed record ClinicEnd(
    string Family, string? WorkingEdge, double? MakerLengthMm, ImmutableArray<ClinicInspection> Inspections, ImmutableArray<ClinicSharpening> Sharpenings, ImmutableArray<ClinicRodTest> RodTests);

/// <summary>Either a photograph, or invented figures.</summary>
internal sealed record ClinicInspection(DateOnly Day, bool AsNew, string? Note, ClinicPhotograph? Photograph, ClinicInvented? Invented, string? SignedOffBy, string? SignOffComment);

internal sealed record ClinicPhotograph(string File, double BarXMm, double BarYMm);

internal sealed record ClinicInvented(string Verdict, string Headline, string Reason, string NextStep, double? WidthLossPercent, double? LengthLossMm, double? ReflectingLeftPercent, double? ReflectingRightPercent);

internal sealed record ClinicSharpening(DateOnly Day, string? By, string? Stone, int? Zone, int? Strokes, string? Note);

internal sealed record ClinicRodTest(DateOnly Day, bool Bites);
