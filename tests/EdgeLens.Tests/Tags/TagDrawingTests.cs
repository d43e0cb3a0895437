using System.Globalization;
using EdgeLens.Cards;
using EdgeLens.Cards.Sheets;
using EdgeLens.Cards.Tags;
using EdgeLens.Imaging.Tags;
using OpenCvSharp;
using OpenCvSharp.Aruco;
using Xunit;

namespace EdgeLens.Tests.Tags;

/// <summary>The printed sheet, looked at by OpenCV's own detector.</summary>
public sealed class TagDrawingTests
{
    [Fact]
    public void Every_tag_of_a_sheet_is_found_with_its_number_at_true_size_and_apart_from_the_next()
    {
        TagLabel[] tags = [.. Enumerable.Range(1, 60).Select(i => new TagLabel(16 * i, string.Create(CultureInfo.InvariantCulture, $"C-{i} end 1")))];
        using Mat sheet = Cv2.ImDecode(TagDrawing.ToPng([.. tags], PaperSize.A4), ImreadModes.Grayscale);
        // 600 dpi as PNG says it: 23 622 pixels a metre.
        const double pixelsPerMm = 23.622;
        Assert.Equal(Math.Ceiling(210 * pixelsPerMm), sheet.Cols);
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(PredefinedDictionaryType.Dict6X6_1000);
        using ArucoDetector detector = new(dictionary, new DetectorParameters { ErrorCorrectionRate = 0, CornerRefinementMethod = CornerRefineMethod.Subpix }, new RefineParameters());
        detector.DetectMarkers(sheet, out Point2f[][] corners, out int[] ids, out _);
        Assert.Equal(tags.Select(t => t.Number), ids.Order());
        foreach (Point2f[] marker in corners)
            for (int k = 0; k < 4; k++)
                Assert.InRange(Point2f.Distance(marker[k], marker[(k + 1) % 4]) / pixelsPerMm, TagDesign.MarkerMm - 0.06, TagDesign.MarkerMm + 0.06);
    }

    [Fact]
    public void More_tags_than_fit_on_a_sheet_go_on_the_next()
    {
        using MemoryStream one = new(), two = new();
        int room = TagDrawing.Room(PaperSize.A4);
        TagDrawing.WritePdf(one, [.. Enumerable.Range(1, room).Select(i => new TagLabel(i, "C"))], PaperSize.A4);
        TagDrawing.WritePdf(two, [.. Enumerable.Range(1, room + 1).Select(i => new TagLabel(i, "C"))], PaperSize.A4);
        Assert.Equal((1, 2), (Pages(one), Pages(two)));

        static int Pages(MemoryStream pdf) => System.Text.RegularExpressions.Regex.Count(System.Text.Encoding.Latin1.GetString(pdf.ToArray()), @"/Type\s*/Page\b");
    }
}
