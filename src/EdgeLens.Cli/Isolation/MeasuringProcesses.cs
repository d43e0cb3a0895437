using System.Collections.Concurrent;
using System.Globalization;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Web.Capturing;

namespace EdgeLens.Cli.Isolation;

/// <summary>Measures uploads in processes of their own, one for each caller at a time; a process that was ended is replaced at the next request.</summary>
/// <param name="arguments">Of the program, so that it runs <see cref="MeasuringWorker"/>.</param>
/// <param name="limits">Of each request.</param>
/// <param name="say">Told what goes wrong.</param>
internal sealed class MeasuringProcesses(IReadOnlyList<string> arguments, MeasuringLimits limits, Action<string> say) : IDisposable
{
    private readonly ConcurrentBag<MeasuringProcess> _idle = [];

    /// <summary>One upload; what ends its process is a refusal, for the photograph did it.</summary>
    public CaptureOutcome Measure(CaptureRequest request)
    {
        try
        {
            WorkerAnswer answer = Ask(new(Capture: request));
            return answer.Outcome ?? throw new InvalidOperationException(answer.Error ?? "A measuring process answered nothing.");
        }
        catch (MeasuringEndedException e)
        {
            say($"{request.FileName}: {e.Message}");
            return new(null, null, null, e.By switch
            {
                EndedBy.Time => new("measuring-too-long", string.Create(CultureInfo.InvariantCulture, $"The photograph could not be measured within {limits.ProcessorTime.TotalSeconds:0} s of computing."), "Set the camera to 12 megapixels and take it again."),
                EndedBy.Memory => new("measuring-too-large", string.Create(CultureInfo.InvariantCulture, $"Measuring the photograph took more than {limits.MemoryBytes / 1e9:0.#} GB of memory."), "Set the camera to 12 megapixels and take it again."),
                _ => new("measuring-ended", "The program that measures ended at this photograph.", "Take it again. If it happens again, this is a mistake in the program: please report it together with the photograph."),
            });
        }
    }

    /// <summary>Measures the as-new photographs of a working end that is about to be photographed. Nothing comes of it when it fails: the photograph itself will tell.</summary>
    public void Prepare(WorkingEnd end)
    {
        try
        {
            if (Ask(new(Prepare: end)).Error is { } error) say(error);
        }
        catch (MeasuringEndedException e)
        {
            say(e.Message);
        }
    }

    /// <summary>The photograph of an inspection in the frame of the as-new one; null where that cannot be done.</summary>
    public RegisteredFace? Register(InspectionEntry inspection)
    {
        try
        {
            WorkerAnswer answer = Ask(new(Register: inspection));
            if (answer.Error is { } error) say(error);
            return answer.Registered;
        }
        catch (MeasuringEndedException e)
        {
            say(e.Message);
            return null;
        }
    }

    public void Dispose()
    {
        while (_idle.TryTake(out MeasuringProcess? process)) process.Dispose();
    }

    private WorkerAnswer Ask(WorkerRequest request)
    {
        MeasuringProcess? process = null;
        while (_idle.TryTake(out process) && !process.IsRunning) process.Dispose();
        process ??= MeasuringProcess.Start(arguments, say);
        WorkerAnswer? answer = null;
        try
        {
            return answer = process.Ask(request, limits);
        }
        finally
        {
            if (answer is null) process.Dispose();
            else _idle.Add(process);
        }
    }
}
