using EdgeLens.Records.Inspections;
using Microsoft.EntityFrameworkCore;

namespace EdgeLens.Store.Database;

/// <summary>Reads the history of some figures.</summary>
internal static class FigureReading
{
    public static IReadOnlyList<DatedFigure> Read(BookContext context, IReadOnlyCollection<string> names, IReadOnlyCollection<string> instruments)
    {
        string[] figures = [.. names], wanted = [.. instruments];
        if (figures.Length == 0 || wanted.Length == 0) return [];
        IQueryable<InspectionEntry> inspections = CurrentRows.Of<InspectionEntry>(context).Where(i => wanted.Contains(i.Instrument));
        Dictionary<long, InspectionEntry> byId = inspections.ToDictionary(i => i.Id);
        // Over all rows of those instruments, by their index; the few that are corrected or withdrawn fall out afterwards.
        IQueryable<FigureRow> rows =
            from i in context.Set<InspectionEntry>().Where(i => wanted.Contains(i.Instrument))
            join f in context.Set<FigureRow>() on i.Id equals f.InspectionId
            where figures.Contains(f.Name)
            select f;
        return
        [
            .. rows.AsNoTracking().AsEnumerable().Where(f => byId.ContainsKey(f.InspectionId)).Select(f => new DatedFigure(byId[f.InspectionId], f))
                .OrderBy(d => d.Inspection.Instrument, StringComparer.Ordinal).ThenBy(d => d.Inspection.End).ThenBy(d => d.Inspection.When).ThenBy(d => d.Figure.InspectionId).ThenBy(d => d.Figure.Position),
        ];
    }
}
