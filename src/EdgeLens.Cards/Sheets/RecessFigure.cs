namespace EdgeLens.Cards.Sheets;

/// <summary>A section through card, frame and black ground, with the blade in the window.</summary>
internal static class RecessFigure
{
    internal const double HeightMm = 21;

    internal static void Draw(SheetPen pen, double x, double y)
    {
        const double CardTop = 7, CardThick = 1, FrameHeight = 9, WindowLeft = 34, WindowRight = 66, Left = 10, Right = 90;
        const byte Board = 225, Steel = 205;
        double frameTop = y + CardTop + CardThick;
        pen.Box(x + Left, frameTop, WindowLeft - Left, FrameHeight, Board, 0.15);
        pen.Box(x + WindowRight, frameTop, Right - WindowRight, FrameHeight, Board, 0.15);
        pen.Box(x + Left, frameTop + FrameHeight, Right - Left, 1.6, 0);
        pen.Box(x + Left, y + CardTop, WindowLeft - Left, CardThick, 255, 0.2);
        pen.Box(x + WindowRight, y + CardTop, Right - WindowRight, CardThick, 255, 0.2);
        // Section of a blade: face up, level with the card.
        pen.Shape(Steel, 0.15, (x + 45, y + CardTop), (x + 55, y + CardTop), (x + 52, y + CardTop + 3.5), (x + 48, y + CardTop + 3.5));
        pen.Line(x + 50, y + 2.2, x + 50, y + CardTop - 0.4);
        pen.Line(x + 50, y + CardTop - 0.4, x + 49.4, y + CardTop - 1.6);
        pen.Line(x + 50, y + CardTop - 0.4, x + 50.6, y + CardTop - 1.6);
        pen.Write("camera looks straight down", x + 53, y, 60, 2.6);
        pen.Write("face level with the card", x + Right + 4, y + CardTop - 1.5, 60, 2.6);
        pen.Write("frame, about 5 mm", x + Right + 4, y + CardTop + 4, 60, 2.6);
        pen.Write("matt black ground", x + Right + 4, y + CardTop + 9.3, 60, 2.6);
    }
}
