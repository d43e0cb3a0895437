using System.Collections.Immutable;
using EdgeLens.PracticeReports.Content;
using SkiaSharp;

namespace EdgeLens.PracticeReports.Pdf;

/// <summary>Sets a table: the head on every page, rows whole.</summary>
internal sealed class TablePrinter(PageComposer page)
{
    private const double TextMm = 3.0, SmallMm = 2.6, Leading = 1.36, PaddingMm = 1.2, GutterMm = 3, SignMm = 5, TickMm = 2.7;

    /// <summary>Head and first row.</summary>
    public double LeastHeight(Table table) => HeadHeight(table) + (table.Rows.IsEmpty ? 0 : RowHeight(table, table.Rows[0]));

    /// <summary>Sets it here.</summary>
    public void Print(Table table)
    {
        page.Need(Math.Min(LeastHeight(table), page.FullHeightMm));
        Head(table);
        foreach (ImmutableArray<Cell> row in table.Rows)
        {
            double height = RowHeight(table, row);
            if (height > page.LeftMm && !page.IsAtTop)
            {
                page.NewPage();
                Head(table);
            }
            page.Put(height, (canvas, top) => Row(canvas, table, row, top, height));
        }
    }

    private double[] Widths(Table table) => [.. table.Columns.Select(c => (page.WidthMm - GutterMm * (table.Columns.Length - 1)) * c.Share / table.Columns.Sum(k => k.Share))];

    private double HeadHeight(Table table) => Widths(table).Zip(table.Columns).Max(c => Pen.Wrap(c.Second.Title, c.First, SmallMm, true).Length) * SmallMm * Leading + 2 * PaddingMm;

    private void Head(Table table)
    {
        double height = HeadHeight(table);
        double[] widths = Widths(table);
        page.Put(height, (canvas, top) =>
        {
            double x = PageComposer.MarginMm;
            for (int i = 0; i < widths.Length; i++)
            {
                double y = top + PaddingMm;
                foreach (string line in Pen.Wrap(table.Columns[i].Title, widths[i], SmallMm, true))
                {
                    Place(canvas, table.Columns[i], x, widths[i], y + SmallMm, line, SmallMm, true, Pen.Soft);
                    y += SmallMm * Leading;
                }
                x += widths[i] + GutterMm;
            }
            Pen.Line(canvas, PageComposer.MarginMm, top + height, PageComposer.MarginMm + page.WidthMm, top + height, Pen.Ink, 0.3);
        });
    }

    private static double Indent(Cell cell) => cell.Sign is not null ? SignMm + 1.5 : cell.TickBoxes > 0 ? TickMm + 1.5 : 0;

    private double RowHeight(Table table, ImmutableArray<Cell> row) => Widths(table).Zip(row).Max(c => CellHeight(c.Second, c.First)) + 2 * PaddingMm;

    private static double CellHeight(Cell cell, double width) => Math.Max(
        cell.Sign is null ? 0 : SignMm,
        Texts(cell, width).Length * TextMm * Leading + (cell.Small is { } small ? Pen.Wrap(small, width - Indent(cell), SmallMm).Length * SmallMm * Leading : 0));

    private static string[] Texts(Cell cell, double width) => Pen.Wrap(cell.Text, width - Indent(cell), TextMm);

    private void Row(SKCanvas canvas, Table table, ImmutableArray<Cell> row, double top, double height)
    {
        double[] widths = Widths(table);
        double x = PageComposer.MarginMm;
        for (int i = 0; i < widths.Length; i++)
        {
            Cell cell = row[i];
            double y = top + PaddingMm, indent = Indent(cell);
            if (cell.Sign is { } sign) Pen.Sign(canvas, sign, x, y - 0.4, SignMm);
            foreach (string paragraph in cell.TickBoxes > 0 ? cell.Text.Split('\n') : [cell.Text])
            {
                if (cell.TickBoxes > 0) Pen.Box(canvas, x, y + 0.4, TickMm, TickMm, Pen.Ink, 0.25);
                foreach (string line in Pen.Wrap(paragraph, widths[i] - indent, TextMm))
                {
                    Place(canvas, table.Columns[i], x + indent, widths[i] - indent, y + TextMm, line, TextMm, false, Pen.Ink);
                    y += TextMm * Leading;
                }
            }
            if (cell.Small is { } small)
                foreach (string line in Pen.Wrap(small, widths[i] - indent, SmallMm))
                {
                    Place(canvas, table.Columns[i], x + indent, widths[i] - indent, y + SmallMm, line, SmallMm, false, Pen.Soft);
                    y += SmallMm * Leading;
                }
            x += widths[i] + GutterMm;
        }
        Pen.Line(canvas, PageComposer.MarginMm, top + height, PageComposer.MarginMm + page.WidthMm, top + height, Pen.Grey, 0.15);
    }

    private static void Place(SKCanvas canvas, Column column, double x, double width, double baseline, string text, double sizeMm, bool bold, SKColor color) =>
        Pen.Text(canvas, column.IsNumber ? x + width : x, baseline, text, sizeMm, bold, color, column.IsNumber);
}
