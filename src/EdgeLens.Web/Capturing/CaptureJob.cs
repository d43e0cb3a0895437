using EdgeLens.Geometry.Figures;

namespace EdgeLens.Web.Capturing;

/// <summary>One upload in the queue.</summary>
internal sealed class CaptureJob(long number, CaptureRequest request, DateTimeOffset enteredAt)
{
    /// <summary>Not to be guessed; and only who sent it may see it.</summary>
    public string Id { get; } = System.Security.Cryptography.RandomNumberGenerator.GetHexString(32, lowercase: true);

    /// <summary>Counts all uploads.</summary>
    public long Number => number;

    public CaptureRequest Request => request;

    public DateTimeOffset EnteredAt => enteredAt;

    /// <summary>Given by the device that sent it, so that sending again is told from a second photograph; null: none.</summary>
    public string? SentId { get; init; }

    public TaskCompletionSource<CaptureResult> Done { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
}

/// <summary>The row in the book, or why there is none.</summary>
internal sealed record CaptureResult(long? InspectionId, Refusal? Refusal)
{
    /// <summary>Number of the tag that named the working end; null: none did.</summary>
    public int? Tag { get; init; }

    /// <summary>Where the photograph waits for an answer to the refusal; null: it does not.</summary>
    public string? HeldId { get; init; }
}
