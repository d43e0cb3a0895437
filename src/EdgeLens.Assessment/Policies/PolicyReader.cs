using System.Collections.Immutable;
using System.Text.Json;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Geometry.Figures;

namespace EdgeLens.Assessment.Policies;

/// <summary>Reads a practice's limits from JSON (docs/policy.md) and complains about everything that is wrong, with line and property.</summary>
public sealed class PolicyReader
{
    private const int SchemaVersion = 1;

    // A name stands in a headline of the report.
    private const int LongestName = 80;

    private readonly List<(int Line, string Message)> _complaints = [];

    private PolicyReader()
    {
    }

    /// <summary>Reads a policy.</summary>
    /// <param name="json">The text of the file.</param>
    /// <returns>The policy, or a refusal "policy-invalid" whose reason has one line for each complaint: "line 7: limits.nickTouchUpUm: ...".</returns>
    public static Outcome<Policy> Read(string json)
    {
        LinedJson root;
        try
        {
            root = LinedJson.Parse(json);
        }
        catch (JsonException e)
        {
            string where = e.LineNumber is { } line ? FormattableString.Invariant($"line {line + 1}: ") : "";
            return Invalid($"{where}not JSON: {e.Message}");
        }
        PolicyReader reader = new();
        Policy? policy = reader.ReadRoot(root);
        return reader._complaints.Count == 0 ? policy! : Invalid(string.Join('\n', reader._complaints.OrderBy(c => c.Line).Select(c => c.Message)));
    }

    private static Refusal Invalid(string reason) => new("policy-invalid", reason, "Mend the policy file; docs/policy.md lists every property, its unit and its range.");

    private Policy? ReadRoot(LinedJson root)
    {
        if (!IsObject(root)) return null;
        Dictionary<string, LinedJson> parts = Members(root, "schemaVersion", "name", "limits", "families", "reasons");
        if (Required(parts, root, "schemaVersion") is { } version && version.Number != SchemaVersion)
            Complain(version, FormattableString.Invariant($"must be {SchemaVersion}"));
        string name = "";
        if (Required(parts, root, "name") is { } n)
        {
            name = n.Text?.Trim() ?? "";
            if (name.Length is 0 or > LongestName) Complain(n, FormattableString.Invariant($"must be a text of 1 to {LongestName} characters"));
        }
        PolicyLimits common = Required(parts, root, "limits") is { } limits ? ReadLimits(limits, new(), isWhole: true) : new();
        PolicyLimits[] byFamily = [.. Enumerable.Repeat(common, FamilyTraits.All.Length)];
        if (parts.TryGetValue("families", out LinedJson? families) && IsObject(families))
            foreach ((string key, LinedJson changes) in Members(families, [.. FamilyTraits.All.Select(t => t.Name)]))
                byFamily[(int)FamilyTraits.Named(key)!.Family] = ReadLimits(changes, common, isWhole: false);
        return new(name, [.. byFamily], ReadReasons(parts.GetValueOrDefault("reasons")));
    }

    private PolicyLimits ReadLimits(LinedJson node, PolicyLimits limits, bool isWhole)
    {
        if (!IsObject(node)) return limits;
        int complaintsBefore = _complaints.Count;
        Dictionary<string, LinedJson> given = Members(node, [.. PolicyTerm.All.Select(t => t.Name)]);
        foreach (PolicyTerm term in PolicyTerm.All)
        {
            if (isWhole && !term.MayBeLeftOut && Required(given, node, term.Name) is null) continue;
            if (!given.TryGetValue(term.Name, out LinedJson? value)) continue;
            if (value.Kind == JsonValueKind.Null && term.MayBeNull) limits = term.With(limits, null);
            else if (value.Number is { } v && v >= term.Least && v <= term.Greatest) limits = term.With(limits, v);
            else Complain(value, FormattableString.Invariant($"must be a number from {term.Least} to {term.Greatest}{(term.MayBeNull ? ", or null for \"not judged\"" : "")}"));
        }
        if (_complaints.Count == complaintsBefore) CheckOrder(node, given, limits);
        return limits;
    }

    private void CheckOrder(LinedJson node, Dictionary<string, LinedJson> given, PolicyLimits limits)
    {
        foreach ((string lower, string upper, bool mayBeEqual) in PolicyTerm.Order)
        {
            // Against what holds in the end: a family may change one of the two and take over the other.
            if (PolicyTerm.Named(lower)!.Get(limits) is not { } low || PolicyTerm.Named(upper)!.Get(limits) is not { } high) continue;
            if (low < high || (mayBeEqual && low == high)) continue;
            LinedJson at = given.GetValueOrDefault(lower) ?? given.GetValueOrDefault(upper) ?? node;
            Complain(at, FormattableString.Invariant($"{lower} ({low}) must be less than {(mayBeEqual ? "or equal to " : "")}{upper} ({high})"));
        }
    }

    private ImmutableSortedDictionary<string, string> ReadReasons(LinedJson? node)
    {
        if (node is null || !IsObject(node)) return ImmutableSortedDictionary<string, string>.Empty.WithComparers(StringComparer.Ordinal);
        Dictionary<string, LinedJson> given = Members(node, [.. PolicyTerm.All.Select(t => t.Name)]);
        foreach (LinedJson reason in given.Values)
            if (string.IsNullOrWhiteSpace(reason.Text)) Complain(reason, "must be a text");
        return given.ToImmutableSortedDictionary(r => r.Key, r => r.Value.Text ?? "", StringComparer.Ordinal);
    }

    /// <summary>The known properties by name; unknown and repeated ones are complained about: a typing error must not pass as "no limit".</summary>
    private Dictionary<string, LinedJson> Members(LinedJson node, params string[] known)
    {
        Dictionary<string, LinedJson> found = new(StringComparer.Ordinal);
        foreach ((string name, LinedJson value) in node.Members)
        {
            if (!known.Contains(name, StringComparer.Ordinal)) Complain(value, $"unknown property; known here: {string.Join(", ", known)}");
            else if (!found.TryAdd(name, value)) Complain(value, "stands here twice");
        }
        return found;
    }

    private LinedJson? Required(Dictionary<string, LinedJson> members, LinedJson parent, string name)
    {
        if (members.TryGetValue(name, out LinedJson? value)) return value;
        Complain(parent with { Path = parent.Path.Length == 0 ? name : $"{parent.Path}.{name}" }, "is missing");
        return null;
    }

    private bool IsObject(LinedJson node)
    {
        if (node.Kind == JsonValueKind.Object) return true;
        Complain(node, "must be an object in braces");
        return false;
    }

    private void Complain(LinedJson at, string message) =>
        _complaints.Add((at.Line, FormattableString.Invariant($"line {at.Line}: {(at.Path.Length == 0 ? "(whole file)" : at.Path)}: {message}")));
}
