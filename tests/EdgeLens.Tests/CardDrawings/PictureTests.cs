using System.Buffers.Binary;
using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using EdgeLens.Cards;
using EdgeLens.Cards.Drawing;
using EdgeLens.Imaging.Cards;
using OpenCvSharp;
using OpenCvSharp.Aruco;
using Xunit;

namespace EdgeLens.Tests.CardDrawings;

/// <summary>The drawn card as OpenCV's own detectors see it: they know the board from its numbers only.</summary>
public sealed partial class PictureTests
{
    /// <summary>23622 pixels per metre is what 600 dpi is in a PNG file.</summary>
    private const double PxPerMm = 23.622;

    public static TheoryData<string> Names => ["default", "variant"];

    private static CardDescription Card(string name) => name == "default" ? Cards.Default : Cards.Variant;

    /// <summary>
    /// Drawn at 1200 dpi and blurred by 1.5 px (32 µm, what a macro lens does), because OpenCV's corner search expects a lens: on hard edges it jumps between pixels.
    /// A blurred corner of a black square on white is found up to 0.4 px too far inside, as the theory of the blur says; a marker's centre and a board corner, where four squares
    /// meet, are symmetric and free of that. What is left is the drawing's own anti-aliasing, in steps of 1/4 px: sd 0.07 px for one edge, so that 0.25 px (5 µm) hold
    /// every place and 0.1 px (2 µm) the root mean square.
    /// </summary>
    [Theory]
    [InlineData("default")]
    [InlineData("variant")]
    public void OpenCV_finds_every_marker_and_board_corner_where_the_description_says(string name)
    {
        // By hand from measurands.md and from the variant's file: the test must not ask the description what it checks.
        BoardNumbers b = name == "default" ? new(40, 25, 2.0f, 1.5f, 2.8, 1.99, 30.8, 21.99, 24, 10) : new(20, 17, 3.0f, 2.1f, 3, 6, 18, 24, 21, 9);
        const double PxPerMm1200 = 47.244;
        using Mat sharp = Cv2.ImDecode(CardDrawing.ToPng(Card(name), 1200), ImreadModes.Grayscale);
        using Mat picture = new();
        Cv2.GaussianBlur(sharp, picture, new Size(0, 0), 1.5);
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(name == "default" ? PredefinedDictionaryType.Dict5X5_1000 : PredefinedDictionaryType.Dict4X4_250);
        using CharucoBoard board = new(b.Nx, b.Ny, b.SquareMm, b.MarkerMm, dictionary);
        using Mat noCamera = new(), noDistortion = new();
        using CharucoDetector detector = new(board, noCamera, noDistortion, 2, false, true, new DetectorParameters { CornerRefinementMethod = CornerRefineMethod.Subpix }, new RefineParameters());
        detector.DetectBoard(picture, out Point2f[] corners, out int[] cornerIds, out Point2f[][] markers, out int[] markerIds);

        // 500 white squares less 30 in the window; 170 less 11.
        Assert.Equal(name == "default" ? 470 : 159, markerIds.Distinct().Count());
        List<double> errors = [];
        foreach ((int id, Point2f[] marker) in markerIds.Zip(markers))
        {
            (double x, double y) = b.CentreOf(id);
            Add(marker.Average(c => (double)c.X), x, marker.Average(c => (double)c.Y), y);
        }

        // 39 x 24 inner corners less the 13 x 6 that the window takes or touches; 19 x 16 less 8 x 4.
        Point2f[] fine = Cv2.CornerSubPix(picture, corners, new Size(6, 6), new Size(-1, -1), new TermCriteria(CriteriaTypes.Count | CriteriaTypes.Eps, 50, 1e-4));
        int free = 0;
        foreach ((int id, Point2f corner) in cornerIds.Zip(fine))
        {
            double x = b.X0 + (id % (b.Nx - 1) + 1) * b.SquareMm, y = b.Y0 + (id / (b.Nx - 1) + 1) * b.SquareMm;
            if (b.WindowTouches(x, y)) continue;
            free++;
            Add(corner.X, x, corner.Y, y);
        }

        Assert.Equal(name == "default" ? 39 * 24 - 13 * 6 : 19 * 16 - 8 * 4, free);
        Assert.InRange(errors.Max(Math.Abs), 0, 0.25);
        Assert.InRange(Math.Sqrt(errors.Average(e => e * e)), 0, 0.1);

        // Pixel centres at whole numbers: the card's corner lies at (-0.5, -0.5).
        void Add(double xPx, double xMm, double yPx, double yMm) => errors.AddRange([xPx + 0.5 - xMm * PxPerMm1200, yPx + 0.5 - yMm * PxPerMm1200]);
    }

    private sealed record BoardNumbers(int Nx, int Ny, float SquareMm, float MarkerMm, double X0, double Y0, double WindowX, double WindowY, double WindowWidth, double WindowHeight)
    {
        /// <summary>Ids run row by row over the white squares; the first square is black.</summary>
        internal (double XMm, double YMm) CentreOf(int id)
        {
            int row = 0;
            for (; id >= White(row); row++) id -= White(row);
            int column = 2 * id + (row % 2 == 0 ? 1 : 0);
            return (X0 + (column + 0.5) * SquareMm, Y0 + (row + 0.5) * SquareMm);
        }

        internal bool WindowTouches(double x, double y) =>
            x > WindowX - 0.01 && x < WindowX + WindowWidth + 0.01 && y > WindowY - 0.01 && y < WindowY + WindowHeight + 0.01;

        private int White(int row) => row % 2 == 0 ? Nx / 2 : (Nx + 1) / 2;
    }

