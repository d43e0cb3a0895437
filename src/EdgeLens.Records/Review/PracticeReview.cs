using System.Collections.Immutable;
using System.Globalization;
using EdgeLens.Assessment.Decision;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Trend;
using EdgeLens.Assessment.Wording;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;

namespace EdgeLens.Records.Review;

/// <summary>What a practice has to do, sorted by urgency, with reasons and costs.</summary>
/// <param name="Day">As of which day.</param>
/// <param name="File">What it was made from.</param>
/// <param name="Items">At least one for each working end that is not retired; the most urgent first.</param>
/// <param name="Stones">What the stones need, whole sentences.</param>
public sealed record PracticeReview(DateOnly Day, PracticeFile File, ImmutableArray<PlanItem> Items, ImmutableArray<string> Stones)
{
    /// <summary>Prices of all instruments to be ordered whose price is known; each instrument once.</summary>
    public decimal KnownCost => Items.Where(i => i.Cost is not null).DistinctBy(i => i.File.Instrument.Code).Sum(i => i.Cost!.Value);

    /// <summary>How many instruments to be ordered have no price in the book.</summary>
    public int PricesMissing => Items.Where(i => i.IsPriceMissing).Select(i => i.File.Instrument.Code).Distinct().Count();

    /// <summary>Plans a practice.</summary>
    /// <param name="file">With the figures of <see cref="WearSeries.FigureNames"/>.</param>
    /// <param name="policy">Whose limits.</param>
    /// <param name="day">Today.</param>
    /// <param name="options">Null for the documented assumptions.</param>
    public static PracticeReview Of(PracticeFile file, Policy policy, DateOnly day, PlanningOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(policy);
        options ??= PlanningOptions.Default;
        IEnumerable<PlanItem> items = file.WorkingEnds.Where(e => e.State != InstrumentState.Retired).SelectMany(e => Plan(e, policy, day, options));
        return new(day, file, [.. items.OrderBy(i => i.Action).ThenBy(i => i.DueBy ?? DateOnly.MinValue).ThenBy(i => i.File.Instrument.Code, StringComparer.Ordinal).ThenBy(i => i.File.End.End)], [.. StoneCares(file, options)]);
    }

