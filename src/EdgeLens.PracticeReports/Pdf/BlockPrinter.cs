using EdgeLens.PracticeReports.Content;
using EdgeLens.PracticeReports.Plotting;
using SkiaSharp;

namespace EdgeLens.PracticeReports.Pdf;

/// <summary>Sets blocks on pages: a heading stays with what follows it, nothing that belongs together is torn apart unless it is longer than a page.</summary>
internal sealed class BlockPrinter(PageComposer page)
{
    private const double BodyMm = 3.25, SmallMm = 2.75, LeadingShare = 1.38, HeadingMm = 4.5;

    private static double Leading(double sizeMm) => sizeMm * LeadingShare;

    /// <summary>Title, facts and notice.</summary>
    public void Head(PracticeReport report)
    {
        Lines(report.About.PracticeName, SmallMm, false, Pen.Soft);
        page.Gap(1);
        Lines(report.Title, 7, true, Pen.Ink);
        page.Gap(1);
        if (!report.Facts.IsEmpty) Lines(string.Join("   ·   ", report.Facts), SmallMm, false, Pen.Soft);
        if (report.About.IsDemo)
        {
            page.Gap(2);
            Framed(ReportAbout.DemoNotice);
        }
    }

    /// <summary>One block.</summary>
    /// <param name="block">To be set.</param>
    /// <param name="next">What follows it: a heading is set only where its beginning fits too.</param>
    public void Print(Block block, Block? next)
    {
        switch (block)
        {
            case Heading h:
                if (h.StartsPage) page.NewPage();
                page.Gap(6);
                page.Need(Leading(HeadingMm) + 2 + (next is null ? 0 : Least(next)));
                Lines(h.Text, HeadingMm, true, Pen.Ink);
                page.Gap(1.2);
                break;
            case Paragraph p:
                Lines(p.Text, p.IsRemark ? SmallMm : BodyMm, false, p.IsRemark ? Pen.Soft : Pen.Ink);
                page.Gap(1.5);
                break;
            case Bullets b:
                if (BulletsHeight(b) < page.FullHeightMm / 4) page.Need(BulletsHeight(b));
                foreach (string item in b.Items) Item(item, "•", BodyMm, page.WidthMm);
                page.Gap(1.5);
                break;
            case VerdictBlock v: Verdict(v); break;
            case Table t:
                new TablePrinter(page).Print(t);
                page.Gap(3);
                break;
            case PlotBlock p: Plot(p); break;
            case PictureRow r: Pictures(r); break;
            default: throw new ArgumentException($"PDF has no form for {block.GetType().Name}.", nameof(block));
        }
    }

    /// <summary>What of a block must stand under its heading at least.</summary>
    private double Least(Block block) => block switch
    {
        PlotBlock p => PlotHeight(p),
        PictureRow r => PictureHeight(r),
        VerdictBlock v => Math.Min(VerdictHeight(v), page.FullHeightMm / 2),
        Table t => new TablePrinter(page).LeastHeight(t),
        Bullets b when BulletsHeight(b) < page.FullHeightMm / 4 => BulletsHeight(b),
        _ => 2 * Leading(BodyMm),
    };

    private void Lines(string text, double sizeMm, bool bold, SKColor color)
    {
        string[] lines = Pen.Wrap(text, page.WidthMm, sizeMm, bold);
        // No single line alone at the end or the beginning of a page.
        if (lines.Length is > 1 and <= 3) page.Need(lines.Length * Leading(sizeMm));
        foreach (string line in lines)
        {
            page.Need(Leading(sizeMm));
            page.Put(Leading(sizeMm), (canvas, top) => Pen.Text(canvas, PageComposer.MarginMm, top + sizeMm, line, sizeMm, bold, color));
        }
    }

    private double BulletsHeight(Bullets b) => b.Items.Sum(i => Pen.Wrap(i, page.WidthMm - 5, BodyMm).Length) * Leading(BodyMm);

    private void Item(string text, string mark, double sizeMm, double widthMm)
    {
        string[] lines = Pen.Wrap(text, widthMm - 5, sizeMm);
        page.Need(lines.Length * Leading(sizeMm));
        for (int i = 0; i < lines.Length; i++)
        {
            string line = lines[i];
            bool isFirst = i == 0;
            page.Put(Leading(sizeMm), (canvas, top) =>
            {
                if (isFirst) Pen.Text(canvas, PageComposer.MarginMm + 1, top + sizeMm, mark, sizeMm, false, Pen.Soft);
                Pen.Text(canvas, PageComposer.MarginMm + 5, top + sizeMm, line, sizeMm, false, Pen.Ink);
            });
        }
    }

    private void Framed(string text)
    {
        string[] lines = Pen.Wrap(text, page.WidthMm - 6, SmallMm);
        double height = lines.Length * Leading(SmallMm) + 3;
        page.Need(height);
        page.Put(height, (canvas, top) =>
        {
            Pen.Box(canvas, PageComposer.MarginMm, top, page.WidthMm, height, Pen.Soft, 0.2);
            for (int i = 0; i < lines.Length; i++) Pen.Text(canvas, PageComposer.MarginMm + 3, top + 1.3 + i * Leading(SmallMm) + SmallMm, lines[i], SmallMm, false, Pen.Ink);
        });
    }

