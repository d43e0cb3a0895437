namespace EdgeLens.Imaging.Edges;

/// <summary>How far into the steel a block may look before it sees the opposite edge.</summary>
internal static class InnerReach
{
    // Every third point of the line: thickness changes by less than a pixel in between.
    private const int Stride = 3;

    // Less than half the thickness: the opposite edge's light is blurred inwards too.
    private const double ShareOfThickness = 0.42;

    /// <summary>For each point of the line: pixels, at most the model's reach, at least 2.</summary>
    public static double[] Of(EdgeLine line)
    {
        int n = line.Points.Length;
        EdgePlace[] places = [.. Enumerable.Range(0, n).Select(i => line.PlaceAt(i, 0, 0))];
        double limit = EdgeProfileModel.ReachPx / ShareOfThickness;
        double[] reach = new double[n];
        for (int i = 0; i < n; i++)
        {
            double thickness = limit;
            for (int j = 0; j < n; j += Stride)
            {
                double dx = places[j].Centre.X - places[i].Centre.X, dy = places[j].Centre.Y - places[i].Centre.Y;
                double depth = -(dx * places[i].Outward.X + dy * places[i].Outward.Y);
                if (depth <= 1 || depth >= thickness || places[i].Outward.Dot(places[j].Outward) > -0.3) continue;
                double across = Math.Abs(dx * places[i].Outward.Y - dy * places[i].Outward.X);
                if (across < depth) thickness = depth;
            }
            reach[i] = Math.Max(2, Math.Min(EdgeProfileModel.ReachPx, ShareOfThickness * thickness));
        }
        return reach;
    }
}
