using System.Security.Cryptography;
using System.Text.Json;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Policies;

namespace EdgeLens.Records.Inspections;

/// <summary>Tells policies of one name apart.</summary>
public static class PolicyFingerprint
{
    /// <summary>The first 12 hex digits of the SHA-256 of a family's limits as JSON: 48 bits, so that two policies of a practice are never alike by chance.</summary>
    public static string Of(Policy policy, InstrumentFamily family)
    {
        ArgumentNullException.ThrowIfNull(policy);
        return Convert.ToHexStringLower(SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(policy.For(family))))[..12];
    }
}
