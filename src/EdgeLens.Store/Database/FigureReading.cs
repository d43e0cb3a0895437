using EdgeLens.Records.Inspections;
using Microsoft.EntityFrameworkCore;

namespace EdgeLens.Store.Database;

/// <summary>Reads the history of some figures.</summary>
internal static class FigureReading
{
    public static IReadOnlyList<DatedFigure> Read(BookContext context, IReadOnlyCollection<string> names, string? instrument)
    {
        IQueryable<InspectionEntry> inspections = CurrentRows.Of<InspectionEntry>(context);
        if (instrument is not null) inspections = inspections.Where(i => i.Instrument == instrument);
        Dictionary<long, InspectionEntry> byId = inspections.ToDictionary(i => i.Id);
        string[] wanted = [.. names];
        IQueryable<FigureRow> figures = context.Set<FigureRow>().AsNoTracking().Where(f => wanted.Contains(f.Name));
        if (instrument is not null) figures = figures.Where(f => inspections.Any(i => i.Id == f.InspectionId));
        return
        [
            .. figures.AsEnumerable().Where(f => byId.ContainsKey(f.InspectionId)).Select(f => new DatedFigure(byId[f.InspectionId], f))
                .OrderBy(d => d.Inspection.Instrument, StringComparer.Ordinal).ThenBy(d => d.Inspection.End).ThenBy(d => d.Inspection.When).ThenBy(d => d.Figure.InspectionId).ThenBy(d => d.Figure.Position),
        ];
    }
}
