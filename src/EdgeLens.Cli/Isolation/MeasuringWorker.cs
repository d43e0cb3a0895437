using System.Diagnostics;
using System.Text;
using EdgeLens.Cli.Books;

namespace EdgeLens.Cli.Isolation;

/// <summary>Inside a measuring process: answers one request after the other until its input ends.</summary>
internal static class MeasuringWorker
{
    public static void Run(CaptureMeasurer measurer, Stream input, Stream output)
    {
        // Pages go first: their server runs at the usual priority. Threads that are started from here on inherit it, those of OpenCV too.
        using (Process self = Process.GetCurrentProcess()) self.PriorityClass = ProcessPriorityClass.BelowNormal;
        UTF8Encoding plain = new(encoderShouldEmitUTF8Identifier: false);
        using StreamReader requests = new(input, plain);
        using StreamWriter answers = new(output, plain) { AutoFlush = true, NewLine = "\n" };
        while (requests.ReadLine() is { } line) answers.WriteLine(WorkerLine.Of(Answer(measurer, WorkerLine.Read<WorkerRequest>(line))));
    }

    private static WorkerAnswer Answer(CaptureMeasurer measurer, WorkerRequest request)
    {
        try
        {
            if (request.Prepare is { } end) measurer.Prepare(end);
            if (request.Register is { } inspection) return new(Registered: measurer.Register(inspection));
            return new(request.Capture is { } capture ? measurer.Measure(capture) : null);
        }
        catch (Exception e)
        {
            // The rim of the process: the server tells it, and the next photograph is measured all the same.
            return new(Error: e.ToString());
        }
    }
}
