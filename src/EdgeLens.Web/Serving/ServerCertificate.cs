using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using EdgeLens.Records.Book;

namespace EdgeLens.Web.Serving;

/// <summary>The certificate for HTTPS: the user's, or one that the server makes once and keeps, so that a device that trusts it meets the same again.</summary>
internal static class ServerCertificate
{
    /// <summary>Browsers refuse server certificates of more than 825 days.</summary>
    private const int ValidDays = 820;

    public static X509Certificate2 Of(ServerSettings settings)
    {
        if (settings.CertificatePath is { } path)
        {
            try
            {
                return X509CertificateLoader.LoadPkcs12FromFile(path, settings.CertificatePassword);
            }
            catch (Exception e) when (e is CryptographicException or IOException or UnauthorizedAccessException)
            {
                throw new BookException($"{path} cannot be used as a certificate: {e.Message}", e);
            }
        }
        string own = Path.Combine(settings.BookFolder, "web", "server.pfx");
        if (File.Exists(own) && X509CertificateLoader.LoadPkcs12FromFile(own, null) is var kept && kept.NotAfter > settings.Clock.GetLocalNow().DateTime.AddDays(7)) return kept;
        using X509Certificate2 made = Make(settings.Clock.GetUtcNow(), settings);
        WebFile.Write(own, made.Export(X509ContentType.Pfx));
        return X509CertificateLoader.LoadPkcs12FromFile(own, null);
    }

    private static X509Certificate2 Make(DateTimeOffset now, ServerSettings settings)
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        CertificateRequest request = new("CN=EdgeLens", key, HashAlgorithmName.SHA256);
        SubjectAlternativeNameBuilder names = new();
        names.AddDnsName("localhost");
        foreach (string name in settings.HostNames.Append(Dns.GetHostName()).Distinct(StringComparer.OrdinalIgnoreCase)) names.AddDnsName(name);
        IPAddress[] addresses = settings.Address.Equals(IPAddress.Any) || settings.Address.Equals(IPAddress.IPv6Any)
            ? [.. System.Net.NetworkInformation.NetworkInterface.GetAllNetworkInterfaces().SelectMany(n => n.GetIPProperties().UnicastAddresses).Select(a => a.Address)]
            : [settings.Address];
        foreach (IPAddress address in addresses.Append(IPAddress.Loopback).Distinct()) names.AddIpAddress(address);
        request.CertificateExtensions.Add(names.Build());
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(false, false, 0, true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid("1.3.6.1.5.5.7.3.1")], false)); // TLS server, RFC 5280, 4.2.1.12
        return request.CreateSelfSigned(now.AddDays(-1), now.AddDays(ValidDays));
    }
}
