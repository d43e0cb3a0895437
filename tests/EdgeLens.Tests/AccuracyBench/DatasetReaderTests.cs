using EdgeLens.Accuracy.Truth;
using Xunit;

namespace EdgeLens.Tests.AccuracyBench;

/// <summary>A folder in another form gives a message that names the file and what is wrong.</summary>
public sealed class DatasetReaderTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("edgelens-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void A_folder_that_is_not_there_is_named() => Assert.Contains("nowhere", Complaint("nowhere"), StringComparison.Ordinal);

    [Fact]
    public void A_folder_without_index_is_named() => Assert.Contains("index.json", Complaint(), StringComparison.Ordinal);

    [Theory]
    [InlineData("not json", "index.json")]
    [InlineData("""{"card":"card.json","refuse":[]}""", "instruments")]
    [InlineData("""{"card":"card.json","instruments":[],"refuse":[{"file":"x.jpg","view":"face","family":"luxator"}]}""", "reason")]
    [InlineData("""{"card":"card.json","instruments":[],"refuse":[]}""", "card.json")]
    public void A_wrong_index_says_what_is_wrong(string json, string expected)
    {
        Write("index.json", json);
        Assert.Contains(expected, Complaint(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_truth_with_a_wrong_matrix_names_its_file()
    {
        foreach (string file in (string[])["card.json", "a.jpg"]) Write(file, "{}");
        Write("a.truth.json", """
            {"camera":{"f_px":1,"cx_px":0,"cy_px":0,"k1":0},"camera_from_blade":[[1,0,0,0]],"working_end":{"apex_z_mm":5,"as_new_length_mm":5,"stations_from_as_new_apex_mm":[],
            "widths_mm":[],"toe_radius_mm":0,"tip_width_mm":0,"outline_xz_mm":[],"edge_radius_um":[],"apex_arc_mm":0,"nicks":[]}}
            """);
        Write("index.json", """
            {"card":"card.json","refuse":[],"instruments":[{"id":"a","family":"luxator","inspections":[{"date":"2025-01-01","as_new":true,"photos":[
            {"file":"a.jpg","view":"face","truth":"a.truth.json","bars_measured_mm":[40,30],"height_over_card_mm":0,"height_limit_mm":null}]}]}]}
            """);
        DatasetReader set = DatasetReader.Open(_folder.FullName);
        string complaint = Assert.Throws<DatasetException>(() => set.ReadTruth(set.Index.Instruments[0].Inspections[0].Photos[0])).Message;
        Assert.Contains("a.truth.json", complaint, StringComparison.Ordinal);
        Assert.Contains("camera_from_blade", complaint, StringComparison.Ordinal);
    }

    private void Write(string file, string text) => File.WriteAllText(Path.Combine(_folder.FullName, file), text);

    private string Complaint(string? inside = null) => Assert.Throws<DatasetException>(() => DatasetReader.Open(Path.Combine(_folder.FullName, inside ?? ""))).Message;
}