    private double VerdictHeight(VerdictBlock v) => 14 + VerdictLines(v).Sum(l => Leading(l.SizeMm));

    private List<(string Text, double SizeMm, bool Bold, double IndentMm)> VerdictLines(VerdictBlock v)
    {
        List<(string, double, bool, double)> lines = [];
        void Part(string title, IReadOnlyList<string> items, Func<int, string> mark)
        {
            if (items.Count == 0) return;
            lines.Add((title, BodyMm, true, 0));
            for (int i = 0; i < items.Count; i++)
            {
                string[] wrapped = Pen.Wrap(items[i], page.WidthMm - 14, BodyMm);
                for (int k = 0; k < wrapped.Length; k++) lines.Add((k == 0 ? mark(i) + wrapped[k] : wrapped[k], BodyMm, false, k == 0 ? 0 : 4.4));
            }
        }
        Part("Why", v.Reasons, _ => "•  ");
        Part("What next", v.NextSteps, i => FormattableString.Invariant($"{i + 1}. "));
        return lines;
    }

    private void Verdict(VerdictBlock v)
    {
        List<(string Text, double SizeMm, bool Bold, double IndentMm)> lines = VerdictLines(v);
        double height = VerdictHeight(v);
        page.Gap(2);
        page.Need(height);
        page.Put(height, (canvas, top) =>
        {
            Pen.Box(canvas, PageComposer.MarginMm, top, page.WidthMm, height - 1, Pen.Sheet);
            Pen.Box(canvas, PageComposer.MarginMm, top, page.WidthMm, 1.4, Pen.Tone(v.Kind));
            Pen.Sign(canvas, v.Kind, PageComposer.MarginMm + 3, top + 2.2, 8.5);
            Pen.Text(canvas, PageComposer.MarginMm + 14, top + 8.3, v.Headline, 5, true, Pen.Tone(v.Kind));
            double y = top + 11.5;
            foreach ((string text, double size, bool bold, double indent) in lines)
            {
                Pen.Text(canvas, PageComposer.MarginMm + 5 + indent, y + size, text, size, bold, Pen.Ink);
                y += Leading(size);
            }
        });
        page.Gap(2);
    }

    private double PlotHeight(PlotBlock p) => page.WidthMm * TrendDrawing.HeightPx / TrendDrawing.WidthPx + Pen.Wrap(p.Caption, page.WidthMm, SmallMm).Length * Leading(SmallMm) + 4;

    private void Plot(PlotBlock p)
    {
        page.Need(PlotHeight(p));
        double scale = page.WidthMm / TrendDrawing.WidthPx;
        page.Put(TrendDrawing.HeightPx * scale + 1, (canvas, top) =>
        {
            canvas.Save();
            canvas.Translate((float)PageComposer.MarginMm, (float)top);
            canvas.Scale((float)scale);
            TrendDrawing.Draw(canvas, p.Plot);
            canvas.Restore();
        });
        Lines(p.Caption, SmallMm, false, Pen.Soft);
        page.Gap(3);
    }

    private const double PictureGapMm = 4;

    private double PictureWidth(PictureRow row) => Math.Min((page.WidthMm - PictureGapMm * (row.Pictures.Length - 1)) / row.Pictures.Length, 100);

    private double PictureHeight(PictureRow row) => row.Pictures.Max(p => Height(p, PictureWidth(row)) + Pen.Wrap(p.Caption, PictureWidth(row), SmallMm).Length * Leading(SmallMm)) + 3;

    private static double Height(CaptionedPicture picture, double widthMm)
    {
        using SKCodec? codec = SKCodec.Create(new SKMemoryStream(picture.Jpeg.ToArray()));
        return codec is null ? 0 : widthMm * codec.Info.Height / codec.Info.Width;
    }

    private void Pictures(PictureRow row)
    {
        double width = PictureWidth(row), height = PictureHeight(row);
        page.Need(height);
        page.Put(height, (canvas, top) =>
        {
            for (int i = 0; i < row.Pictures.Length; i++)
            {
                CaptionedPicture picture = row.Pictures[i];
                double x = PageComposer.MarginMm + i * (width + PictureGapMm), y = top, h = Height(picture, width);
                using SKImage? image = SKImage.FromEncodedData(picture.Jpeg.Span);
                if (image is not null) canvas.DrawImage(image, SKRect.Create((float)x, (float)y, (float)width, (float)h), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
                y += h + 1;
                foreach (string line in Pen.Wrap(picture.Caption, width, SmallMm))
                {
                    Pen.Text(canvas, x, y + SmallMm, line, SmallMm, false, Pen.Soft);
                    y += Leading(SmallMm);
                }
            }
        });
        page.Gap(2);
    }
}
