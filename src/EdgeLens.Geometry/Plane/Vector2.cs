namespace EdgeLens.Geometry.Plane;

/// <summary>A plane vector without a unit, for use inside one frame.</summary>
public readonly record struct Vector2(double X, double Y)
{
    /// <summary>Length.</summary>
    public double Length => Math.Sqrt(X * X + Y * Y);

    /// <summary>Turned by a quarter so that x goes to y: (x, y) to (-y, x).</summary>
    public Vector2 Perpendicular => new(-Y, X);

    /// <summary>The same direction with length 1.</summary>
    /// <exception cref="InvalidOperationException">The vector has no length.</exception>
    public Vector2 Unit => Length is > 0 and var l ? new(X / l, Y / l) : throw new InvalidOperationException("A vector without length has no direction.");

    /// <summary>For messages. Written out, because the text that a record makes by itself asks the vectors among its properties for theirs, without end.</summary>
    public override string ToString() => FormattableString.Invariant($"({X}, {Y})");

    /// <summary>Scalar product.</summary>
    public double Dot(Vector2 other) => X * other.X + Y * other.Y;

    /// <summary>Signed area of the parallelogram, positive when <paramref name="other"/> lies from x towards y.</summary>
    public double Cross(Vector2 other) => X * other.Y - Y * other.X;

    /// <summary>Sum.</summary>
    public static Vector2 operator +(Vector2 a, Vector2 b) => new(a.X + b.X, a.Y + b.Y);

    /// <summary>Difference.</summary>
    public static Vector2 operator -(Vector2 a, Vector2 b) => new(a.X - b.X, a.Y - b.Y);

    /// <summary>Multiple.</summary>
    public static Vector2 operator *(double s, Vector2 a) => new(s * a.X, s * a.Y);
}
