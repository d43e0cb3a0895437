namespace EdgeLens.Assessment.Decision;

/// <summary>What one figure says, of all its limits: the comparison that matters, and a more severe one that it leaves open.</summary>
/// <param name="Main">The most severe limit that it clearly exceeds; if none, the mildest that is open; if none, the mildest that it keeps.</param>
/// <param name="Open">A limit beyond the exceeded one that is not decidable.</param>
/// <param name="Alike">How many further nicks of the same edge and state this one stands for.</param>
internal sealed record Finding(LimitCheck Main, LimitCheck? Open, int Alike)
{
    /// <summary>The findings worth a reason, the most severe first: clear ones, then open ones; those inside only where nothing else is said of the whole working end.</summary>
    /// <param name="series">For each figure its comparisons, the mildest first.</param>
    /// <param name="kind">The verdict.</param>
    public static IEnumerable<Finding> Of(LimitCheck[][] series, VerdictKind kind)
    {
        LimitCheck[] exceeded = [.. series.SelectMany(s => s).Where(c => c.IsExceeded)];
        Finding[] all = [.. series.Where(s => s.Length > 0).Select(s => Of(s, exceeded)).OfType<Finding>().Where(f => !f.IsKept || kind == VerdictKind.Keep)];
        return all
            .Where(f => !SaysNothingNew(f.Main, all))
            .GroupBy(f => f.Main.What == CheckedFigure.NickDepth ? (object)(f.Main.Part, f.Main.Role, f.Main.Conformity) : f)
            .Select(g => g.First() with { Alike = g.Count() - 1 })
            .OrderBy(f => f.Main.IsExceeded ? 0 : f.Main.IsOpen ? 1 : 2).ThenByDescending(f => f.Main.Role);
    }

    private bool IsKept => Main is { IsExceeded: false, IsOpen: false };

    private static Finding? Of(LimitCheck[] limits, LimitCheck[] exceeded)
    {
        LimitCheck? clear = limits.LastOrDefault(c => c.IsExceeded);
        // Whether a limit is exceeded too does not matter on an edge where another figure has decided as much.
        LimitCheck? open = limits.FirstOrDefault(c =>
            c.IsOpen && (clear is null || c.Role > clear.Role) && (c.Conformity is null || c.Part is null || !exceeded.Any(e => e.Part == c.Part && e.Role >= c.Role)));
        if (clear is not null) return new(clear, open, 0);
        if (open is not null) return new(open, null, 0);
        return limits[0].IsOpen ? null : new(limits[0], null, 0);
    }

    /// <summary>How wide the line of light is says nothing new where its length has decided the same, or left the same open.</summary>
    private static bool SaysNothingNew(LimitCheck width, Finding[] all) => width.What == CheckedFigure.GreatestReflectionWidth && all.Any(f =>
        f.Main.What == CheckedFigure.ReflectingFraction && f.Main.Part == width.Part
        && (Covers(f.Main, width) || (f.Open is { } open && Covers(open, width))));

    private static bool Covers(LimitCheck said, LimitCheck width) => said.Conformity == width.Conformity && (said.Role >= width.Role || width.Conformity == Conformity.Inside);
}
