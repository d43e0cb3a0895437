using System.Collections.Immutable;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Imaging.Cards;

/// <summary>The reference card as designed: every position in nominal millimetres. Another card is another description file, not new code.</summary>
/// <remarks>
/// Schema: <c>calibration/card-id1-2.0.json</c>. Made by <see cref="FromJson"/> only, which checks every field, so that an instance is always a card
/// that can be drawn and found: markers fit into their squares, the window lies in the board, the dictionary has enough markers.
/// </remarks>
public sealed record CardDescription
{
    private readonly ImmutableArray<BoardSquare> _squareOfId;

    internal CardDescription(
        string name, double outerWidthMm, double outerHeightMm, CardBoard board, DesignRectangle window, DesignRectangle tab,
        ImmutableArray<ReflectancePatch> patches, CaliperBar barX, CaliperBar barY)
    {
        (Name, OuterWidthMm, OuterHeightMm, Board, Window, Tab, Patches, BarX, BarY) = (name, outerWidthMm, outerHeightMm, board, window, tab, patches, barX, barY);
        _squareOfId =
        [
            .. from row in Enumerable.Range(0, board.SquaresY)
               from column in Enumerable.Range(0, board.SquaresX)
               where !board.IsBlack(column, row)
               select new BoardSquare(column, row),
        ];
    }

    /// <summary>Short name, also printed on the card.</summary>
    public string Name { get; }

    /// <summary>Width of the whole card.</summary>
    public double OuterWidthMm { get; }

    /// <summary>Height of the whole card.</summary>
    public double OuterHeightMm { get; }

    /// <summary>Squares and markers.</summary>
    public CardBoard Board { get; }

    /// <summary>Cut out, black recess behind; the blade lies in it.</summary>
    public DesignRectangle Window { get; }

    /// <summary>Left standing in the window's top left corner, carries the patches.</summary>
    public DesignRectangle Tab { get; }

    /// <summary>Patches of known reflectance.</summary>
    public ImmutableArray<ReflectancePatch> Patches { get; }

    /// <summary>The horizontal bar.</summary>
    public CaliperBar BarX { get; }

    /// <summary>The vertical bar.</summary>
    public CaliperBar BarY { get; }

    /// <summary>Markers of the board, counted with those that the window cuts out; ids run from 0 to this less 1.</summary>
    public int MarkerCount => _squareOfId.Length;

    /// <summary>Ids of the markers that the window leaves standing.</summary>
    public ImmutableArray<int> StandingMarkers => [.. Enumerable.Range(0, MarkerCount).Where(id => IsStanding(SquareOf(id)))];

    /// <summary>The square of a marker.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The board has no such marker.</exception>
    public BoardSquare SquareOf(int markerId) => markerId >= 0 && markerId < MarkerCount
        ? _squareOfId[markerId]
        : throw new ArgumentOutOfRangeException(nameof(markerId), markerId, $"Card {Name} has the markers 0 to {MarkerCount - 1}.");

    /// <summary>True when the window leaves the whole square.</summary>
    public bool IsStanding(BoardSquare square) => !Board.Square(square.Column, square.Row).Overlaps(Window);

    /// <summary>Outline of a marker with its black border.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The board has no such marker.</exception>
    public DesignRectangle MarkerArea(int markerId)
    {
        BoardSquare s = SquareOf(markerId);
        DesignRectangle square = Board.Square(s.Column, s.Row);
        return new(square.XMm + Board.MarginMm, square.YMm + Board.MarginMm, Board.MarkerMm, Board.MarkerMm);
    }

    /// <summary>Corners of a marker in the order of OpenCV: top left, top right, bottom right, bottom left.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The board has no such marker.</exception>
    public ImmutableArray<DesignPoint> MarkerCorners(int markerId)
    {
        DesignRectangle a = MarkerArea(markerId);
        return [new(a.XMm, a.YMm), new(a.RightMm, a.YMm), new(a.RightMm, a.BottomMm), new(a.XMm, a.BottomMm)];
    }

    /// <summary>The board's inner corners, where four squares meet; without those that the window cuts away or touches. Row by row.</summary>
    public ImmutableArray<DesignPoint> BoardCorners =>
    [
        .. from row in Enumerable.Range(1, Board.SquaresY - 1)
           from column in Enumerable.Range(1, Board.SquaresX - 1)
           let square = Board.Square(column, row)
           let corner = new DesignPoint(square.XMm, square.YMm)
           where !Window.Touches(corner)
           select corner,
    ];

    /// <summary>The patch of that name, or null.</summary>
    public ReflectancePatch? Patch(string name) => Patches.FirstOrDefault(p => p.Name == name);

    /// <summary>Reads and checks a description file.</summary>
    /// <param name="json">The file's text.</param>
    /// <returns>The card, or a refusal <c>card-file</c> that names the field, its value and what it must be.</returns>
    public static Outcome<CardDescription> FromJson(string json) => CardDescriptionFile.Read(json);
}
