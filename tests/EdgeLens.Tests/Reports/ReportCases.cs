using System.Collections.Concurrent;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Inspections;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Geometry.Figures;
using EdgeLens.Reports;
using EdgeLens.Reports.Html;
using EdgeLens.Tests.Inspections;
using Xunit;

namespace EdgeLens.Tests.Reports;

/// <summary>Inspections of every kind that a report must be able to show.</summary>
internal static class ReportCases
{
    public static readonly ReportContext Context = new("0.1.0", "Fallow Lane Animal Clinic");

    public static readonly Refusal OutOfFocus = new("out-of-focus", "The cutting edge is out of focus.", "Move the phone until the edge itself is sharpest.", 41.25, 25, "µm");

    public static TheoryData<string> Names => [.. ByName.Keys];

    public static IReadOnlyDictionary<string, Lazy<Inspection>> ByName { get; } = new Dictionary<string, Lazy<Inspection>>
    {
        ["sharp"] = new(() => SyntheticCases.Sharp.Inspect()),
        ["slightly dull"] = new(() => SyntheticCases.SlightlyDull.Inspect()),
        ["dull and nicked"] = new(() => SyntheticCases.DullAndNicked.Inspect(note: "slides on the rod")),
        ["without baseline"] = new(() => SyntheticCases.DullAndNicked.Inspect(withBaseline: false)),
        ["worn"] = new(() => SyntheticCases.Worn.Inspect()),
        ["watched"] = new(() => SyntheticCases.Watched.Inspect()),
        ["luxator in the dark"] = new(() => SyntheticCases.LuxatorLitFromTheSides.Inspect()),
        ["dull luxator"] = new(() => SyntheticCases.DullLuxator.Inspect()),
        ["dull scaler"] = new(() => SyntheticCases.DullScaler.Inspect()),
        ["area-specific"] = new(() => (SyntheticCases.DullAndNicked with { Family = InstrumentFamily.AreaSpecificCurette }).Inspect(workingEdge: EdgePart.Right)),
        ["refused"] = new(Refused),
        ["baseline refused"] = new(() => SyntheticCases.Sharp.Inspect(withBaseline: false) with { Refusals = [new(RefusedSubject.BaselineFaceView, "old.jpg", OutOfFocus)] }),
    };

    /// <summary>The page of a case, made once.</summary>
    public static string Html(string name) => Pages.GetOrAdd(name, n => InspectionReport.ToHtml(ByName[n].Value, Photograph(ByName[n].Value), Context));

    private static readonly ConcurrentDictionary<string, string> Pages = new();

    public static Inspection Refused() => new()
    {
        InstrumentId = "UC-07",
        WorkingEnd = 2,
        Family = InstrumentFamily.UniversalCurette,
        Date = new(2025, 6, 20),
        Verdict = VerdictDecider.Refused([OutOfFocus], Policy.Default),
        Refusals = [new(RefusedSubject.TodayFaceView, "IMG_0412.jpg", OutOfFocus)],
    };

    public static ReportPhotograph? Photograph(Inspection inspection) => inspection.Today is null ? null : SyntheticPhotograph.Of(inspection);
}