    /// <summary>What one working end needs.</summary>
    public static IEnumerable<PlanItem> Plan(WorkingEndFile file, Policy policy, DateOnly day, PlanningOptions options)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(policy);
        ArgumentNullException.ThrowIfNull(options);
        if (file.Latest is not { } latest)
        {
            yield return new(file, PlanAction.Inspect, null, null, false, ["It was never inspected."]);
            yield break;
        }
        PlanItem byVerdict = ByVerdict(file, latest, day, options);
        yield return byVerdict;
        if (byVerdict.Action == PlanAction.Retire) yield return Order(file, null, ["It is to be retired now."]);
        else if (Earliest(file, policy) is var (first, series) && first is { } meets && meets.DayNumber - options.DeliveryDays - day.DayNumber <= options.AheadDays)
            yield return Order(file, DateOnly.FromDayNumber(Math.Max(day.DayNumber, meets.DayNumber - options.DeliveryDays)), [ForecastWords(series!)]);
    }

    private static PlanItem ByVerdict(WorkingEndFile file, InspectionEntry latest, DateOnly day, PlanningOptions options)
    {
        ImmutableArray<string> reasons = [.. Words(file, latest)];
        int age = day.DayNumber - latest.Day.DayNumber;
        PlanAction action = latest.Verdict switch
        {
            // A lost metal stays lost, whatever was sharpened since.
            VerdictKind.Retire => PlanAction.Retire,
            _ when file.SharpeningsSinceLatest > 0 => PlanAction.PhotographAgain,
            VerdictKind.Resharpen => PlanAction.Resharpen,
            VerdictKind.TouchUp => PlanAction.TouchUp,
            VerdictKind.Retake => PlanAction.PhotographAgain,
            _ => age > options.InspectEveryDays ? PlanAction.Inspect : PlanAction.Keep,
        };
        return action switch
        {
            PlanAction.PhotographAgain when latest.Verdict != VerdictKind.Retake => new(file, action, null, null, false,
                [string.Create(CultureInfo.InvariantCulture, $"It was sharpened {Times(file.SharpeningsSinceLatest)} since its last inspection on {latest.Day:yyyy-MM-dd} ({latest.Headline})."), .. reasons]),
            PlanAction.Inspect => new(file, action, null, null, false, [string.Create(CultureInfo.InvariantCulture, $"Its last inspection on {latest.Day:yyyy-MM-dd} is {age} days ago; every {options.InspectEveryDays} days is planned.")]),
            PlanAction.Keep => new(file, action, latest.Day.AddDays(options.InspectEveryDays), null, false, reasons),
            _ => new(file, action, null, null, false, reasons),
        };
    }

    private static IEnumerable<string> Words(WorkingEndFile file, InspectionEntry latest)
    {
        // The clinician's word stands before the program's.
        if (file.SignOffs.LastOrDefault(s => s.InspectionId == latest.Id || s.InspectionId == latest.Occasion) is { } signed)
            yield return signed.Agrees == false ? $"{signed.By} does not agree with the verdict: {signed.Comment}" : signed.Agrees == true ? $"{signed.By} agrees{(signed.Comment is null ? "" : ": " + signed.Comment)}" : $"{signed.By}: {signed.Comment}";
        foreach (string reason in latest.Reasons.Split('\n', StringSplitOptions.RemoveEmptyEntries)) yield return reason;
    }

    private static PlanItem Order(WorkingEndFile file, DateOnly? by, ImmutableArray<string> reasons) => new(file, PlanAction.Order, by, file.Instrument.Price, file.Instrument.Price is null, reasons);

    /// <summary>The first day on which a limit for retiring may be met, of all measures; of a weak trend, whose interval mostly says how little is known, the likely day.</summary>
    private static (DateOnly? Day, WearSeries? Series) Earliest(WorkingEndFile file, Policy policy) =>
        WearSeries.Of(file, policy.For(file.End.Family))
            .Select(s => (Day: s.Trend.TryGet(out WearTrend? trend, out _) && trend.IsWeak ? s.Forecast?.MeetsLimit?.Likely : s.Forecast?.MeetsLimit?.Earliest, Series: (WearSeries?)s)).Where(s => s.Day is not null).OrderBy(s => s.Day).FirstOrDefault();

    /// <summary>A forecast in a sentence.</summary>
    public static string ForecastWords(WearSeries series)
    {
        ArgumentNullException.ThrowIfNull(series);
        if (series.Forecast is not { } forecast) return series.Trend.Refusal is { } refusal ? $"No forecast: {refusal.Reason} {refusal.Advice}" : "No forecast: the policy has no limit for it.";
        string limit = FigureText.Limit(forecast.Limit, series.Measure.Unit);
        if (forecast.IsMet) return $"{series.Title}: the limit of {limit} is met.";
        string day = forecast.MeetsLimit is { } meets
            ? $"at the rate so far the limit of {limit} is met {(meets.Likely is { } likely ? $"about {DateText.Iso(likely)}" : $"after {DateText.Iso(meets.Horizon)}")} ({(meets.Earliest is { } earliest ? $"not before {DateText.Iso(earliest)}" : $"not before {DateText.Iso(meets.Horizon)}")}, {(meets.Latest is { } latest ? $"at the latest {DateText.Iso(latest)}" : "no latest day can be told")}; 95 %)"
            : forecast.WhyNoDay ?? "no day can be told";
        string left = forecast.SharpeningsLeft is { } sharpenings ? string.Create(CultureInfo.InvariantCulture, $"; sharpenings left: at least {sharpenings.AtLeast}{(sharpenings.Likely is { } likelyLeft ? $", likely {likelyLeft}" : "")}") : "";
        return $"{series.Title}: {day}{left}.";
    }

    private static IEnumerable<string> StoneCares(PracticeFile file, PlanningOptions options)
    {
        foreach (StoneFile stone in file.Stones)
        {
            if (stone.LastFlatnessCheck is { IsFlat: false } hollow) yield return $"Stone {stone.Stone.Code} was hollow on {DateText.Iso(hollow.Day)}: dress it before it is used.";
            if (stone.UsedSinceWiped >= options.WipeAfterSharpenings) yield return string.Create(CultureInfo.InvariantCulture, $"Stone {stone.Stone.Code} was used {Times(stone.UsedSinceWiped)} since it was wiped: wipe it.");
            yield return string.Create(CultureInfo.InvariantCulture, $"Stone {stone.Stone.Code}: use zone {stone.NextZone} of {stone.Stone.Zones} next.");
        }
    }

    private static string Times(int count) => count == 1 ? "once" : count == 2 ? "twice" : string.Create(CultureInfo.InvariantCulture, $"{count} times");
}