    [Fact]
    public void No_light_hairline_stands_between_the_rows_of_a_marker()
    {
        CardDescription card = Cards.Default;
        using Mat picture = Drawn(card);
        foreach (int id in card.StandingMarkers)
        {
            // Down the marker's left border, one bit wide (5 px), through all seven rows of bits.
            DesignRectangle area = card.MarkerArea(id);
            int x = (int)Math.Round((area.XMm + card.Board.BitMm / 2) * PxPerMm - 0.5), from = (int)Math.Ceiling(area.YMm * PxPerMm), to = (int)Math.Floor(area.BottomMm * PxPerMm) - 1;
            using Mat strip = picture.SubMat(from, to, x, x + 1);
            Cv2.MinMaxLoc(strip, out double _, out double brightest);
            Assert.Equal(0, brightest);
        }
    }

    [Fact]
    public void The_patches_have_the_tones_that_reflect_their_share_of_the_paper()
    {
        using Mat picture = Drawn(Cards.Default);
        // IEC 61966-2-1 of 0.85/0.85, 0.40/0.85 and 0.06/0.85: 255 * (1.055 L^(1/2.4) - 0.055).
        foreach ((double x, double tone) in ((double, double)[])[(31.2, 255), (33.1, 182), (35.0, 75)])
        {
            using Mat patch = picture.SubMat((int)((22.39 + 0.1) * PxPerMm), (int)((22.39 + 1.4) * PxPerMm), (int)((x + 0.1) * PxPerMm), (int)((x + 1.4) * PxPerMm));
            Assert.Equal(tone, Cv2.Mean(patch).Val0, 0.01);
        }
    }

    [Theory]
    [InlineData(300, 11811)]
    [InlineData(600, 23622)]
    public void The_resolution_is_written_in_the_file(int dpi, int pixelsPerMetre)
    {
        byte[] png = CardDrawing.ToPng(Cards.Default, dpi);
        int chunk = png.AsSpan().IndexOf("pHYs"u8) + 4;
        Assert.Equal(pixelsPerMetre, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(chunk)));
        Assert.Equal(pixelsPerMetre, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(chunk + 4)));
        Assert.Equal(1, png[chunk + 8]);
        using Mat picture = Cv2.ImDecode(png, ImreadModes.Grayscale);
        Assert.Equal(85.60, picture.Cols * 1000.0 / pixelsPerMetre, 1000.0 / pixelsPerMetre);
        Assert.Equal(53.98, picture.Rows * 1000.0 / pixelsPerMetre, 1000.0 / pixelsPerMetre);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_SVG_is_well_formed_and_measured_in_millimetres(string name)
    {
        CardDescription card = Card(name);
        XElement svg = XDocument.Parse(CardDrawing.ToSvg(card)).Root!;
        XNamespace ns = "http://www.w3.org/2000/svg";
        (string w, string h) = name == "default" ? ("85.6", "53.98") : ("70", "60");
        Assert.Equal(($"0 0 {w} {h}", $"{w}mm", $"{h}mm"), ((string?)svg.Attribute("viewBox"), (string?)svg.Attribute("width"), (string?)svg.Attribute("height")));

        string path = (string)svg.Elements(ns + "path").Single(p => (string?)p.Attribute("id") == "black").Attribute("d")!;
        double[][] boxes = [.. Box().Matches(path).Select(m => m.Groups.Values.Skip(1).Select(g => double.Parse(g.Value, CultureInfo.InvariantCulture)).ToArray())];
        Assert.Single(boxes, b => Math.Abs(b[2] - b[0] - 40) < 1e-9);
        Assert.Single(boxes, b => Math.Abs(b[3] - b[1] - 30) < 1e-9);
        Assert.Equal(CardArtwork.Of(card).Black.Length, boxes.Length);
    }

    [Fact]
    public void The_cut_line_falls_away_with_the_window()
    {
        CardDescription card = Cards.Default;
        CardArtwork art = CardArtwork.Of(card);
        foreach (DesignPoint p in art.CutLine)
        {
            // The line's outer edge, half its width outwards, is the window's border (22 x 10 mm from (30.8, 21.99)) or the tab's.
            Assert.InRange(p.XMm, 30.8 + 0.05 - 1e-9, 54.8 - 0.05 + 1e-9);
            Assert.InRange(p.YMm, 21.99 + 0.05 - 1e-9, 31.99 - 0.05 + 1e-9);
            Assert.False(p.XMm < 30.8 + 6.1 + 0.05 - 1e-9 && p.YMm < 21.99 + 2.3 + 0.05 - 1e-9);
        }
    }

    [Fact]
    public void Letters_are_drawn_though_the_machine_has_no_fonts()
    {
        using Mat picture = Drawn(Cards.Default);
        // The name left of the horizontal bar in the lower margin: 2.8 to 22 mm, 52.3 to 53.9 mm.
        using Mat margin = picture.SubMat((int)(52.3 * PxPerMm), (int)(53.9 * PxPerMm), (int)(2.8 * PxPerMm), (int)(22 * PxPerMm));
        using Mat dark = new();
        Cv2.Threshold(margin, dark, 127, 1, ThresholdTypes.BinaryInv);
        Assert.InRange(Cv2.Sum(dark).Val0 / (margin.Rows * margin.Cols), 0.03, 0.3);
    }

    private static Mat Drawn(CardDescription card) => Cv2.ImDecode(CardDrawing.ToPng(card), ImreadModes.Grayscale);

    [GeneratedRegex(@"M([\d.]+) ([\d.]+)H([\d.]+)V([\d.]+)H[\d.]+Z")]
    private static partial Regex Box();
}
