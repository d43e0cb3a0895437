using EdgeLens.Imaging.Photographs;
using Xunit;

namespace EdgeLens.Tests.Photographs;

/// <summary>Tests that count living photographs run alone: any other test may hold one for a moment.</summary>
[CollectionDefinition(Alone, DisableParallelization = true)]
public sealed class PhotographCount
{
    public const string Alone = "counts living photographs";
}

[Collection(PhotographCount.Alone)]
public sealed class PhotographLifeTests
{
    [Fact]
    public void Pixels_are_released_with_the_photograph()
    {
        int before = Photograph.LivingCount;
        Photograph photograph = PhotographReader.Read(MadePictures.Encode(".png"), "a.png", MadePictures.AnySize).Value;
        Assert.Equal(before + 1, Photograph.LivingCount);
        photograph.Dispose();
        photograph.Dispose();
        Assert.Equal(before, Photograph.LivingCount);
        Assert.Throws<ObjectDisposedException>(() => photograph.Grey);
    }
}
