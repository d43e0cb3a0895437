namespace EdgeLens.Geometry.Plane;

/// <summary>Least-squares parabola v = Value + Slope u + Square u² from running moments; u should be scaled to about ±1.</summary>
internal struct Parabola
{
    private double _n, _u1, _u2, _u3, _u4, _v0, _v1, _v2;

    public void Add(double u, double v)
    {
        double uu = u * u;
        _n++; _u1 += u; _u2 += uu; _u3 += u * uu; _u4 += uu * uu;
        _v0 += v; _v1 += u * v; _v2 += uu * v;
    }

    /// <summary>The coefficients by Cramer's rule; null with fewer than 5 points or when they do not spread over u.</summary>
    public readonly (double Value, double Slope, double Square)? Solve()
    {
        double c00 = _u2 * _u4 - _u3 * _u3, c01 = _u2 * _u3 - _u1 * _u4, c02 = _u1 * _u3 - _u2 * _u2;
        double c11 = _n * _u4 - _u2 * _u2, c12 = _u1 * _u2 - _n * _u3, c22 = _n * _u2 - _u1 * _u1;
        double det = _n * c00 + _u1 * c01 + _u2 * c02;
        if (_n < 5 || det <= 1e-9 * _n * _n * _n) return null;
        return ((c00 * _v0 + c01 * _v1 + c02 * _v2) / det, (c01 * _v0 + c11 * _v1 + c12 * _v2) / det, (c02 * _v0 + c12 * _v1 + c22 * _v2) / det);
    }
}
