namespace EdgeLens.Imaging.Cards;

/// <summary>What is black and what is white on the card, to the bit of every marker.</summary>
internal sealed class CardPattern
{
    private readonly CardDescription _card;
    private readonly int[,] _markerAt;
    private readonly double[] _linesX, _linesY;

    public CardPattern(CardDescription card)
    {
        CardBoard board = card.Board;
        _card = card;
        _markerAt = new int[board.SquaresX, board.SquaresY];
        for (int id = 0; id < card.MarkerCount; id++) _markerAt[card.SquareOf(id).Column, card.SquareOf(id).Row] = id;
        _linesX = Lines(board, board.Origin.XMm, board.SquaresX, card.Window.XMm, card.Window.RightMm);
        _linesY = Lines(board, board.Origin.YMm, board.SquaresY, card.Window.YMm, card.Window.BottomMm);
    }

    /// <summary>White paper at a place of the design? The window counts as black (its recess is), its tab too: no corner is located beside a patch.</summary>
    public bool IsWhite(DesignPoint p)
    {
        CardBoard board = _card.Board;
        DesignRectangle area = board.Area;
        if (p.XMm <= area.XMm || p.XMm >= area.RightMm || p.YMm <= area.YMm || p.YMm >= area.BottomMm) return true;
        if (_card.Window.Touches(p)) return false;
        int column = (int)((p.XMm - area.XMm) / board.SquareMm), row = (int)((p.YMm - area.YMm) / board.SquareMm);
        if (board.IsBlack(column, row)) return false;
        int id = _markerAt[column, row];
        DesignRectangle marker = _card.MarkerArea(id);
        if (!marker.Touches(p)) return true;
        int side = board.Dictionary.BitsPerSide + 2;
        int i = Math.Clamp((int)((p.XMm - marker.XMm) / board.BitMm), 0, side - 1), j = Math.Clamp((int)((p.YMm - marker.YMm) / board.BitMm), 0, side - 1);
        return board.Dictionary.Cells(id)[j * side + i];
    }

    /// <summary>The pattern within <paramref name="reachMm"/> of a place as a grid of cells, positions relative to the place.</summary>
    public PatternGrid Around(DesignPoint centre, double reachMm)
    {
        double[] x = Near(_linesX, centre.XMm, reachMm), y = Near(_linesY, centre.YMm, reachMm);
        var white = new bool[x.Length + 1, y.Length + 1];
        for (int i = 0; i <= x.Length; i++)
            for (int j = 0; j <= y.Length; j++)
                white[i, j] = IsWhite(new(centre.XMm + Middle(x, i, reachMm), centre.YMm + Middle(y, j, reachMm)));
        return PatternGrid.From(x, y, white);
    }

    private static double Middle(double[] lines, int cell, double reach)
    {
        double from = cell == 0 ? -reach : lines[cell - 1], to = cell == lines.Length ? reach : lines[cell];
        return (from + to) / 2;
    }

    private static double[] Near(double[] lines, double centre, double reach) => [.. lines.Select(l => l - centre).Where(l => Math.Abs(l) < reach - 1e-6)];

    /// <summary>All lines along one axis at which black and white may change.</summary>
    private static double[] Lines(CardBoard board, double origin, int squares, double windowFrom, double windowTo)
    {
        SortedSet<double> lines = [];
        Add(windowFrom);
        Add(windowTo);
        for (int s = 0; s <= squares; s++)
        {
            Add(origin + s * board.SquareMm);
            for (int bit = 0; s < squares && bit <= board.Dictionary.BitsPerSide + 2; bit++) Add(origin + s * board.SquareMm + board.MarginMm + bit * board.BitMm);
        }
        return [.. lines];

        // To a nanometre: the window's sides lie on squares' sides and must not become cells without width.
        void Add(double line) => lines.Add(Math.Round(line, 6));
    }
}

/// <summary>Cells of black and white between lines along x and along y, as steps at the lines' crossings.</summary>
/// <param name="LinesX">Ascending, mm.</param>
/// <param name="LinesY">Ascending, mm.</param>
/// <param name="Steps">
/// Second differences of the cells (0 black, 1 white); row 0 and column 0 stand for a line at minus infinity. Brightness at (x, y) is the sum of
/// Steps[i, j] over all lines at or before x and y: blurred, each "at or before" becomes the normal distribution's Φ.
/// </param>
internal sealed record PatternGrid(double[] LinesX, double[] LinesY, int[,] Steps)
{
    public static PatternGrid From(double[] x, double[] y, bool[,] white)
    {
        var steps = new int[x.Length + 1, y.Length + 1];
        for (int i = 0; i <= x.Length; i++)
            for (int j = 0; j <= y.Length; j++)
                steps[i, j] = Cell(i, j) - Cell(i - 1, j) - Cell(i, j - 1) + Cell(i - 1, j - 1);

        // Lines where nothing changes are left out: near a corner of a sharp picture one line each way remains.
        int[] keepX = [.. Enumerable.Range(1, x.Length).Where(i => Enumerable.Range(0, y.Length + 1).Any(j => steps[i, j] != 0))];
        int[] keepY = [.. Enumerable.Range(1, y.Length).Where(j => Enumerable.Range(0, x.Length + 1).Any(i => steps[i, j] != 0))];
        var kept = new int[keepX.Length + 1, keepY.Length + 1];
        for (int i = 0; i <= keepX.Length; i++)
            for (int j = 0; j <= keepY.Length; j++)
                kept[i, j] = steps[i == 0 ? 0 : keepX[i - 1], j == 0 ? 0 : keepY[j - 1]];
        return new([.. keepX.Select(i => x[i - 1])], [.. keepY.Select(j => y[j - 1])], kept);

        int Cell(int i, int j) => i >= 0 && j >= 0 && white[i, j] ? 1 : 0;
    }
}
