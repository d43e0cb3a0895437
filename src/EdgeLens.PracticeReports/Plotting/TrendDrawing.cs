using System.Globalization;
using EdgeLens.Assessment.Wording;
using EdgeLens.PracticeReports.Fonts;
using ScottPlot;
using ScottPlot.Plottables;
using SkiaSharp;

namespace EdgeLens.PracticeReports.Plotting;

/// <summary>Draws a trend's plot by ScottPlot: into a page of a PDF, or as SVG. Shape, dash and a word tell each thing apart; colour only helps.</summary>
internal static class TrendDrawing
{
    private static readonly Color Ink = Color.FromHex("#1b2430"), Deep = Color.FromHex("#0d5c63"), Rust = Color.FromHex("#a8461c"), Slate = Color.FromHex("#42526b"), Grid = Color.FromHex("#dcd8cf");

    /// <summary>Pixels of the drawing; 96 to the inch make it 181 mm wide.</summary>
    public const int WidthPx = 684, HeightPx = 300;

    /// <summary>As an SVG document.</summary>
    public static string ToSvg(TrendPlot content)
    {
        using Plot plot = Build(content);
        return plot.GetSvgXml(WidthPx, HeightPx);
    }

    /// <summary>Into a canvas whose origin is the plot's top left corner and whose unit is the drawing's pixel.</summary>
    public static void Draw(SKCanvas canvas, TrendPlot content)
    {
        using Plot plot = Build(content);
        plot.Render(canvas, new PixelRect(0, WidthPx, HeightPx, 0));
    }

    private static Plot Build(TrendPlot content)
    {
        ReportFonts.UseInPlots();
        Plot plot = new();
        plot.FigureBackground.Color = Colors.White;
        plot.Grid.MajorLineColor = Grid;
        plot.Font.Set(ReportFonts.Family);
        plot.Axes.Color(Ink);
        plot.Axes.DateTimeTicksBottom();
        if (plot.Axes.Bottom.TickGenerator is ScottPlot.TickGenerators.DateTimeAutomatic dates) dates.LabelFormatter = day => day.ToString("yyyy-MM", CultureInfo.InvariantCulture);
        plot.Axes.Left.MinimumSize = 70;
        plot.Axes.Right.MinimumSize = 34;
        plot.YLabel(content.Title, 10);
        Ahead(plot, content);
        Line(plot, content);
        Points(plot, content.Points, MarkerShape.FilledCircle, Ink, "measured, k = 2");
        Points(plot, content.LeftOut, MarkerShape.OpenSquare, Slate, "other version, not in the trend");
        (double low, double high) = Range(content);
        Sharpenings(plot, content, low);
        Limit(plot, content, content.WatchLimit, "watch", LinePattern.Dotted);
        Limit(plot, content, content.RetireLimit, "retire", LinePattern.Dashed);
        plot.Axes.SetLimitsY(low, high);
        plot.Legend.FontSize = 11;
        plot.ShowLegend(Edge.Top).Legend.BackgroundColor = Colors.White;
        plot.Legend.OutlineWidth = 0;
        plot.Legend.ShadowColor = Colors.Transparent;
        plot.Legend.Orientation = Orientation.Horizontal;
        return plot;
    }

    /// <summary>All points with their bars and the limits; the interval ahead may be cut off, or it would flatten everything else.</summary>
    private static (double Low, double High) Range(TrendPlot content)
    {
        PlotPoint[] points = [.. content.Points, .. content.LeftOut];
        double high = points.Select(p => p.Loss + p.Expanded).Append(content.RetireLimit ?? 0).Append(content.WatchLimit ?? 0).Concat(content.Ahead.Select(a => a.Loss)).Max();
        double low = points.Select(p => p.Loss - p.Expanded).Append(0).Min();
        double room = 0.12 * Math.Max(high - low, 1e-3);
        return (low - room, high + room);
    }

    private static void Points(Plot plot, IReadOnlyCollection<PlotPoint> points, MarkerShape shape, Color color, string legend)
    {
        if (points.Count == 0) return;
        double[] x = [.. points.Select(p => p.When.ToOADate())], y = [.. points.Select(p => p.Loss)];
        ErrorBar bars = plot.Add.ErrorBar(x, y, [.. points.Select(p => p.Expanded)]);
        bars.Color = color;
        bars.LineWidth = 1.2f;
        Markers markers = plot.Add.Markers(x, y, shape, 8, color);
        markers.MarkerStyle.LineWidth = 1.4f;
        markers.MarkerStyle.LineColor = color;
        markers.LegendText = legend;
    }

    private static void Line(Plot plot, TrendPlot content)
    {
        if (content.Line.Length < 2) return;
        Scatter line = plot.Add.ScatterLine(content.Line.Select(p => p.When.ToOADate()).ToArray(), content.Line.Select(p => p.Loss).ToArray(), Deep);
        line.LineWidth = 1.8f;
        line.LegendText = "trend";
    }

    private static void Ahead(Plot plot, TrendPlot content)
    {
        if (content.Ahead.Length < 2) return;
        double[] x = [.. content.Ahead.Select(a => a.When.ToOADate())];
        FillY band = plot.Add.FillY(x, [.. content.Ahead.Select(a => a.Low)], [.. content.Ahead.Select(a => a.High)]);
        band.FillColor = Deep.WithAlpha(0.16);
        band.LineColor = Deep.WithAlpha(0.6);
        band.LineWidth = 0.8f;
        band.LegendText = "forecast, 95 %";
        Scatter line = plot.Add.ScatterLine(x, content.Ahead.Select(a => a.Loss).ToArray(), Deep);
        line.LineWidth = 1.6f;
        line.LinePattern = LinePattern.Dashed;
    }

    private static void Sharpenings(Plot plot, TrendPlot content, double low)
    {
        if (content.Sharpenings.IsEmpty) return;
        double[] x = [.. content.Sharpenings.Select(s => s.ToOADate())];
        Markers marks = plot.Add.Markers(x, [.. x.Select(_ => low * 0.5)], MarkerShape.FilledTriangleUp, 8, Rust);
        marks.LegendText = "sharpened";
    }

    private static void Limit(Plot plot, TrendPlot content, double? limit, string name, LinePattern pattern)
    {
        if (limit is not { } value) return;
        HorizontalLine line = plot.Add.HorizontalLine(value, 1.3f, Rust, pattern);
        string words = $"{name} {FigureText.Limit(value, content.Unit)}";
        DateTime first = content.Points.Concat(content.LeftOut).Select(p => p.When).Concat(content.Sharpenings).Concat(content.Line.Select(l => l.When)).DefaultIfEmpty(new DateTime(2000, 1, 1)).Min();
        Text text = plot.Add.Text(words, first.ToOADate(), value);
        text.LabelFontSize = 11;
        text.LabelFontColor = Rust;
        text.LabelAlignment = Alignment.LowerLeft;
        line.LineColor = Rust;
    }
}
