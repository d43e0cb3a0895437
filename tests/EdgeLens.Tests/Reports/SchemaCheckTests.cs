using System.Text.Json;
using Xunit;

namespace EdgeLens.Tests.Reports;

/// <summary>The checker is tested both ways, or it would prove nothing.</summary>
public sealed class SchemaCheckTests
{
    private const string Schema = """
        {"type":"object","additionalProperties":false,"required":["a"],
         "properties":{"a":{"oneOf":[{"$ref":"#/$defs/n"},{"type":"null"}]},"b":{"type":"array","items":{"enum":["x","y"]}},"c":{"const":1},"d":{"type":["string","null"],"pattern":"^z"},"e":{"type":"integer","minimum":1}},
         "$defs":{"n":{"type":"number"}}}
        """;

    [Theory]
    [InlineData("""{"a":1.5}""", true)]
    [InlineData("""{"a":null,"b":["x","y"],"c":1,"d":"zip","e":3}""", true)]
    [InlineData("""{"a":2,"d":null}""", true)]
    [InlineData("""{}""", false)]
    [InlineData("""{"a":"1"}""", false)]
    [InlineData("""{"a":1,"f":1}""", false)]
    [InlineData("""{"a":1,"b":["z"]}""", false)]
    [InlineData("""{"a":1,"c":2}""", false)]
    [InlineData("""{"a":1,"d":"y"}""", false)]
    [InlineData("""{"a":1,"e":0}""", false)]
    [InlineData("""{"a":1,"e":1.5}""", false)]
    [InlineData("""[]""", false)]
    public void The_check_tells_valid_from_invalid(string json, bool isValid) =>
        Assert.Equal(isValid, new SchemaCheck(JsonElement.Parse(Schema)).Violations(JsonElement.Parse(json)).Count == 0);

    [Fact]
    public void A_keyword_that_the_check_does_not_know_is_not_passed_over() =>
        Assert.Throws<NotSupportedException>(() => new SchemaCheck(JsonElement.Parse("""{"maximum":3}""")).Violations(JsonElement.Parse("4")));
}
