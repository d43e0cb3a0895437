using System.Net;
using EdgeLens.Assessment.Policies;
using EdgeLens.Records.Book;
using EdgeLens.Web.Capturing;

namespace EdgeLens.Web.Serving;

/// <summary>What a server serves, and to whom.</summary>
public sealed record ServerSettings
{
    /// <summary>The book.</summary>
    public required IRecordBook Book { get; init; }

    /// <summary>Its folder; the server's own files lie in <c>web</c> below.</summary>
    public required string BookFolder { get; init; }

    /// <summary>Whose limits plans and trends run against.</summary>
    public required Policy Policy { get; init; }

    /// <summary>What measures uploads.</summary>
    public required MeasureCapture Measure { get; init; }

    /// <summary>Told which working end is about to be photographed, whenever nothing waits to be measured; null: nobody is told.</summary>
    public PrepareCapture? Prepare { get; init; }

    /// <summary>Draws kept photographs so that two of them can be laid over each other; null: only those that were measured here are.</summary>
    public RegisterFace? Register { get; init; }

    /// <summary>Of EdgeLens.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>Of the machine.</summary>
    public required TimeProvider Clock { get; init; }

    /// <summary>The server's console: addresses, pairing codes, complaints.</summary>
    public required Action<string> Say { get; init; }

    /// <summary>Address to listen on. Any other than loopback is served over HTTPS only.</summary>
    public IPAddress Address { get; init; } = IPAddress.Loopback;

    /// <summary>0: any free one.</summary>
    public int Port { get; init; } = 8370;

    /// <summary>The user's certificate with its key (PFX); null: the server makes one where it needs one.</summary>
    public string? CertificatePath { get; init; }

    /// <summary>Of the certificate's file; null: none.</summary>
    public string? CertificatePassword { get; init; }

    /// <summary>Names by which browsers may call the server, besides addresses and the machine's own name.</summary>
    public IReadOnlyList<string> HostNames { get; init; } = [];

    /// <summary>Whether a request comes from this machine, whose user holds the book's folder anyway: it needs no pairing.</summary>
    internal Func<IPAddress?, bool> IsThisMachine { get; init; } = address => address is not null && IPAddress.IsLoopback(address);

    /// <summary>All requests of an address in a minute.</summary>
    internal int RequestsAMinute { get; init; } = RateLimits.RequestsAMinute;

    /// <summary>HTTPS is used beyond this machine, and with a certificate of the user.</summary>
    internal bool UsesHttps => CertificatePath is not null || !IPAddress.IsLoopback(Address);
}
