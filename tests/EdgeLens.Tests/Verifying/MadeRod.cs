using EdgeLens.Geometry.Plane;
using EdgeLens.Geometry.Space;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Tests.Calibration;
using EdgeLens.Tests.Cards;
using OpenCvSharp;

namespace EdgeLens.Tests.Verifying;

/// <summary>A round rod that lies on the card across its window, seen by a known camera. Card axes with z into the card, mm.</summary>
/// <param name="Camera">Truth.</param>
/// <param name="DiameterMm">Of the rod.</param>
/// <param name="AngleDeg">Of its axis from card x.</param>
internal sealed record MadeRod(CardGeometry Camera, double DiameterMm, double AngleDeg)
{
    private double Radius => DiameterMm / 2;

    private Vector3 Along => new(Math.Cos(AngleDeg * Math.PI / 180), Math.Sin(AngleDeg * Math.PI / 180), 0);

    /// <summary>On the axis over the window's middle: one radius above the card.</summary>
    private Vector3 Middle
    {
        get
        {
            CardPoint centre = Camera.Printed(DefaultCard.Card.Window.Centre);
            return new(centre.XMm, centre.YMm, -Radius);
        }
    }

    private Vector3 Eye
    {
        get
        {
            CardPoint pivot = Camera.Printed(Camera.Pivot);
            return new Vector3(pivot.XMm, pivot.YMm, 0) - Camera.CameraFromCard.ApplyInverse(Camera.PivotInCamera);
        }
    }

    /// <summary>A place of the silhouette: where the line of sight touches the rod, n · (C - P) = r with n across the axis.</summary>
    /// <param name="alongMm">From the window's middle.</param>
    /// <param name="side">+1 or -1.</param>
    public PixelPoint Silhouette(double alongMm, int side)
    {
        Vector3 w = Eye - Middle;
        w -= w.Dot(Along) * Along;
        double turn = side * Math.Acos(Radius / w.Length);
        Vector3 up = w.Unit, n = Math.Cos(turn) * up + Math.Sin(turn) * Along.Cross(up), x = Middle + alongMm * Along + Radius * n;
        return Camera.Project(new(x.X, x.Y), -x.Z);
    }

    /// <summary>CV_8UC1, owned by the caller: the card, white paper in the window, the rod matt black, Gaussian blur, noise, sRGB tones.</summary>
    /// <param name="widthPx">Of the picture.</param>
    /// <param name="blurPx">Standard deviation.</param>
    /// <param name="random">For the noise.</param>
    public Mat Picture(int widthPx, double blurPx, Random random)
    {
        const double paper = 0.34, ink = 0.03;
        Mat picture = MadeCard.Picture(Camera, widthPx, blurPx, 0, random);
        int width = picture.Cols, height = picture.Rows;
        using Mat rod = new(height, width, MatType.CV_32FC1), window = new(height, width, MatType.CV_32FC1);
        PixelPoint a1 = Silhouette(-30, 1), a2 = Silhouette(30, 1), b1 = Silhouette(-30, -1), b2 = Silhouette(30, -1);
        for (int y = 0; y < height; y++)
        {
            Span<float> inRod = rod.RowSpan<float>(y), inWindow = window.RowSpan<float>(y);
            for (int x = 0; x < width; x++)
            {
                CardPoint p = Camera.ToPlane(new(x, y), 0);
                var w = DefaultCard.Card.Window;
                inWindow[x] = p.XMm > w.XMm && p.XMm < w.RightMm && p.YMm > w.YMm && p.YMm < w.BottomMm && !DefaultCard.Card.Tab.Overlaps(new(p.XMm, p.YMm, 1e-6, 1e-6)) ? 1 : 0;
                // Straight edges (no distortion in this camera): area of the pixel inside both, to first order.
                inRod[x] = (float)Math.Min(Inside(a1, a2, x, y), Inside(b1, b2, x, y));
            }
        }
        Cv2.GaussianBlur(rod, rod, new Size(0, 0), blurPx);
        Cv2.GaussianBlur(window, window, new Size(0, 0), blurPx);
        for (int y = 0; y < height; y++)
        {
            Span<float> inRod = rod.RowSpan<float>(y), inWindow = window.RowSpan<float>(y);
            Span<byte> tones = picture.RowSpan<byte>(y);
            for (int x = 0; x < width; x++)
            {
                double light = LinearLight.Decode(tones[x] / 255.0);
                light += inWindow[x] * (paper - light);
                light += inRod[x] * (ink - light);
                tones[x] = (byte)Math.Round(255 * LinearLight.Encode(Math.Clamp(MadeCard.Normal(random, light, 0.004), 0, 1)));
            }
        }
        return picture;

        double Inside(PixelPoint from, PixelPoint to, double x, double y)
        {
            Vector2 d = new(to.X - from.X, to.Y - from.Y), n = d.Unit.Perpendicular;
            PixelPoint middle = Camera.Project(new(Middle.X, Middle.Y), Radius);
            double sign = Math.Sign((middle.X - from.X) * n.X + (middle.Y - from.Y) * n.Y);
            return Math.Clamp(0.5 + sign * ((x - from.X) * n.X + (y - from.Y) * n.Y), 0, 1);
        }
    }
}
