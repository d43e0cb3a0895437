namespace EdgeLens.Records.Entries;

/// <summary>How people stand in the book: by initials or a staff code, never by name (data that is not kept cannot get lost).</summary>
public static class StaffCode
{
    /// <summary>Characters at most: room for initials and a number, too little for most full names.</summary>
    public const int Longest = 6;

    /// <summary>The code in capitals.</summary>
    /// <exception cref="ArgumentException">It is empty, longer than <see cref="Longest"/>, or holds something else than A-Z, 0-9 and "-".</exception>
    public static string Check(string code)
    {
        string upper = (code ?? "").Trim().ToUpperInvariant();
        return upper.Length is > 0 and <= Longest && upper.All(c => c is (>= 'A' and <= 'Z') or (>= '0' and <= '9') or '-')
            ? upper
            : throw new ArgumentException($"\"{code}\" is no staff code: 1 to {Longest} letters A-Z, digits or hyphens. People stand in the book by initials or code, not by name.", nameof(code));
    }
}
