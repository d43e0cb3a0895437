using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text;

namespace EdgeLens.Cli.Isolation;

/// <summary>One process that measures. It answers in time and within its memory, or it is ended: native code that hangs or crashes can be stopped in no other way.</summary>
internal sealed class MeasuringProcess : IDisposable
{
    private readonly Process _process;

    private MeasuringProcess(Process process) => _process = process;

    public bool IsRunning => !_process.HasExited;

    /// <param name="arguments">Of the program, so that it runs <see cref="MeasuringWorker"/>.</param>
    /// <param name="say">Told what the process writes on its standard error.</param>
    public static MeasuringProcess Start(IEnumerable<string> arguments, Action<string> say)
    {
        UTF8Encoding plain = new(encoderShouldEmitUTF8Identifier: false);
        ProcessStartInfo start = new()
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
            StandardInputEncoding = plain,
            StandardOutputEncoding = plain,
            StandardErrorEncoding = plain,
        };
        // Started as a program of its own, it starts itself again; else by the runtime that runs this.
        if (Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "edgelens") start.FileName = Environment.ProcessPath!;
        else
        {
            start.FileName = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet"));
            start.ArgumentList.Add(typeof(MeasuringProcess).Assembly.Location);
        }
        foreach (string argument in arguments) start.ArgumentList.Add(argument);
        // Made once at full speed: a stage of measuring runs few times and long.
        start.Environment["DOTNET_TieredPGO"] = "0";
        Process process = new() { StartInfo = start };
        process.ErrorDataReceived += (_, line) =>
        {
            if (!string.IsNullOrEmpty(line.Data)) say(line.Data);
        };
        process.Start();
        process.BeginErrorReadLine();
        return new(process);
    }

    /// <summary>Asks and waits for the answer.</summary>
    /// <exception cref="MeasuringEndedException">There was none within the limits; the process is ended.</exception>
    public WorkerAnswer Ask(WorkerRequest request, MeasuringLimits limits)
    {
        long started = Stopwatch.GetTimestamp();
        try
        {
            TimeSpan before = _process.TotalProcessorTime;
            _process.StandardInput.WriteLine(WorkerLine.Of(request));
            _process.StandardInput.Flush();
            Task<string?> answer = _process.StandardOutput.ReadLineAsync();
            while (!answer.Wait(limits.LooksEvery))
            {
                if (Stopwatch.GetElapsedTime(started) > limits.Time) throw Ended(EndedBy.Time);
                _process.Refresh();
                if (_process.HasExited) continue;
                if (_process.TotalProcessorTime - before > limits.ProcessorTime) throw Ended(EndedBy.Time);
                if (_process.WorkingSet64 > limits.MemoryBytes) throw Ended(EndedBy.Memory);
            }
            return WorkerLine.Read<WorkerAnswer>(answer.Result ?? throw Ended(EndedBy.Itself));
        }
        catch (Exception e) when (e is IOException or InvalidOperationException)
        {
            // Its input is closed, or there is nothing left to be looked at: it ended between two requests or while it was being asked.
            throw Ended(EndedBy.Itself);
        }
    }

    public void Dispose()
    {
        if (!_process.HasExited) _process.Kill(entireProcessTree: true);
        _process.WaitForExit();
        _process.Dispose();
    }

    private MeasuringEndedException Ended(EndedBy by)
    {
        if (!_process.HasExited) _process.Kill(entireProcessTree: true);
        return new(by);
    }
}

/// <summary>Why a measuring process gave no answer.</summary>
internal enum EndedBy
{
    /// <summary>It took too long.</summary>
    Time,

    /// <summary>It took too much memory.</summary>
    Memory,

    /// <summary>It crashed.</summary>
    Itself,
}

/// <summary>A measuring process gave no answer.</summary>
internal sealed class MeasuringEndedException(EndedBy by) : Exception($"A measuring process ended without an answer ({by}).")
{
    public EndedBy By => by;
}
