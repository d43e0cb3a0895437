using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Assessment.Policies;
using EdgeLens.Assessment.Studies;
using EdgeLens.Cli.Files;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Inspecting;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Studying;
using EdgeLens.Geometry.Figures;
using EdgeLens.Reports;
using EdgeLens.Reports.Html;
using EdgeLens.Reports.Json;

namespace EdgeLens.Cli.Commands;

/// <summary><c>edgelens study</c>: several people photograph the same working ends several times; what drift can this practice see?</summary>
internal static class StudyCommand
{
    public static Command Create(Terminal terminal, Option<bool> json)
    {
        Argument<string> folder = new("FOLDER") { Description = "Photographs with an index.json in which each face view names who took it (docs/study.md)." };
        Option<string?> target = new("--out", "-o") { Description = "HTML file to write; may be left out.", HelpName = "FILE" };
        SetupOptions setup = new();
        Command command = new("study", "Repeatability and reproducibility study: says from repeated photographs by several people what drift this practice's photographs can show.\n\n" + CommandLine.ExitCodes) { folder, target };
        setup.AddTo(command);
        command.SetAction(parsed =>
        {
            ListedFolder listed = FolderIndex.Read(parsed.GetRequiredValue(folder), setup.CardPath(parsed));
            Policy policy = setup.Policy(parsed);
            int done = 0, count = listed.WorkingEnds.Sum(e => e.Inspections.Sum(d => d.Photographs.Count(p => p.View is null or PhotographView.Face && (p.TakenBy is not null || d.IsAsNew))));
            (ImmutableArray<StudyPhotograph> measured, ImmutableArray<(string FileName, string Reason)> refused) = new StudyRunner(
                setup.Reader(parsed, listed.Card, terminal), path => terminal.Error.WriteLine(FormattableString.Invariant($"[{++done}/{count}] {path}"))).Run(listed);
            foreach ((string name, string reason) in refused) terminal.Error.WriteLine($"{name}: {reason}");
            if (!GaugeStudy.Of(measured, policy).TryGet(out GaugeStudy? study, out Refusal? why)) throw new RimException(ExitCode.Refused, why.ToString());
            StudyFacts facts = new(policy.Name, measured.Length, refused);
            ReportContext context = Batch.Context(listed);
            if (parsed.GetValue(target) is { } file) AtomicFile.Write(file, StudyReport.ToHtml(study, facts, context));
            terminal.Out.Write(parsed.GetValue(json) ? StudyJson.Write(study, facts, context) : ToText(study, facts));
            return (int)(refused.IsEmpty ? ExitCode.Done : ExitCode.Refused);
        });
        return command;
    }

    private static string ToText(GaugeStudy study, StudyFacts facts) =>
        string.Create(CultureInfo.InvariantCulture, $"{facts.PhotographCount} photographs measured, {facts.Refused.Length} refused; limits: {facts.PolicyName}\n")
        + string.Concat(study.Verdicts.Select(v => $"\n{v.Name}: {v.Grade.ToString().ToLowerInvariant()}\n  {v.Words}\n"))
        + string.Concat(study.Missing.Select(m => $"\n{m.Name}: not judged, {m.Why}.\n"));
}
