namespace EdgeLens.Web.People;

/// <summary>One account.</summary>
/// <param name="Code">Initials or staff code, as in the book.</param>
/// <param name="Role">What they may do.</param>
/// <param name="PinHash">PBKDF2 with its own salt and cost; the PIN itself is kept nowhere.</param>
public sealed record StaffMember(string Code, Role Role, string PinHash)
{
    /// <summary>Changes with role and PIN, so that older sessions end.</summary>
    internal string Stamp => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes($"{Code}/{Role}/{PinHash}")));
}
