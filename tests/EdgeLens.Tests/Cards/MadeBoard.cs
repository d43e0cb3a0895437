using EdgeLens.Imaging.Cards;
using OpenCvSharp;
using OpenCvSharp.Aruco;

namespace EdgeLens.Tests.Cards;

/// <summary>The board as OpenCV itself draws it, 56 pixels to a square: a second opinion on what is black and what is white.</summary>
internal sealed class MadeBoard
{
    private const int PxPerSquare = 56;
    private readonly CardDescription _card;
    private readonly byte[] _tones;
    private readonly int _width, _height;

    private MadeBoard(CardDescription card, byte[] tones) =>
        (_card, _tones, _width, _height) = (card, tones, card.Board.SquaresX * PxPerSquare, card.Board.SquaresY * PxPerSquare);

    public static MadeBoard Of(CardDescription card)
    {
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(card.Board.Dictionary.Type);
        using CharucoBoard board = new(card.Board.SquaresX, card.Board.SquaresY, (float)card.Board.SquareMm, (float)card.Board.MarkerMm, dictionary) { LegacyPattern = card.Board.LegacyPattern };
        using Mat drawn = new();
        using (OutputArray target = OutputArray.Create(drawn))
            board.GenerateImage(new Size(card.Board.SquaresX * PxPerSquare, card.Board.SquaresY * PxPerSquare), target, 0, 1);
        var tones = new byte[drawn.Cols * drawn.Rows];
        for (int y = 0, width = drawn.Cols, height = drawn.Rows; y < height; y++) drawn.RowSpan<byte>(y).CopyTo(tones.AsSpan(y * width, width));
        return new(card, tones);
    }

    /// <summary>White paper outside the board, black in the window.</summary>
    public bool IsWhite(DesignPoint p)
    {
        if (_card.Window.Touches(p)) return false;
        double x = (p.XMm - _card.Board.Origin.XMm) / _card.Board.SquareMm * PxPerSquare, y = (p.YMm - _card.Board.Origin.YMm) / _card.Board.SquareMm * PxPerSquare;
        return x < 0 || y < 0 || x >= _width || y >= _height || _tones[(int)y * _width + (int)x] > 127;
    }
}
