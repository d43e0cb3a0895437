using System.Collections.Immutable;
using EdgeLens.Records.Book;
using EdgeLens.Records.Entries;
using EdgeLens.Web.Serving;

namespace EdgeLens.Web.People;

/// <summary>The accounts of a book's server: <c>web/staff.json</c> in the book's folder.</summary>
/// <param name="bookFolder">Of the book.</param>
public sealed class StaffFile(string bookFolder)
{
    /// <summary>Digits at least; five wrong ones lock the account for <see cref="SignInGuard.LockedFor"/>, so that a million PINs take years.</summary>
    public const int ShortestPin = 6;

    /// <summary>Characters at most: a longer text only costs time to hash.</summary>
    public const int LongestPin = 64;

    private readonly string _path = Path.Combine(bookFolder, "web", "staff.json");

    /// <summary>All accounts, read anew: whoever is removed is out at the next request.</summary>
    /// <exception cref="BookException">The file cannot be read.</exception>
    public ImmutableArray<StaffMember> All()
    {
        try
        {
            return WebFile.ReadJson<StaffMember[]>(_path)?.ToImmutableArray() ?? [];
        }
        catch (System.Text.Json.JsonException e)
        {
            throw new BookException($"{_path} cannot be read: {e.Message}", e);
        }
    }

    /// <summary>The account of a code; null when there is none.</summary>
    public StaffMember? Find(string code) => All().FirstOrDefault(m => string.Equals(m.Code, code.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>Adds an account, or gives it another role and PIN.</summary>
    /// <exception cref="BookException">The PIN is too short or too long.</exception>
    /// <exception cref="ArgumentException">The code is no staff code.</exception>
    public StaffMember Set(string code, Role role, string pin)
    {
        ArgumentNullException.ThrowIfNull(pin);
        if (pin.Length is < ShortestPin or > LongestPin) throw new BookException($"A PIN has {ShortestPin} to {LongestPin} characters.");
        if (pin.Distinct().Count() < 3) throw new BookException("This PIN is too easy to guess: use at least three different characters.");
        StaffMember member = new(StaffCode.Check(code), role, PinHasher.Hash(pin));
        WebFile.WriteJson(_path, (StaffMember[])[.. All().Where(m => m.Code != member.Code), member]);
        return member;
    }

    /// <summary>Takes an account away.</summary>
    /// <returns>False when there was none.</returns>
    public bool Remove(string code)
    {
        ImmutableArray<StaffMember> all = All();
        StaffMember? member = Find(code);
        if (member is null) return false;
        WebFile.WriteJson(_path, all.Remove(member).ToArray());
        return true;
    }
}
