using System.Net;
using Microsoft.AspNetCore.Http;

namespace EdgeLens.Web.Serving;

/// <summary>A page of the internet that lets its own name point to this machine would otherwise be served as if it were ours (DNS rebinding).</summary>
internal static class HostCheck
{
    public static bool IsOurs(HostString host, ServerSettings settings)
    {
        string name = host.Host.Trim('[', ']');
        return IPAddress.TryParse(name, out _) || settings.HostNames.Append("localhost").Append(Dns.GetHostName()).Contains(name, StringComparer.OrdinalIgnoreCase);
    }
}
