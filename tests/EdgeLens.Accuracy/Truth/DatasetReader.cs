using System.Text.Json;

namespace EdgeLens.Accuracy.Truth;

/// <summary>Reads a folder of photographs with truth. The program under test never sees what is read here but the index.</summary>
public sealed class DatasetReader
{
    private static readonly JsonSerializerOptions Form = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        RespectRequiredConstructorParameters = true,
        RespectNullableAnnotations = true,
    };

    private readonly string _folder;

    private DatasetReader(string folder, DatasetIndex index) => (_folder, Index) = (folder, index);

    /// <summary>What a user would know.</summary>
    public DatasetIndex Index { get; }

    /// <summary>Opens a folder.</summary>
    /// <exception cref="DatasetException">No such folder, no index, or an index in another form.</exception>
    public static DatasetReader Open(string folder)
    {
        if (!Directory.Exists(folder)) throw new DatasetException($"There is no folder {folder}.");
        DatasetReader reader = new(folder, Read<DatasetIndex>(folder, "index.json"));
        foreach (string file in reader.Index.Instruments.SelectMany(end => end.Inspections).SelectMany(day => day.Photos).SelectMany(photo => (string[])[photo.File, photo.Truth])
                     .Concat(reader.Index.Refuse.Select(photo => photo.File)).Append(reader.Index.Card))
            if (!File.Exists(reader.PathOf(file))) throw new DatasetException($"{Path.Combine(folder, "index.json")} names {file}, which is not in the folder.");
        return reader;
    }

    /// <summary>Where a file of the set is.</summary>
    public string PathOf(string file) => Path.Combine(_folder, file);

    /// <summary>The truth of one photograph.</summary>
    /// <exception cref="DatasetException">The file has another form.</exception>
    public FaceTruth ReadTruth(PhotoEntry photo)
    {
        PhotoTruth truth = Read<PhotoTruth>(_folder, photo.Truth);
        try
        {
            return new(truth);
        }
        catch (ArgumentException e)
        {
            throw new DatasetException($"{PathOf(photo.Truth)}: {e.Message}", e);
        }
    }

    /// <summary>Shape and angles of the working end in a toe or side view.</summary>
    /// <exception cref="DatasetException">The file has another form.</exception>
    public WorkingEndTruth ReadAngles(PhotoEntry photo) => Read<PhotoTruth>(_folder, photo.Truth).WorkingEnd;

    private static T Read<T>(string folder, string file)
    {
        string path = Path.Combine(folder, file);
        if (!File.Exists(path)) throw new DatasetException($"There is no {file} in {folder}.");
        try
        {
            return JsonSerializer.Deserialize<T>(File.ReadAllText(path), Form) ?? throw new DatasetException($"{path} holds nothing.");
        }
        catch (JsonException e)
        {
            throw new DatasetException($"{path} is not in the form of a set of photographs: {e.Message}", e);
        }
    }
}
