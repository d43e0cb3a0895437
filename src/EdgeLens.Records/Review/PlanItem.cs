using System.Collections.Immutable;

namespace EdgeLens.Records.Review;

/// <summary>What a practice can do about a working end, the most urgent first.</summary>
public enum PlanAction
{
    /// <summary>Take it out of use.</summary>
    Retire,

    /// <summary>Grind the edge along its whole length.</summary>
    Resharpen,

    /// <summary>A few light strokes.</summary>
    TouchUp,

    /// <summary>Order a new one before the limit is met.</summary>
    Order,

    /// <summary>The last photograph told nothing, or the edge was worked on since.</summary>
    PhotographAgain,

    /// <summary>The last inspection is long ago, or there is none.</summary>
    Inspect,

    /// <summary>Nothing for now.</summary>
    Keep,
}

/// <summary>One thing to do.</summary>
/// <param name="File">Of the working end.</param>
/// <param name="Action">What.</param>
/// <param name="DueBy">Until when; null: now.</param>
/// <param name="Cost">In the practice's currency; null: it costs nothing, or the price is not known.</param>
/// <param name="IsPriceMissing">True where a new one must be bought and its price is not in the book.</param>
/// <param name="Reasons">Whole sentences, the deciding one first.</param>
public sealed record PlanItem(WorkingEndFile File, PlanAction Action, DateOnly? DueBy, decimal? Cost, bool IsPriceMissing, ImmutableArray<string> Reasons);

/// <summary>How a practice plans.</summary>
public sealed record PlanningOptions
{
    /// <summary>The documented assumptions.</summary>
    public static PlanningOptions Default { get; } = new();

    /// <summary>Days from order to a new instrument in the cassette, first photographs included. Common practice: two to four weeks; too short and a cassette is short of one.</summary>
    public int DeliveryDays { get; init; } = 30;

    /// <summary>How far ahead orders are listed, days. A quarter is what practices order for; longer ahead the forecast's interval is mostly wider than the plan.</summary>
    public int AheadDays { get; init; } = 90;

    /// <summary>Days after which a working end in use is to be inspected again. Common practice: edges are looked at with every sharpening, and all of them at least twice a year.</summary>
    public int InspectEveryDays { get; init; } = 182;

    /// <summary>Sharpenings on a stone after which it is to be wiped. Common practice: with every use; from this many on swarf fills it.</summary>
    public int WipeAfterSharpenings { get; init; } = 5;
}
