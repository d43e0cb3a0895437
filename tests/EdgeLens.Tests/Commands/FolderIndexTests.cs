using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Folders;
using EdgeLens.Cli.Rim;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Commands;

public sealed class FolderIndexTests
{
    private const string Good = """
        {"instruments": [{"id": "C-1", "family": "universal-curette", "working_end": 2, "inspections": [
          {"date": "2025-06-20", "as_new": false, "condition": "dull", "photos": [
            {"file": "b/face.jpg", "view": "face", "bars_measured_mm": [40.29, 29.95], "height_over_card_mm": 0.5, "height_limit_mm": 0.3, "lights": "two"},
            {"file": "b/toe.jpg", "view": "toe", "bars_measured_mm": null, "height_limit_mm": null}]},
          {"date": "2025-01-10", "as_new": true, "photos": [{"file": "a.jpg", "view": "face"}]}]}]}
        """;

    [Fact]
    public void An_index_says_what_is_known_of_each_photograph()
    {
        ListedWorkingEnd end = Read(Good).WorkingEnds.Single();

        Assert.Equal(("C-1", 2, InstrumentFamily.UniversalCurette), (end.InstrumentId, end.WorkingEnd, end.Family.Family));
        Assert.Equal([new DateOnly(2025, 1, 10), new DateOnly(2025, 6, 20)], end.Inspections.Select(d => d.Date));
        ListedPhotograph unmeasured = end.Inspections[0].Photographs.Single(), measured = end.Inspections[1].Photographs[0];
        Assert.Null(unmeasured.Print);
        Assert.Equal((40.29, 29.95), (measured.Print!.BarXMm.Value, measured.Print.BarYMm.Value));
        // Rectangular limits, JCGM 100:2008, 4.3.7: half width over root 3.
        Assert.Equal((0.5, 0.3 / Math.Sqrt(3)), (measured.HeightOverCardMm.Value, measured.HeightOverCardMm.StandardUncertainty));
        Assert.Equal((0, 1.5 / Math.Sqrt(3)), (unmeasured.HeightOverCardMm.Value, unmeasured.HeightOverCardMm.StandardUncertainty));
        Assert.Equal([PhotographView.Face, PhotographView.Toe], end.Inspections[1].Photographs.Select(p => p.View));
    }

    [Theory]
    [InlineData("\"family\": \"universal-curette\"", "\"family\": \"hoe\"", "instrument C-1: field family")]
    [InlineData("\"working_end\": 2", "\"working_end\": 0", "instrument C-1: field working_end")]
    [InlineData("\"working_end\": 2", "\"working_end\": 1.5", "instrument C-1: field working_end")]
    [InlineData("\"id\": \"C-1\", ", "", "instrument number 1: field id is missing")]
    [InlineData("2025-06-20", "20.6.2025", "instrument C-1, inspection 20.6.2025: field date")]
    [InlineData("\"view\": \"toe\"", "\"view\": \"back\"", "instrument C-1, inspection 2025-06-20, photo number 2: field view")]
    [InlineData("b/face.jpg", "../face.jpg", "instrument C-1, inspection 2025-06-20, photo number 1: field file")]
    [InlineData("b/face.jpg", "/etc/hostname", "instrument C-1, inspection 2025-06-20, photo number 1: field file")]
    [InlineData("[40.29, 29.95]", "[29.95, 40.29]", "x and y are swapped")]
    [InlineData("[40.29, 29.95]", "[40.29]", "field bars_measured_mm")]
    [InlineData("\"height_limit_mm\": 0.3", "\"height_limit_mm\": -1", "field height_limit_mm")]
    [InlineData("\"as_new\": false", "\"as_new\": true", "instrument C-1, inspection 2025-01-10: field as_new")]
    [InlineData("2025-06-20", "2025-01-10", "instrument C-1, inspection 2025-01-10: field date stands here twice")]
    [InlineData("{\"instruments\"", "{\"card\": \"../card.json\", \"instruments\"", "field card")]
    [InlineData("{\"instruments\"", "{\"instrument\"", "field instruments must be a list")]
    [InlineData("{\"instruments\": [", "{\"instruments\": [7, ", "instrument number 1 is 7")]
    [InlineData("{\"instruments\"", "[{\"instruments\"", "not JSON")]
    public void What_is_wrong_is_told_by_file_instrument_and_field(string good, string bad, string complaint)
    {
        Assert.Contains(good, Good, StringComparison.Ordinal);

        RimException wrong = Assert.Throws<RimException>(() => Read(Good.Replace(good, bad, StringComparison.Ordinal)));

        Assert.Equal(ExitCode.File, wrong.Code);
        Assert.Contains("index.json", wrong.Message, StringComparison.Ordinal);
        Assert.Contains(complaint, wrong.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void All_complaints_come_at_once()
    {
        RimException wrong = Assert.Throws<RimException>(() => Read(Good.Replace("universal-curette", "hoe", StringComparison.Ordinal).Replace("\"toe\"", "\"back\"", StringComparison.Ordinal)));

        Assert.Contains("field family", wrong.Message, StringComparison.Ordinal);
        Assert.Contains("field view", wrong.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_without_an_index_is_told()
    {
        using TestFolder folder = new();

        Assert.Contains("index.json", Assert.Throws<RimException>(() => FolderIndex.Read(folder.Root, null)).Message, StringComparison.Ordinal);
        Assert.Contains("no such folder", Assert.Throws<RimException>(() => FolderIndex.Read(folder.PathOf("none"), null)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_demo_s_index_is_one()
    {
        ListedFolder demo = FolderIndex.Read(Repository.PathOf("demo-images"), null);

        Assert.True(demo.IsRendered);
        Assert.Equal(["C-07", "C-12", "S-03", "L-02"], demo.WorkingEnds.Select(e => e.InstrumentId));
        Assert.Equal(EdgePart.Right, demo.WorkingEnds[1].WorkingEdge);
        Assert.All(demo.WorkingEnds, e => Assert.True(e.Inspections[0].IsAsNew));
    }

    private static ListedFolder Read(string index)
    {
        using TestFolder folder = new();
        folder.Write("index.json", index);
        return FolderIndex.Read(folder.Root, null);
    }
}
