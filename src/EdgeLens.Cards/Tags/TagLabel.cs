using EdgeLens.Imaging.Tags;

namespace EdgeLens.Cards.Tags;

/// <summary>A tag to print.</summary>
/// <param name="Number">1 to 999; the marker's id.</param>
/// <param name="Name">Whose it is, for people: instrument and end.</param>
public sealed record TagLabel(int Number, string Name)
{
    /// <summary>The marker's black cells as rectangles in millimetres from the strip's top left corner: runs of each row of bits.</summary>
    internal IEnumerable<(double XMm, double YMm, double WidthMm, double HeightMm)> Black()
    {
        int side = TagDesign.Dictionary.BitsPerSide + 2;
        double bit = TagDesign.MarkerMm / side;
        bool[] white = [.. TagDesign.Dictionary.Cells(Number)];
        for (int row = 0; row < side; row++)
        {
            for (int from = 0; from < side;)
            {
                int to = from;
                while (to < side && !white[row * side + to]) to++;
                if (to > from) yield return (TagDesign.QuietMm + from * bit, TagDesign.QuietMm + row * bit, (to - from) * bit, bit);
                from = to + 1;
            }
        }
    }
}
