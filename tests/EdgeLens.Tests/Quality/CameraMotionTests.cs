using EdgeLens.Geometry.Figures;
using EdgeLens.Measuring.Quality;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Quality;

public sealed class CameraMotionTests
{
    [Fact]
    public void A_card_at_rest_has_as_much_detail_either_way()
    {
        using Mat still = CardScenes.AtRest();
        Assert.Null(CameraMotion.Check(still));
    }

    /// <summary>Out of focus is not moved: detail is lost either way.</summary>
    [Fact]
    public void Blur_without_a_direction_is_not_taken_for_motion()
    {
        using Mat still = CardScenes.AtRest();
        Cv2.GaussianBlur(still, still, new Size(0, 0), 4);
        Assert.Null(CameraMotion.Check(still));
    }

    /// <summary>A movement of half a marker's cell (0.11 mm) or less is for the blur's limit to judge; 0.34 mm, longer than a cell (0.21 mm), wipes the cells out along it. (Along a diagonal of the squares both kinds of border suffer alike: docs/physics/quality-gate.md.)</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(15)]
    [InlineData(90)]
    [InlineData(110)]
    public void A_camera_that_moved_is_refused(double directionDeg)
    {
        using Mat moved = CardScenes.Moved(14, directionDeg);
        Refusal? refusal = CameraMotion.Check(moved);
        Assert.Equal("motion", refusal?.Code);
        Assert.True(refusal!.Figure > refusal.Limit);
    }
}
