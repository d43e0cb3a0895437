namespace EdgeLens.Geometry.Space;

/// <summary>A vector in space without a unit, for use inside one frame.</summary>
public readonly record struct Vector3(double X, double Y, double Z)
{
    /// <summary>Length.</summary>
    public double Length => Math.Sqrt(Dot(this));

    /// <summary>The same direction with length 1.</summary>
    /// <exception cref="InvalidOperationException">The vector has no length.</exception>
    public Vector3 Unit => Length is > 0 and var l ? 1 / l * this : throw new InvalidOperationException("A vector without length has no direction.");

    /// <summary>For messages. Written out, because the text that a record makes by itself asks the vectors among its properties for theirs, without end.</summary>
    public override string ToString() => FormattableString.Invariant($"({X}, {Y}, {Z})");

    /// <summary>Scalar product.</summary>
    public double Dot(Vector3 other) => X * other.X + Y * other.Y + Z * other.Z;

    /// <summary>Vector product, right-handed: x cross y is z.</summary>
    public Vector3 Cross(Vector3 o) => new(Y * o.Z - Z * o.Y, Z * o.X - X * o.Z, X * o.Y - Y * o.X);

    /// <summary>Sum.</summary>
    public static Vector3 operator +(Vector3 a, Vector3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    /// <summary>Difference.</summary>
    public static Vector3 operator -(Vector3 a, Vector3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    /// <summary>Multiple.</summary>
    public static Vector3 operator *(double s, Vector3 a) => new(s * a.X, s * a.Y, s * a.Z);
}
