using System.Globalization;

namespace EdgeLens.Assessment.Wording;

/// <summary>Days as text.</summary>
public static class DateText
{
    /// <summary>As in files and tables: 2025-01-31 (ISO 8601).</summary>
    public static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
