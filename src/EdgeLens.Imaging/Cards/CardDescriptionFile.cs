using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Json;

namespace EdgeLens.Imaging.Cards;

/// <summary>Reads <see cref="CardDescription"/> from JSON and checks that the card can be printed and found.</summary>
internal static class CardDescriptionFile
{
    /// <summary>Positions are compared to a micrometre: finer than any printer.</summary>
    private const double SameMm = 1e-3;

    public static Outcome<CardDescription> Read(string json)
    {
        try
        {
            return JsonFields.Read(json, Describe);
        }
        catch (JsonFieldException e)
        {
            return new Refusal("card-file", e.Message, "Correct the card description; calibration/card-id1-2.0.json is an example that works.");
        }
    }

    private static CardDescription Describe(JsonFields root)
    {
        (double width, double height) = root.Pair("outer_mm");
        Require(width is >= 20 and <= 500 && height is >= 20 and <= 500, "outer_mm", $"[{width}, {height}]", "two sides of 20 to 500 mm");
        DesignRectangle outer = new(0, 0, width, height);
        CardBoard board = Board(root.Object("board"), outer);

        DesignRectangle window = Rectangle(root.Object("window"), "window");
        Require(board.Area.Contains(window), "window", window, $"within the board ({board.Area})");

        (double tabWidth, double tabHeight) = root.Pair("tab_mm");
        DesignRectangle tab = new(window.XMm, window.YMm, tabWidth, tabHeight);
        Require(tabWidth >= 0 && tabHeight >= 0 && window.Contains(tab), "tab_mm", $"[{tabWidth}, {tabHeight}]", "no larger than the window");

        return new CardDescription(root.Text("name"), width, height, board, window, tab, Patches(root, tab), Bar(root, true, outer), Bar(root, false, outer));
    }

    private static CardBoard Board(JsonFields f, DesignRectangle outer)
    {
        string name = f.Text("dictionary");
        MarkerDictionary dictionary = MarkerDictionary.Named(name)
            ?? throw Wrong("board.dictionary", name, $"one of {string.Join(", ", MarkerDictionary.All.Select(d => d.Name))}");
        int nx = f.Integer("squares_x"), ny = f.Integer("squares_y");
        Require(nx is >= 3 and <= 200, "board.squares_x", nx, "3 to 200");
        Require(ny is >= 3 and <= 200, "board.squares_y", ny, "3 to 200");
        double square = f.Number("square_mm"), marker = f.Number("marker_mm");
        Require(square is >= 0.5 and <= 50, "board.square_mm", square, "0.5 to 50");
        // A margin under 5 % of the square can't be told from the black squares beside it in a picture; over 45 % leaves no marker.
        Require(marker >= 0.1 * square && marker <= 0.9 * square, "board.marker_mm", marker, $"between 10 % and 90 % of square_mm ({square})");
        int needed = (nx * ny + 1) / 2;
        Require(needed <= dictionary.MarkerCount, "board.dictionary", name, $"a dictionary with at least the {needed} markers of {nx} x {ny} squares");
        (double x, double y) = f.Pair("origin_mm");
        CardBoard board = new(dictionary, nx, ny, square, marker, new(x, y), f.Flag("legacy_pattern"));
        Require(outer.Contains(board.Area), "board.origin_mm", $"[{x}, {y}]", $"such that the board ({board.Area.WidthMm} x {board.Area.HeightMm} mm) lies on the card");
        return board;
    }

    private static ImmutableArray<ReflectancePatch> Patches(JsonFields root, DesignRectangle tab)
    {
        var patches = ImmutableArray.CreateBuilder<ReflectancePatch>();
        foreach (JsonFields f in root.Objects("patches"))
        {
            string field = $"patches[{patches.Count}]";
            double size = f.Number("size_mm"), reflectance = f.Number("reflectance");
            ReflectancePatch patch = new(f.Text("name"), new(f.Number("x_mm"), f.Number("y_mm"), size, size), reflectance);
            Require(size > 0, $"{field}.size_mm", size, "more than 0");
            Require(reflectance is > 0 and <= 1, $"{field}.reflectance", reflectance, "more than 0, at most 1");
            Require(tab.Contains(patch.Area), field, patch.Area, $"on the tab ({tab})");
            Require(patches.All(p => p.Name != patch.Name), $"{field}.name", patch.Name, "a name that no other patch has");
            patches.Add(patch);
        }
        return patches.ToImmutable();
    }

    private static CaliperBar Bar(JsonFields root, bool horizontal, DesignRectangle outer)
    {
        string axis = horizontal ? "x" : "y", across = horizontal ? "y" : "x";
        JsonFields[] bars = [.. root.Objects("caliper_bars").Where(b => b.Text("axis") == axis)];
        Require(bars.Length == 1, "caliper_bars", $"{bars.Length} of axis {axis}", $"exactly one bar of axis {axis}");
        double start = bars[0].Number($"{axis}0_mm"), end = bars[0].Number($"{axis}1_mm"), beside = bars[0].Number($"{across}_mm");
        // A caliper reads to about 0.01 mm: under 20 mm the print's scale would be worse than 0.05 %.
        Require(end - start >= 20 - SameMm, $"caliper_bars.{axis}1_mm", end, $"at least 20 mm beyond {axis}0_mm ({start})");
        CaliperBar bar = new(horizontal, horizontal ? new(start, beside) : new(beside, start), end - start);
        DesignPoint last = horizontal ? new(end, beside) : new(beside, end);
        Require(outer.Touches(bar.Start) && outer.Touches(last), $"caliper_bars of axis {axis}", $"{start} to {end} at {beside}", "on the card");
        return bar;
    }

    private static DesignRectangle Rectangle(JsonFields f, string field)
    {
        DesignRectangle r = new(f.Number("x_mm"), f.Number("y_mm"), f.Number("width_mm"), f.Number("height_mm"));
        Require(r.WidthMm > 0, $"{field}.width_mm", r.WidthMm, "more than 0");
        Require(r.HeightMm > 0, $"{field}.height_mm", r.HeightMm, "more than 0");
        return r;
    }

    private static void Require(bool holds, string field, object value, string wanted)
    {
        if (!holds) throw Wrong(field, value, wanted);
    }

    private static JsonFieldException Wrong(string field, object value, string wanted) => new(FormattableString.Invariant($"Field {field} is {value}, but must be {wanted}."));
}
