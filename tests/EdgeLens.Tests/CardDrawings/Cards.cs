using EdgeLens.Imaging.Cards;

namespace EdgeLens.Tests.CardDrawings;

/// <summary>The card of the practice, and another one that no code was written for.</summary>
internal static class Cards
{
    internal static CardDescription Default => Read(File.ReadAllText(Path.Combine(Root(), "calibration", "card-id1-2.0.json")));

    /// <summary>Other outer size, squares, markers, dictionary (4 x 4 bits), window off the middle, no tab, bars in other margins.</summary>
    internal static CardDescription Variant => Read(
        """
        {
          "name": "test-3.0",
          "outer_mm": [70, 60],
          "board": {"dictionary": "DICT_4X4_250", "squares_x": 20, "squares_y": 17, "square_mm": 3.0, "marker_mm": 2.1, "origin_mm": [3, 6], "legacy_pattern": false},
          "window": {"x_mm": 18, "y_mm": 24, "width_mm": 21, "height_mm": 9},
          "patches": [],
          "tab_mm": [0, 0],
          "caliper_bars": [
            {"axis": "x", "x0_mm": 5, "x1_mm": 45, "y_mm": 3},
            {"axis": "y", "y0_mm": 10, "y1_mm": 40, "x_mm": 67}
          ]
        }
        """);

    private static CardDescription Read(string json) => CardDescription.FromJson(json).Value;

    private static string Root()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "EdgeLens.sln"))) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("The tests run inside the repository.");
    }
}
