using System.Text.Json;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Web.Capturing;

namespace EdgeLens.Cli.Isolation;

/// <summary>One thing to do for a measuring process; a line of JSON on its standard input.</summary>
/// <param name="Capture">A photograph to be measured.</param>
/// <param name="Prepare">A working end that is about to be photographed.</param>
/// <param name="Register">An inspection whose photograph is to be drawn in the frame of the as-new one.</param>
internal sealed record WorkerRequest(CaptureRequest? Capture = null, WorkingEnd? Prepare = null, InspectionEntry? Register = null);

/// <summary>What came of it; a line of JSON on its standard output.</summary>
/// <param name="Outcome">Of a photograph.</param>
/// <param name="Error">The program broke down: what and where; null: it did not.</param>
/// <param name="Registered">The picture; null: it could not be drawn.</param>
internal sealed record WorkerAnswer(CaptureOutcome? Outcome = null, string? Error = null, RegisteredFace? Registered = null);

/// <summary>Both as lines. Numbers are written so that they come back to the last bit.</summary>
internal static class WorkerLine
{
    private static readonly JsonSerializerOptions Form = new() { IgnoreReadOnlyProperties = true };

    public static string Of<T>(T message) => JsonSerializer.Serialize(message, Form);

    /// <exception cref="JsonException">It is no such line.</exception>
    public static T Read<T>(string line) where T : class => JsonSerializer.Deserialize<T>(line, Form) ?? throw new JsonException("An empty message.");
}
