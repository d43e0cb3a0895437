using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace EdgeLens.Web.People;

/// <summary>Slow hash of PINs.</summary>
internal static class PinHasher
{
    /// <summary>
    /// Of PBKDF2 with HMAC-SHA-512: what the OWASP Password Storage Cheat Sheet asks for (from memory). Even so a PIN of six digits falls to whoever holds the file and a day of
    /// computing: the hash buys time, the file's rights and the lock-out of <see cref="SignInGuard"/> do the rest.
    /// </summary>
    private const int Iterations = 210_000;

    private static readonly PasswordHasher<string> Hasher = new(Options.Create(new PasswordHasherOptions { IterationCount = Iterations }));

    // Someone who is unknown costs as much time as someone who is known: the answer's time tells no codes.
    private static readonly Lazy<string> Nobody = new(() => Hash(Convert.ToHexString(System.Security.Cryptography.RandomNumberGenerator.GetBytes(16))));

    public static string Hash(string pin) => Hasher.HashPassword("", pin);

    /// <summary>True when the PIN is that of the member; with no member it takes its time and says false.</summary>
    public static bool IsRight(StaffMember? member, string pin) =>
        Hasher.VerifyHashedPassword("", member?.PinHash ?? Nobody.Value, pin) != PasswordVerificationResult.Failed && member is not null;
}
