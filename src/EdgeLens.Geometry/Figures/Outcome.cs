using System.Diagnostics.CodeAnalysis;

namespace EdgeLens.Geometry.Figures;

/// <summary>Either a result or the refusal that explains why there is none. Nothing passes through the pipeline as an exception.</summary>
/// <typeparam name="T">The result, never null.</typeparam>
public sealed class Outcome<T> where T : class
{
    private readonly T? _value;

    private Outcome(T? value, Refusal? refusal)
    {
        _value = value;
        Refusal = refusal;
    }

    /// <summary>The reason, when there is no result.</summary>
    public Refusal? Refusal { get; }

    /// <summary>The result; asking for it where there is none is our mistake.</summary>
    /// <exception cref="InvalidOperationException">The outcome is a refusal.</exception>
    public T Value => _value ?? throw new InvalidOperationException($"There is no {typeof(T).Name}: {Refusal}");

    /// <summary>True with the result, false with the reason.</summary>
    public bool TryGet([NotNullWhen(true)] out T? value, [NotNullWhen(false)] out Refusal? refusal)
    {
        value = _value;
        refusal = Refusal;
        return value is not null;
    }

    /// <summary>Goes on with the next stage, or carries the refusal along.</summary>
    public Outcome<TNext> Then<TNext>(Func<T, Outcome<TNext>> next) where TNext : class => _value is null ? Refusal! : next(_value);

    /// <summary>A result.</summary>
    public static implicit operator Outcome<T>(T value) => new(value ?? throw new ArgumentNullException(nameof(value)), null);

    /// <summary>A refusal.</summary>
    public static implicit operator Outcome<T>(Refusal refusal) => new(null, refusal ?? throw new ArgumentNullException(nameof(refusal)));
}
