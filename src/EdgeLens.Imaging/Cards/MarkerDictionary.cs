using System.Collections.Immutable;
using OpenCvSharp;
using OpenCvSharp.Aruco;

namespace EdgeLens.Imaging.Cards;

/// <summary>A family of ArUco markers under the name that OpenCV gives it, such as <c>DICT_5X5_1000</c>.</summary>
public sealed class MarkerDictionary
{
    private readonly Lazy<ImmutableArray<ImmutableArray<bool>>> _cells;

    private MarkerDictionary(string name, PredefinedDictionaryType type, int bits, int markers)
    {
        (Name, Type, BitsPerSide, MarkerCount) = (name, type, bits, markers);
        _cells = new(DrawAll);
    }

    /// <summary>OpenCV's name, upper case.</summary>
    public string Name { get; }

    /// <summary>Bits along a side, without the black border.</summary>
    public int BitsPerSide { get; }

    /// <summary>How many markers the family has; ids run from 0.</summary>
    public int MarkerCount { get; }

    internal PredefinedDictionaryType Type { get; }

    /// <summary>All families of square-grid markers that a card may use (4 to 7 bits a side, 50 to 1000 markers).</summary>
    public static ImmutableArray<MarkerDictionary> All { get; } =
    [
        .. from bits in new[] { 4, 5, 6, 7 }
           from markers in new[] { 50, 100, 250, 1000 }
           let name = FormattableString.Invariant($"{bits}X{bits}_{markers}")
           select new MarkerDictionary($"DICT_{name}", Enum.Parse<PredefinedDictionaryType>($"Dict{name}"), bits, markers),
    ];

    /// <summary>The family of that name, or null.</summary>
    public static MarkerDictionary? Named(string name) => All.FirstOrDefault(d => d.Name == name);

    /// <summary>The whole marker with its black border: true is white; index row * (BitsPerSide + 2) + column.</summary>
    /// <exception cref="ArgumentOutOfRangeException">No marker has this id.</exception>
    public ImmutableArray<bool> Cells(int id) => id >= 0 && id < MarkerCount
        ? _cells.Value[id]
        : throw new ArgumentOutOfRangeException(nameof(id), id, $"{Name} has the markers 0 to {MarkerCount - 1}.");

    private ImmutableArray<ImmutableArray<bool>> DrawAll()
    {
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(Type);
        using Mat picture = new();
        // Held by name: this call of the wrapper lets go of a temporary array, and the collector may free it in the middle of the native call.
        using OutputArray target = OutputArray.Create(picture);
        int side = BitsPerSide + 2;
        var all = ImmutableArray.CreateBuilder<ImmutableArray<bool>>(MarkerCount);
        for (int id = 0; id < MarkerCount; id++)
        {
            dictionary.GenerateImageMarker(id, side, target, 1);
            var cells = ImmutableArray.CreateBuilder<bool>(side * side);
            for (int row = 0; row < side; row++)
                foreach (byte v in picture.RowSpan<byte>(row)) cells.Add(v > 127);
            all.Add(cells.MoveToImmutable());
        }
        return all.MoveToImmutable();
    }
}
