using EdgeLens.Imaging.Cards;
using OpenCvSharp;
using OpenCvSharp.Aruco;
using Xunit;

namespace EdgeLens.Tests.Cards;

public sealed class CardDescriptionTests
{
    [Fact]
    public void The_default_card_has_the_size_of_ISO_7810_ID_1_and_the_squares_of_the_measurands_page()
    {
        CardDescription card = DefaultCard.Card;
        Assert.Equal((85.60, 53.98), (card.OuterWidthMm, card.OuterHeightMm)); // ISO/IEC 7810 ID-1
        Assert.Equal((40, 25, 2.0, 1.5), (card.Board.SquaresX, card.Board.SquaresY, card.Board.SquareMm, card.Board.MarkerMm));
        Assert.Equal("DICT_5X5_1000", card.Board.Dictionary.Name);
        Assert.True(card.Board.IsBlack(0, 0));
        Assert.Equal((40.0, 30.0), (card.BarX.LengthMm, card.BarY.LengthMm));
        Assert.Equal([0.85, 0.40, 0.06], card.Patches.Select(p => p.Reflectance));

        // Board centred on the card, window on the board: columns 14 to 25, rows 10 to 14.
        Assert.Equal(card.OuterWidthMm / 2, card.Board.Area.Centre.XMm, 9);
        Assert.Equal(card.OuterHeightMm / 2, card.Board.Area.Centre.YMm, 9);
        DesignRectangle first = card.Board.Square(14, 10), last = card.Board.Square(25, 14);
        Assert.Equal((first.XMm, first.YMm), (card.Window.XMm, card.Window.YMm));
        Assert.Equal(last.RightMm, card.Window.RightMm, 9);
        Assert.Equal(last.BottomMm, card.Window.BottomMm, 9);
    }

    [Fact]
    public void The_window_takes_away_its_markers_and_the_corners_inside_and_on_its_border()
    {
        CardDescription card = DefaultCard.Card;
        Assert.Equal(500, card.MarkerCount);                           // half of 40 x 25
        Assert.Equal(500 - 30, card.StandingMarkers.Length);           // half of 12 x 5
        Assert.Equal(39 * 24 - 13 * 6, card.BoardCorners.Length);      // inner corners less those of 12 x 5 squares with their border
        Assert.DoesNotContain(card.BoardCorners, card.Window.Touches);
    }

    /// <summary>Ids, order of corners and positions against the library that users' other tools use: its own board, drawn and read by it.</summary>
    [Theory]
    [InlineData(false, 25)]
    [InlineData(true, 24)]
    [InlineData(true, 25)]
    public void Markers_lie_where_OpenCV_puts_them(bool legacy, int rows)
    {
        string json = DefaultCard.With("\"legacy_pattern\": false", $"\"legacy_pattern\": {(legacy ? "true" : "false")}").Replace("\"squares_y\": 25", $"\"squares_y\": {rows}", StringComparison.Ordinal);
        CardDescription card = CardDescription.FromJson(json).Value;
        const int pxPerSquare = 56;
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(card.Board.Dictionary.Type);
        using CharucoBoard board = new(40, rows, 2.0f, 1.5f, dictionary) { LegacyPattern = legacy };
        using Mat drawn = new();
        using (OutputArray target = OutputArray.Create(drawn)) board.GenerateImage(new Size(40 * pxPerSquare, rows * pxPerSquare), target, 0, 1);
        using ArucoDetector detector = new(dictionary);
        detector.DetectMarkers(drawn, out Point2f[][] corners, out int[] ids, out _);
        Assert.True(ids.Length > 400, $"{ids.Length} markers read");
        for (int m = 0; m < ids.Length; m++)
            for (int k = 0; k < 4; k++)
            {
                DesignPoint p = card.MarkerCorners(ids[m])[k];
                // Detected corners are whole pixels of the border: within 1.5 px.
                Assert.InRange((p.XMm - card.Board.Origin.XMm) / 2 * pxPerSquare - corners[m][k].X, -1.5, 1.5);
                Assert.InRange((p.YMm - card.Board.Origin.YMm) / 2 * pxPerSquare - corners[m][k].Y, -1.5, 1.5);
            }
    }

