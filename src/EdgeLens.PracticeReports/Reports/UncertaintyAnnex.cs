using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using EdgeLens.Assessment.Wording;
using EdgeLens.PracticeReports.Content;
using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;

namespace EdgeLens.PracticeReports.Reports;

/// <summary>Where the uncertainties of the last inspection come from, as its own document says.</summary>
internal static class UncertaintyAnnex
{
    public static IEnumerable<Block> Of(IRecordBook book, InspectionEntry inspection)
    {
        yield return new Heading("Annex: where the uncertainties come from", StartsPage: true);
        if (book.Document(inspection.Id)?.ReadJson() is not { } json)
        {
            yield return new Paragraph("Nothing was measured for this inspection: there is no uncertainty to be taken apart.");
            yield break;
        }
        using JsonDocument document = JsonDocument.Parse(json);
        if (!document.RootElement.TryGetProperty("drift", out JsonElement drift) || drift.ValueKind != JsonValueKind.Object || !drift.TryGetProperty("budgets", out JsonElement budgets))
        {
            yield return new Paragraph("This inspection was not compared with as-new: only losses have a budget.");
            yield break;
        }
        yield return new Paragraph("Standard uncertainties; the squares of the contributions add up to the square of the whole (JCGM 100, 5.1.2). In tables of figures U is twice the whole (k = 2).", IsRemark: true);
        ImmutableArray<ImmutableArray<Cell>>.Builder rows = ImmutableArray.CreateBuilder<ImmutableArray<Cell>>();
        foreach (JsonElement budget in budgets.EnumerateArray())
        {
            JsonElement[] parts = [.. budget.GetProperty("contributions").EnumerateArray()];
            double whole = Math.Sqrt(parts.Sum(p => Math.Pow(p.GetProperty("contribution").GetDouble(), 2)));
            string place = budget.GetProperty("stationMm") is { ValueKind: JsonValueKind.Number } station ? string.Create(CultureInfo.InvariantCulture, $", {station.GetDouble():0.0##} mm") : "";
            rows.Add([
                FigureTable.Title(budget.GetProperty("figure").GetString()!) + place,
                string.Join('\n', parts.Select(p => $"{p.GetProperty("name").GetString()}: {FigureText.Number(p.GetProperty("contribution").GetDouble(), 2)}")),
                FigureText.Number(whole, 2),
            ]);
        }
        yield return new Table([new("Figure", 3), new("Contributions", 6), new("Whole", 1.2, IsNumber: true)], rows.ToImmutable());
    }
}
