using System.Globalization;

namespace EdgeLens.Store.Transfer;

/// <summary>Values of the database as text and back, to the last bit and in every culture alike.</summary>
internal static class ValueText
{
    /// <summary>The value as text; null stays null.</summary>
    public static string? Write(object? value) => value switch
    {
        null => null,
        string text => text,
        bool flag => flag ? "true" : "false",
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        TimeOnly time => time.ToString("O", CultureInfo.InvariantCulture),
        DateTimeOffset moment => moment.ToUniversalTime().ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture),
        byte[] bytes => Convert.ToBase64String(bytes),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => throw new ArgumentException($"No text is defined for {value.GetType()}.", nameof(value)),
    };

    /// <summary>The value of a text.</summary>
    /// <exception cref="FormatException">The text is no such value.</exception>
    public static object Read(string text, Type type) =>
        type == typeof(string) ? text
        : type == typeof(bool) ? bool.Parse(text)
        : type == typeof(int) ? int.Parse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture)
        : type == typeof(long) ? long.Parse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture)
        : type == typeof(double) ? double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture)
        : type == typeof(decimal) ? decimal.Parse(text, NumberStyles.Number, CultureInfo.InvariantCulture)
        : type == typeof(DateOnly) ? DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture)
        : type == typeof(TimeOnly) ? TimeOnly.ParseExact(text, "O", CultureInfo.InvariantCulture)
        : type == typeof(DateTimeOffset) ? DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal)
        : type == typeof(byte[]) ? Convert.FromBase64String(text)
        : throw new ArgumentException($"No text is defined for {type}.", nameof(type));
}
