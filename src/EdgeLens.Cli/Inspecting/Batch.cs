using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Reports;

namespace EdgeLens.Cli.Inspecting;

/// <summary>Inspects every working end of a folder. What goes wrong with one is told and does not stop the others.</summary>
/// <param name="inspector">Measures and judges.</param>
/// <param name="complaints">Told where the program broke down, if it does.</param>
public sealed class Batch(WorkingEndInspector inspector, TextWriter complaints)
{
    /// <summary>True when each report ends with the uncertainty budgets.</summary>
    public bool ShowsBudgets { get; init; }

    /// <summary>How many photographs will be measured.</summary>
    public static int PhotographCount(ListedFolder folder) => folder.WorkingEnds.Sum(e => e.Inspections.Sum(d => d.Photographs.Length));

    /// <summary>What the reports of a folder say about themselves.</summary>
    public static ReportContext Context(ListedFolder folder) => new(Terminal.ProgramVersion, folder.PracticeName, folder.IsRendered);

    /// <summary>Reports are written as each working end is done, so that a run that is stopped leaves what it has.</summary>
    /// <exception cref="RimException">The overview cannot be written.</exception>
    public BatchResult Run(ListedFolder folder, string target)
    {
        ReportFolder reports = new(target, Context(folder) with { ShowsBudgets = ShowsBudgets });
        List<WrittenReport> written = [];
        List<BatchFailure> failures = [];
        foreach (ListedWorkingEnd end in folder.WorkingEnds)
        {
            try
            {
                written.AddRange(reports.Write(inspector.Inspect(end)));
            }
            catch (RimException e)
            {
                failures.Add(new(end.InstrumentId, end.WorkingEnd, e.Message, e.Code));
            }
            catch (Exception e) when (e is not OpenCvMissingException)
            {
                complaints.WriteLine(e);
                failures.Add(new(end.InstrumentId, end.WorkingEnd, $"The program broke down ({e.GetType().Name}): this is a mistake in the program, please report it.", ExitCode.BrokeDown));
            }
        }
        reports.WriteOverview();
        return new([.. written], reports.OverviewPath, [.. failures]);
    }
}
