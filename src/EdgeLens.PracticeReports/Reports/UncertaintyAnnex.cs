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
    // A tenth of the whole is a hundredth of its square: what is less changes nothing that is shown.
    private const double LeastShare = 0.1;

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
        yield return new Paragraph("Standard uncertainties; the squares of the contributions add up to the square of the whole (JCGM 100, 5.1.2); those below a tenth of the whole are left out. In tables of figures U is twice the whole (k = 2).", IsRemark: true);
        ImmutableArray<ImmutableArray<Cell>>.Builder rows = ImmutableArray.CreateBuilder<ImmutableArray<Cell>>();
        // Of the stations the one that lost most: the budgets of the others differ by little.
        double? worst = book.Figures(inspection.Id).Where(f => f is { Name: "widthLossPercent", StationMm: not null, Value: not null }).MaxBy(f => f.Value)?.StationMm;
        foreach (JsonElement budget in budgets.EnumerateArray())
        {
            if (budget.GetProperty("stationMm") is { ValueKind: JsonValueKind.Number } of && of.GetDouble() != worst) continue;
            JsonElement[] parts = [.. budget.GetProperty("contributions").EnumerateArray()];
            double whole = Math.Sqrt(parts.Sum(p => Math.Pow(p.GetProperty("contribution").GetDouble(), 2)));
            string name = budget.GetProperty("figure").GetString()!;
            string place = budget.GetProperty("stationMm") is { ValueKind: JsonValueKind.Number } station ? string.Create(CultureInfo.InvariantCulture, $", {station.GetDouble():0.0##} mm") : "";
            rows.Add([
                FigureTable.Title(name) + place,
                string.Join('\n', parts.Where(p => Math.Abs(p.GetProperty("contribution").GetDouble()) > LeastShare * whole).OrderByDescending(p => Math.Abs(p.GetProperty("contribution").GetDouble())).Select(p => $"{p.GetProperty("name").GetString()}: {FigureText.Number(p.GetProperty("contribution").GetDouble(), 2)}")),
                $"{FigureText.Number(whole, 2)} {(name.EndsWith("Percent", StringComparison.Ordinal) ? "%" : "µm")}",
            ]);
        }
        yield return new Table([new("Figure", 3), new("Contributions, in the unit of the whole", 6), new("Whole", 1.4, IsNumber: true)], rows.ToImmutable());
    }
}
