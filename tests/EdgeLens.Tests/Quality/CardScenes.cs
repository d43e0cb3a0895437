using EdgeLens.Cards;
using OpenCvSharp;

namespace EdgeLens.Tests.Quality;

/// <summary>The middle of the card as a macro photograph shows it: 1200 pixels of 24 µm, 29 mm.</summary>
internal static class CardScenes
{
    // 25.4 mm over 24 µm.
    private const int Dpi = 1058;

    private static readonly Lazy<byte[]> Card = new(() => CardDrawing.ToPng(CardDrawings.Cards.Default, Dpi));

    /// <summary>CV_8UC1, owned by the caller.</summary>
    public static Mat AtRest()
    {
        using Mat card = Cv2.ImDecode(Card.Value, ImreadModes.Grayscale);
        using Mat middle = card.SubMat(new Rect((card.Cols - 1200) / 2, (card.Rows - 900) / 2, 1200, 900));
        Mat picture = new();
        Cv2.GaussianBlur(middle, picture, new Size(0, 0), 1);
        Cv2.Rectangle(picture, new Rect(100, 242, 1000, 416), Scalar.All(15), -1);
        return picture;
    }

    /// <summary>The same while the camera moved evenly along a line; owned by the caller.</summary>
    /// <param name="lengthPx">Of the movement.</param>
    /// <param name="directionDeg">From the picture's x.</param>
    public static Mat Moved(double lengthPx, double directionDeg)
    {
        using Mat still = AtRest();
        using Mat kernel = new(41, 41, MatType.CV_32FC1, Scalar.All(0));
        (double sin, double cos) = Math.SinCos(directionDeg * Math.PI / 180);
        const int steps = 400;
        for (int i = 0; i < steps; i++)
        {
            double s = lengthPx * ((i + 0.5) / steps - 0.5);
            kernel.RowSpan<float>(20 + (int)Math.Round(s * sin))[20 + (int)Math.Round(s * cos)] += 1f / steps;
        }
        Mat moved = new();
        Cv2.Filter2D(still, moved, MatType.CV_8UC1, kernel);
        return moved;
    }

    /// <summary>Many discs of all sizes and tones; owned by the caller.</summary>
    public static Mat Discs(int seed)
    {
        Random random = new(seed);
        Mat picture = new(900, 1200, MatType.CV_8UC1, Scalar.All(120));
        for (int i = 0; i < 300; i++) Cv2.Circle(picture, new Point(random.Next(1200), random.Next(900)), random.Next(10, 60), Scalar.All(random.Next(20, 240)), -1);
        Cv2.GaussianBlur(picture, picture, new Size(0, 0), 1.5);
        return picture;
    }

    /// <summary>One bright bar on an even table; owned by the caller.</summary>
    public static Mat BareTable()
    {
        Mat picture = new(900, 1200, MatType.CV_8UC1, Scalar.All(90));
        Cv2.Rectangle(picture, new Rect(0, 400, 900, 60), Scalar.All(200), -1);
        Cv2.GaussianBlur(picture, picture, new Size(0, 0), 1.5);
        return picture;
    }
}
