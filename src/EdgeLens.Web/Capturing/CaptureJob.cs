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

    public TaskCompletionSource<CaptureResult> Done { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
}

/// <summary>The row in the book, or why there is none.</summary>
internal sealed record CaptureResult(long? InspectionId, Refusal? Refusal);
