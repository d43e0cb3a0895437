namespace EdgeLens.Geometry.Space;

/// <summary>A rotation in space, b = R a, kept as the images of the three axes of frame a (the columns of R).</summary>
/// <param name="X">Image of the x axis, unit.</param>
/// <param name="Y">Image of the y axis, unit.</param>
/// <param name="Z">Image of the z axis, unit: X cross Y.</param>
public readonly record struct Rotation3(Vector3 X, Vector3 Y, Vector3 Z)
{
    /// <summary>Turns nothing.</summary>
    public static Rotation3 Identity => new(new(1, 0, 0), new(0, 1, 0), new(0, 0, 1));

    /// <summary>b from a.</summary>
    public Vector3 Apply(Vector3 a) => a.X * X + a.Y * Y + a.Z * Z;

    /// <summary>a from b: the transpose.</summary>
    public Vector3 ApplyInverse(Vector3 b) => new(X.Dot(b), Y.Dot(b), Z.Dot(b));

    /// <summary>This rotation, then a turn about <paramref name="axisAngle"/> (frame b) by its length in radians: exp([ω]) R.</summary>
    /// <remarks>Rodrigues' formula; orthonormality is restored at each call, so that many small turns don't drift.</remarks>
    public Rotation3 ThenTurned(Vector3 axisAngle)
    {
        Vector3 x = Turned(X, axisAngle).Unit;
        Vector3 y = Turned(Y, axisAngle);
        y = (y - x.Dot(y) * x).Unit;
        return new(x, y, x.Cross(y));
    }

    private static Vector3 Turned(Vector3 v, Vector3 axisAngle)
    {
        double angle = axisAngle.Length;
        if (angle < 1e-12) return v + axisAngle.Cross(v);
        Vector3 axis = 1 / angle * axisAngle;
        (double s, double c) = Math.SinCos(angle);
        return c * v + s * axis.Cross(v) + (1 - c) * axis.Dot(v) * axis;
    }

    /// <summary>The rotation whose first two columns are nearest to two vectors that are almost orthonormal (pose from a homography).</summary>
    /// <remarks>Symmetric: the error of orthogonality is split evenly between the two.</remarks>
    /// <exception cref="InvalidOperationException">The vectors are parallel or one has no length.</exception>
    public static Rotation3 FromNearlyOrthonormal(Vector3 x, Vector3 y)
    {
        (x, y) = (x.Unit, y.Unit);
        Vector3 sum = (x + y).Unit, difference = (x - y).Unit;
        double half = Math.Sqrt(0.5);
        x = half * (sum + difference);
        y = half * (sum - difference);
        return new(x, y, x.Cross(y));
    }
}
