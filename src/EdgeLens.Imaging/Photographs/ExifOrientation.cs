using OpenCvSharp;

namespace EdgeLens.Imaging.Photographs;

/// <summary>How the sensor lay when the picture was taken (EXIF 2.32, tag 0x0112), and how to turn the picture upright.</summary>
internal static class ExifOrientation
{
    internal const int Upright = 1;

    /// <summary>Values outside 1 to 8 mean nothing and are read as upright, as viewers do.</summary>
    internal static int Of(int? tag) => tag is >= 1 and <= 8 ? tag.Value : Upright;

    /// <summary>True when width and height change places.</summary>
    internal static bool SwapsSides(int orientation) => orientation >= 5;

    /// <summary>
    /// Turns a picture in place. Values 5 to 8 are a transposition followed by what leads from there: nothing (5), left to right (6: a quarter turn clockwise),
    /// both (7), top to bottom (8: a quarter turn anticlockwise).
    /// </summary>
    /// <param name="picture">Borrowed; its sides change places for 5 to 8.</param>
    /// <param name="orientation">1 to 8.</param>
    internal static void TurnUpright(Mat picture, int orientation)
    {
        if (SwapsSides(orientation)) Cv2.Transpose(picture, picture);
        FlipMode? flip = orientation switch
        {
            2 or 6 => FlipMode.Y,
            3 or 7 => FlipMode.XY,
            4 or 8 => FlipMode.X,
            _ => null,
        };
        if (flip is { } f) Cv2.Flip(picture, picture, f);
    }
}
