using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using Xunit;

namespace EdgeLens.Tests.Plane;

public sealed class VectorTextTests
{
    [Fact]
    public void Vectors_can_be_written_in_a_message()
    {
        // The text that records make by themselves went round for ever here (unit of unit of unit ...) and ended the process.
        Assert.Equal("(1.5, -2)", new Vector2(1.5, -2).ToString());
        Assert.Equal("(0, 0, 0)", new Vector3(0, 0, 0).ToString());
    }
}
