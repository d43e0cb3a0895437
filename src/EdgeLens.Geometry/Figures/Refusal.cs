namespace EdgeLens.Geometry.Figures;

/// <summary>Why something cannot be measured, against which limit, and what the user can do about it.</summary>
/// <param name="Code">Stable short code, lower case with hyphens; part of the JSON schema.</param>
/// <param name="Reason">What is wrong, in one sentence that a nurse understands.</param>
/// <param name="Advice">What to do next, in one sentence.</param>
/// <param name="Figure">The measured figure that failed, where there is one.</param>
/// <param name="Limit">The limit it was held against, same unit.</param>
/// <param name="Unit">Unit of figure and limit.</param>
public sealed record Refusal(string Code, string Reason, string Advice, double? Figure = null, double? Limit = null, string? Unit = null)
{
    /// <inheritdoc />
    public override string ToString() => Figure is { } f && Limit is { } l
        ? FormattableString.Invariant($"{Code}: {Reason} (measured {f:0.###} {Unit}, limit {l:0.###} {Unit}). {Advice}")
        : $"{Code}: {Reason} {Advice}";
}
