using System.Text.Json;
using System.Text.RegularExpressions;

namespace EdgeLens.Tests.Reports;

/// <summary>
/// Holds a JSON value against a JSON Schema, for those keywords of 2020-12 that our schema uses. A keyword that it does not know is an
/// error of the test, not something to pass over.
/// </summary>
internal sealed class SchemaCheck(JsonElement schema)
{
    private static readonly HashSet<string> Annotations = ["$schema", "$defs", "title", "description"];

    /// <summary>Every violation with its place; empty when the value is valid.</summary>
    public List<string> Violations(JsonElement value)
    {
        List<string> found = [];
        Check(value, schema, "$", found);
        return found;
    }

    private void Check(JsonElement value, JsonElement rule, string at, List<string> found)
    {
        foreach (JsonProperty keyword in rule.EnumerateObject())
        {
            JsonElement argument = keyword.Value;
            string? problem = keyword.Name switch
            {
                "type" => Types(argument).Contains(TypeOf(value)) || (TypeOf(value) == "integer" && Types(argument).Contains("number")) ? null : $"is {TypeOf(value)}",
                "const" => JsonElement.DeepEquals(value, argument) ? null : $"is not {argument}",
                "enum" => argument.EnumerateArray().Any(e => JsonElement.DeepEquals(value, e)) ? null : $"{value} is not one of {argument}",
                "minimum" => value.ValueKind != JsonValueKind.Number || value.GetDouble() >= argument.GetDouble() ? null : $"{value} is too small",
                "pattern" => value.ValueKind != JsonValueKind.String || Regex.IsMatch(value.GetString()!, argument.GetString()!) ? null : $"{value} does not match {argument}",
                "oneOf" => argument.EnumerateArray().Count(r => IsValid(value, r)) == 1 ? null : $"does not fit exactly one of {argument.GetArrayLength()} shapes: {value}",
                "$ref" => Refer(value, argument.GetString()!, at, found),
                "items" => Items(value, argument, at, found),
                "properties" => Properties(value, argument, at, found),
                "required" => Required(value, argument),
                "additionalProperties" => Additional(value, rule),
                _ => Annotations.Contains(keyword.Name) ? null : throw new NotSupportedException($"The check does not know the keyword {keyword.Name}."),
            };
            if (problem is not null) found.Add($"{at}: {problem}");
        }
    }

    private bool IsValid(JsonElement value, JsonElement rule)
    {
        List<string> found = [];
        Check(value, rule, "", found);
        return found.Count == 0;
    }

    private string? Refer(JsonElement value, string reference, string at, List<string> found)
    {
        Check(value, schema.GetProperty("$defs").GetProperty(reference["#/$defs/".Length..]), at, found);
        return null;
    }

    private string? Items(JsonElement value, JsonElement rule, string at, List<string> found)
    {
        if (value.ValueKind != JsonValueKind.Array) return null;
        int i = 0;
        foreach (JsonElement item in value.EnumerateArray()) Check(item, rule, FormattableString.Invariant($"{at}[{i++}]"), found);
        return null;
    }

    private string? Properties(JsonElement value, JsonElement rules, string at, List<string> found)
    {
        if (value.ValueKind != JsonValueKind.Object) return null;
        foreach (JsonProperty rule in rules.EnumerateObject())
            if (value.TryGetProperty(rule.Name, out JsonElement member)) Check(member, rule.Value, $"{at}.{rule.Name}", found);
        return null;
    }

    private static string? Required(JsonElement value, JsonElement names)
    {
        if (value.ValueKind != JsonValueKind.Object) return null;
        string[] missing = [.. names.EnumerateArray().Select(n => n.GetString()!).Where(n => !value.TryGetProperty(n, out _))];
        return missing.Length == 0 ? null : $"lacks {string.Join(", ", missing)}";
    }

    private static string? Additional(JsonElement value, JsonElement rule)
    {
        if (rule.GetProperty("additionalProperties").ValueKind != JsonValueKind.False) throw new NotSupportedException("The check knows additionalProperties only as false.");
        if (value.ValueKind != JsonValueKind.Object) return null;
        string[] unknown = [.. value.EnumerateObject().Select(m => m.Name).Where(n => !rule.GetProperty("properties").TryGetProperty(n, out _))];
        return unknown.Length == 0 ? null : $"has the unknown {string.Join(", ", unknown)}";
    }

    private static string[] Types(JsonElement argument) => argument.ValueKind == JsonValueKind.Array ? [.. argument.EnumerateArray().Select(t => t.GetString()!)] : [argument.GetString()!];

    private static string TypeOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Object => "object",
        JsonValueKind.Array => "array",
        JsonValueKind.String => "string",
        JsonValueKind.Null => "null",
        JsonValueKind.Number => value.GetDouble() == Math.Floor(value.GetDouble()) ? "integer" : "number",
        _ => "boolean",
    };
}
