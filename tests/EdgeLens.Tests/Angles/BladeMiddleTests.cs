using EdgeLens.Imaging.Lines;
using EdgeLens.Measuring.SideView;
using Xunit;

namespace EdgeLens.Tests.Angles;

/// <summary>A blade's bright side below y = 100, its face as a dim band above it or none, drawn exactly.</summary>
public sealed class BladeMiddleTests
{
    private const int Size = 320, LineY = 100, BackY = 230;
    private const double MmPerPx = 0.008, HalfWidthMm = 1.8;

    /// <summary>Seen from vy out of the face the face is a band 2 vy w wide: where it is seen beside the line, the line is its nearer edge and the middle lies vy w outside of it, else as far inside.</summary>
    [Theory]
    [InlineData(0.05, true, -0.09)]
    [InlineData(0.05, false, 0.09)]
    [InlineData(-0.05, false, 0.09)]
    [InlineData(0.02, false, 0)] // a band of 9 px is lost in the halo of the line
    public void The_middle_is_told_by_the_face_s_band(double vy, bool isBandSeen, double inwardsMm)
    {
        BladeMiddle middle = BladeMiddle.Of(Draw(isBandSeen ? 2 * vy * HalfWidthMm / MmPerPx : 0), Line, Back, vy, MmPerPx, null);

        Assert.Equal(inwardsMm, middle.FaceInwardsMm.Value, 1e-9);
        Assert.Equal(vy < 0 ? -0.09 : vy * HalfWidthMm, middle.BackInwardsMm.Value, 1e-9);
        // Alignment 1.8 mm x 0.866° and the width's 0.358 mm times vy; where the edge is not told, vy w rectangular on top.
        double told = Math.Sqrt(Math.Pow(HalfWidthMm * 0.866 * Math.PI / 180, 2) + Math.Pow(0.358 * vy, 2)), hand = inwardsMm == 0 ? Math.Sqrt(told * told + vy * vy * HalfWidthMm * HalfWidthMm / 3) : told;
        Assert.Equal(hand, middle.FaceInwardsMm.StandardUncertainty, 1e-4);
    }

    private static Stretch Line => Stretch.Between(new(20, LineY), new(300, LineY), new(160, LineY + 50));

    // The picture's lower part is steel as bright as the blade's side: beside this line it is a band, where the back is looked upon.
    private static Stretch Back => Stretch.Between(new(20, BackY), new(300, BackY), new(160, BackY - 50));

    private static TonePicture Draw(double bandPx)
    {
        byte[] tones = new byte[Size * Size];
        Random random = new(5);
        for (int y = 0; y < Size; y++)
            for (int x = 0; x < Size; x++) tones[y * Size + x] = (byte)Math.Round((y > BackY + 26 ? 38 : y >= LineY ? 120 : y >= LineY - bandPx ? 41 : 38) + 1.5 * DrawnWedge.Normal(random));
        return TonePicture.Of(tones, Size);
    }
}
