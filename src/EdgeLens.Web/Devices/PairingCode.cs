using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace EdgeLens.Web.Devices;

/// <summary>The one code that can be used now: shown on the server's console, once, for one device.</summary>
/// <param name="clock">For its end.</param>
/// <param name="show">Puts a line on the server's console.</param>
internal sealed class PairingCode(TimeProvider clock, Action<string> show)
{
    /// <summary>Time to walk from the server to the device.</summary>
    public static readonly TimeSpan ValidFor = TimeSpan.FromMinutes(10);

    /// <summary>Wrong codes until it is void: 5 of 10^8 is a chance of 1 in 20 million.</summary>
    public const int Tries = 5;

    private readonly Lock _gate = new();
    private string? _code;
    private string? _address;
    private DateTimeOffset _until;
    private int _triesLeft;

    /// <summary>Makes a new code and shows it; the one before is void.</summary>
    /// <param name="from">Address of the device that asks: the code is good for it alone.</param>
    public void Ask(string from)
    {
        string code = RandomNumberGenerator.GetInt32(100_000_000).ToString("D8", CultureInfo.InvariantCulture);
        lock (_gate) (_code, _address, _until, _triesLeft) = (code, from, clock.GetUtcNow() + ValidFor, Tries);
        show($"The device {from} asks to be paired. Its code: {code[..4]} {code[4..]} (10 minutes). Only type it into a device that you hold in your hand.");
    }

    /// <summary>True once, for the right code in time.</summary>
    public bool IsRight(string from, string given)
    {
        string digits = new([.. given.Where(char.IsAsciiDigit)]);
        lock (_gate)
        {
            if (_code is null || _address != from || clock.GetUtcNow() > _until || _triesLeft-- <= 0) return false;
            if (!CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(digits), Encoding.ASCII.GetBytes(_code))) return false;
            _code = null;
            return true;
        }
    }
}
