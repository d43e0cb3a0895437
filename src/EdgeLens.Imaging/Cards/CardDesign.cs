namespace EdgeLens.Imaging.Cards;

/// <summary>
/// A place in the card's design: nominal millimetres, origin at the card's top left corner, x right, y down. The printed card
/// differs by its print scale: see <see cref="Calibration.CardCalibration.Printed(DesignPoint)"/> for true millimetres.
/// </summary>
public readonly record struct DesignPoint(double XMm, double YMm);

/// <summary>A rectangle in the card's design, nominal millimetres, sides along the card's.</summary>
public readonly record struct DesignRectangle(double XMm, double YMm, double WidthMm, double HeightMm)
{
    /// <summary>Right side.</summary>
    public double RightMm => XMm + WidthMm;

    /// <summary>Lower side.</summary>
    public double BottomMm => YMm + HeightMm;

    /// <summary>Middle.</summary>
    public DesignPoint Centre => new(XMm + WidthMm / 2, YMm + HeightMm / 2);

    /// <summary>True for a point inside or, within a micrometre, on the border.</summary>
    public bool Touches(DesignPoint p) => p.XMm >= XMm - 1e-3 && p.XMm <= RightMm + 1e-3 && p.YMm >= YMm - 1e-3 && p.YMm <= BottomMm + 1e-3;

    /// <summary>True when the two share area (more than a micrometre's strip).</summary>
    public bool Overlaps(DesignRectangle o) =>
        XMm < o.RightMm - 1e-3 && o.XMm < RightMm - 1e-3 && YMm < o.BottomMm - 1e-3 && o.YMm < BottomMm - 1e-3;

    /// <summary>True when <paramref name="o"/> lies within, borders may coincide.</summary>
    public bool Contains(DesignRectangle o) => Touches(new(o.XMm, o.YMm)) && Touches(new(o.RightMm, o.BottomMm));
}

/// <summary>The ChArUco board on the card.</summary>
/// <param name="Dictionary">Marker family.</param>
/// <param name="SquaresX">Squares in a row, at least 3.</param>
/// <param name="SquaresY">Rows, at least 3.</param>
/// <param name="SquareMm">Side of a square.</param>
/// <param name="MarkerMm">Side of a marker with its black border, centred in a white square.</param>
/// <param name="Origin">Top left corner of the first square.</param>
/// <param name="LegacyPattern">True: for an even number of rows the first square is white (OpenCV before 4.6).</param>
public sealed record CardBoard(MarkerDictionary Dictionary, int SquaresX, int SquaresY, double SquareMm, double MarkerMm, DesignPoint Origin, bool LegacyPattern)
{
    /// <summary>White strip between a marker and the border of its square.</summary>
    public double MarginMm => (SquareMm - MarkerMm) / 2;

    /// <summary>Side of one bit of a marker; its border is one bit wide.</summary>
    public double BitMm => MarkerMm / (Dictionary.BitsPerSide + 2);

    /// <summary>The whole board.</summary>
    public DesignRectangle Area => new(Origin.XMm, Origin.YMm, SquaresX * SquareMm, SquaresY * SquareMm);

    /// <summary>True for a black square; a white one carries a marker.</summary>
    public bool IsBlack(int column, int row) => (column + row) % 2 == (LegacyPattern && SquaresY % 2 == 0 ? 1 : 0);

    /// <summary>The square's outline.</summary>
    public DesignRectangle Square(int column, int row) => new(Origin.XMm + column * SquareMm, Origin.YMm + row * SquareMm, SquareMm, SquareMm);
}

/// <summary>A square of the board, counted from 0 at the top left.</summary>
public readonly record struct BoardSquare(int Column, int Row);

/// <summary>A patch of known reflectance in the window's tab.</summary>
/// <param name="Name">white, grey, dark ...</param>
/// <param name="Area">Where.</param>
/// <param name="Reflectance">Diffuse, 0 to 1.</param>
public sealed record ReflectancePatch(string Name, DesignRectangle Area, double Reflectance);

/// <summary>A bar whose printed length the user measures with a caliper.</summary>
/// <param name="IsHorizontal">Along x, else along y.</param>
/// <param name="Start">Left or upper end, on the bar's middle line.</param>
/// <param name="LengthMm">Nominal.</param>
public sealed record CaliperBar(bool IsHorizontal, DesignPoint Start, double LengthMm);