    [Fact]
    public void Another_card_is_another_file()
    {
        string json = DefaultCard.With("\"dictionary\": \"DICT_5X5_1000\", \"squares_x\": 40, \"squares_y\": 25, \"square_mm\": 2.0, \"marker_mm\": 1.5",
            "\"dictionary\": \"DICT_4X4_250\", \"squares_x\": 26, \"squares_y\": 16, \"square_mm\": 3.0, \"marker_mm\": 2.1");
        CardDescription card = CardDescription.FromJson(json).Value;
        Assert.Equal(208, card.MarkerCount);
        Assert.Equal(2.1 / 6, card.Board.BitMm, 12);
        Assert.Equal(new BoardSquare(1, 0), card.SquareOf(0));
    }

    [Theory]
    [InlineData("\"outer_mm\": [85.6, 53.98]", "\"outer_mm\": [85.6]", "outer_mm", "[85.6]")]
    [InlineData("\"outer_mm\": [85.6, 53.98]", "\"outer_mm\": [85.6, -1]", "outer_mm", "-1")]
    [InlineData("DICT_5X5_1000", "DICT_5X5_9", "board.dictionary", "DICT_5X5_9")]
    [InlineData("DICT_5X5_1000", "DICT_5X5_250", "board.dictionary", "500 markers")]
    [InlineData("\"squares_x\": 40", "\"squares_x\": 2.5", "board.squares_x", "2.5")]
    [InlineData("\"squares_x\": 40", "\"squares_x\": 45", "board.origin_mm", "[2.8, 1.99]")]
    [InlineData("\"marker_mm\": 1.5", "\"marker_mm\": 2.0", "board.marker_mm", "2")]
    [InlineData("\"square_mm\": 2.0", "\"square_mm\": \"2.0\"", "board.square_mm", "\"2.0\"")]
    [InlineData("\"legacy_pattern\": false", "\"legacy_pattern\": 0", "board.legacy_pattern", "0")]
    [InlineData("\"width_mm\": 24.0", "\"width_mm\": 240", "window", "240")]
    [InlineData("\"height_mm\": 10.0", "\"height_mm\": 0", "window.height_mm", "0")]
    [InlineData("\"tab_mm\": [6.1, 2.3]", "\"tab_mm\": [6.1, 12]", "tab_mm", "12")]
    [InlineData("\"reflectance\": 0.85", "\"reflectance\": 85", "patches[0].reflectance", "85")]
    [InlineData("\"x_mm\": 33.1", "\"x_mm\": 43.1", "patches[1]", "43.1")]
    [InlineData("\"name\": \"dark\"", "\"name\": \"grey\"", "patches[2].name", "grey")]
    [InlineData("\"x1_mm\": 62.8", "\"x1_mm\": 32.8", "caliper_bars.x1_mm", "32.8")]
    [InlineData("\"y1_mm\": 42.0", "\"y1_mm\": 60.0", "caliper_bars of axis y", "60")]
    [InlineData("\"axis\": \"y\"", "\"axis\": \"x\"", "caliper_bars", "2 of axis x")]
    public void A_wrong_field_is_named_with_its_value(string old, string now, string field, string value)
    {
        Assert.False(CardDescription.FromJson(DefaultCard.With(old, now)).TryGet(out _, out var refusal));
        Assert.Equal("card-file", refusal.Code);
        Assert.Contains($"Field {field} is", refusal.Reason, StringComparison.Ordinal);
        Assert.Contains(value, refusal.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"tab_mm\": [6.1, 2.3],", "", "Field tab_mm is missing")]
    [InlineData("\"board\": {", "\"board\": [", "not valid JSON")]
    public void A_missing_field_or_broken_file_is_said_to_be_so(string old, string now, string words)
    {
        Assert.False(CardDescription.FromJson(DefaultCard.With(old, now)).TryGet(out _, out var refusal));
        Assert.Contains(words, refusal.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_marker_that_the_card_has_not_is_our_mistake() => Assert.Throws<ArgumentOutOfRangeException>(() => DefaultCard.Card.MarkerCorners(500));
}
