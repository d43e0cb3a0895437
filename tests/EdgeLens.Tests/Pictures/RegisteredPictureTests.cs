using EdgeLens.Accuracy.Truth;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Cli.Files;
using EdgeLens.Geometry.Figures;
using EdgeLens.Geometry.Plane;
using EdgeLens.Imaging.Calibration;
using EdgeLens.Imaging.Cards;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Measuring.Inspection;
using EdgeLens.Measuring.Pictures;
using EdgeLens.Tests.HouseRules;
using Xunit;

namespace EdgeLens.Tests.Pictures;

/// <summary>Two photographs of one working end laid over each other, against the true cameras of the rendered set: they say where each place of the steel lies in each photograph.</summary>
public sealed class RegisteredPictureTests
{
    /// <summary>
    /// Twice the standard uncertainty of the registration over the blade: some 10 µm (docs/physics: losses between two photographs are known within ten micrometres), which is 2.3 px
    /// of 7 mm over 1600 px.
    /// </summary>
    private const double WithinUm = 20;

    [Fact]
    public void The_same_steel_lies_at_the_same_place_of_both_pictures()
    {
        DatasetReader demo = DatasetReader.Open(Repository.PathOf("demo-images"));
        WorkingEndEntry end = demo.Index.Instruments.Single(i => i.Id == "C-07");
        PhotoEntry[] photos = [.. end.Inspections.Select(i => i.Photos.First(p => p.View == "face")).Where((_, i) => i is 0 or 3)];
        using Seen asNew = new(demo, photos[0], null);
        using Seen later = new(demo, photos[1], asNew.Face.Measurement);
        RegisteredPicture first = RegisteredPicture.Of(asNew.Photo, asNew.Face, null)!, second = RegisteredPicture.Of(later.Photo, later.Face, asNew.Face.Measurement)!;
        Assert.Equal((first.WidthPx, first.HeightPx, first.MmPerPx), (second.WidthPx, second.HeightPx, second.MmPerPx));
        RegisteredPicture.Mapping a = RegisteredPicture.Mapping.Of(asNew.Face, null)!, b = RegisteredPicture.Mapping.Of(later.Face, asNew.Face.Measurement)!;
        double worstUm = 0;
        for (double z = 0.5; z <= 5; z += 0.5)
            foreach (double x in (double[])[-0.4, 0, 0.4])
            {
                Vector2 place = new(x, z);
                Vector2 inFirst = InPicture(a, asNew.Truth.Pixel(place)), inSecond = InPicture(b, later.Truth.Pixel(place));
                worstUm = Math.Max(worstUm, 1000 * first.MmPerPx * (inFirst - inSecond).Length);
            }
        Assert.True(worstUm < WithinUm, $"The worst place lies {worstUm:0.0} µm beside itself.");
        // Toe to the right, left edge up.
        Assert.True(InPicture(a, asNew.Truth.Pixel(new(0, 5))).X > InPicture(a, asNew.Truth.Pixel(new(0, 1))).X);
        Assert.True(InPicture(a, asNew.Truth.Pixel(new(0.4, 3))).Y < InPicture(a, asNew.Truth.Pixel(new(-0.4, 3))).Y);
    }

    /// <summary>The place of the picture that shows a place of the photograph: Newton's method with differences, for the map is nearly linear.</summary>
    private static Vector2 InPicture(RegisteredPicture.Mapping map, Vector2 wanted)
    {
        Vector2 at = new(map.WidthPx / 2.0, map.HeightPx / 2.0);
        for (int i = 0; i < 10; i++)
        {
            Vector2 here = At(at), dx = At(at + new Vector2(1, 0)) - here, dy = At(at + new Vector2(0, 1)) - here, miss = wanted - here;
            double det = dx.X * dy.Y - dx.Y * dy.X;
            at += new Vector2((miss.X * dy.Y - miss.Y * dy.X) / det, (dx.X * miss.Y - dx.Y * miss.X) / det);
        }
        return at;

        Vector2 At(Vector2 place) => map.InPhotograph(new(place.X, place.Y)) is var p ? new(p.X, p.Y) : default;
    }

    private sealed class Seen : IDisposable
    {
        public Seen(DatasetReader demo, PhotoEntry entry, FaceMeasurement? baseline)
        {
            CardDescription card = InputFile.Card(demo.PathOf(demo.Index.Card));
            Photo = Value(PhotographReader.Read(demo.PathOf(entry.File)));
            CardCalibration calibration = Value(CardStage.Calibrate(Photo, card, PrintMeasurement.FromReadings(entry.BarsMeasuredMm[0], entry.BarsMeasuredMm[1]), null));
            Face = Value(new FaceInspector(card, new InspectorOptions()).Measure(Photo, calibration, FamilyTraits.Of(InstrumentFamily.UniversalCurette), new(entry.HeightOverCardMm, Quadrature.FromLimits(entry.HeightLimitMm!.Value)), baseline));
            Truth = demo.ReadTruth(entry);
        }

        public Photograph Photo { get; }

        public FaceResult Face { get; }

        public FaceTruth Truth { get; }

        public void Dispose() => Photo.Dispose();

        private static T Value<T>(Outcome<T> outcome) where T : class => outcome.TryGet(out T? value, out Refusal? refusal) ? value : throw new InvalidOperationException(refusal.Reason);
    }
}
