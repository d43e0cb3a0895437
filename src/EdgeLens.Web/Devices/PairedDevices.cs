using System.Security.Cryptography;
using System.Text;
using EdgeLens.Web.Serving;

namespace EdgeLens.Web.Devices;

/// <summary>Devices that may reach the sign-in page from the network: <c>web/devices.json</c> holds the hashes of their tokens, never the tokens.</summary>
internal sealed class PairedDevices(string bookFolder, TimeProvider clock)
{
    /// <summary>A device is paired again after this: a lost phone does not stay paired for ever.</summary>
    public static readonly TimeSpan PairedFor = TimeSpan.FromDays(90);

    private readonly string _path = Path.Combine(bookFolder, "web", "devices.json");
    private readonly Lock _gate = new();

    public bool Knows(string? token)
    {
        if (token is not { Length: 64 }) return false;
        string hash = Hash(token);
        lock (_gate) return Valid().Any(d => CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(d.Hash), Encoding.ASCII.GetBytes(hash)));
    }

    /// <returns>The token for the device's cookie: 256 random bits.</returns>
    public string Add()
    {
        string token = Convert.ToHexString(RandomNumberGenerator.GetBytes(32));
        lock (_gate) WebFile.WriteJson(_path, (Device[])[.. Valid(), new(Hash(token), clock.GetUtcNow())]);
        return token;
    }

    private IEnumerable<Device> Valid() => (WebFile.ReadJson<Device[]>(_path) ?? []).Where(d => clock.GetUtcNow() - d.PairedAt < PairedFor);

    // The token is random and long: a fast hash is enough.
    private static string Hash(string token) => Convert.ToHexString(SHA256.HashData(Encoding.ASCII.GetBytes(token)));

    private sealed record Device(string Hash, DateTimeOffset PairedAt);
}
