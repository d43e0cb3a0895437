namespace EdgeLens.Geometry.Plane;

/// <summary>Plane similarity b = Scale · R(AngleRad) · a + (Dx, Dy), optionally mirrored (y negated before turning).</summary>
/// <remarks>Named b-from-a where used: <c>bladeFromCard</c>; products read inner letters alike.</remarks>
public readonly record struct Similarity(double Scale, double AngleRad, double Dx, double Dy, bool Mirrored = false)
{
    /// <summary>Leaves everything where it is.</summary>
    public static Similarity Identity => new(1, 0, 0, 0);

    /// <summary>The image of a point.</summary>
    public Vector2 Apply(Vector2 a) => Turn(a) + new Vector2(Dx, Dy);

    /// <summary>The image of a direction: turned, mirrored and scaled, not moved.</summary>
    public Vector2 Turn(Vector2 a)
    {
        (double s, double c) = Math.SinCos(AngleRad);
        double y = Mirrored ? -a.Y : a.Y;
        return new(Scale * (c * a.X - s * y), Scale * (s * a.X + c * y));
    }

    /// <summary>The way back: a from b.</summary>
    public Similarity Inverse()
    {
        // Mirrored: (R M)^-1 = M R(-θ) = R(θ) M, so the angle keeps its sign; else it changes.
        Similarity turn = new(1 / Scale, Mirrored ? AngleRad : -AngleRad, 0, 0, Mirrored);
        Vector2 d = turn.Apply(new(Dx, Dy));
        return turn with { Dx = -d.X, Dy = -d.Y };
    }

    /// <summary>c-from-a = c-from-b after b-from-a.</summary>
    public static Similarity operator *(Similarity cFromB, Similarity bFromA)
    {
        Vector2 d = cFromB.Apply(new(bFromA.Dx, bFromA.Dy));
        double angle = cFromB.AngleRad + (cFromB.Mirrored ? -bFromA.AngleRad : bFromA.AngleRad);
        return new(cFromB.Scale * bFromA.Scale, Math.IEEERemainder(angle, 2 * Math.PI), d.X, d.Y, cFromB.Mirrored ^ bFromA.Mirrored);
    }
}
