using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Photographs;
using OpenCvSharp;
using Xunit;

namespace EdgeLens.Tests.Photographs;

/// <summary>Cut and damaged files: none may pass with pixels missing, none may end in anything but a refusal.</summary>
[Collection(PhotographCount.Alone)]
public sealed class DamagedFileTests
{
    public static TheoryData<string> Kinds => [.. MadePictures.OneOfEach().Select(file => file.Name)];

    private static byte[] File(string name) => MadePictures.OneOfEach().Single(file => file.Name == name).Bytes;

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_whole_file_is_read(string name)
    {
        using Photograph photograph = PhotographReader.Read(File(name), name, MadePictures.AnySize).Value;
        Assert.Equal((60, 44), (photograph.WidthPx, photograph.HeightPx));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_file_cut_at_any_length_is_refused(string name)
    {
        byte[] whole = File(name);
        HashSet<string> codes = [];
        for (int length = 0; length < whole.Length; length++) codes.Add(PhotographReaderTests.Refused(whole[..length], name).Code);
        Assert.Contains("file-truncated", codes);
        Assert.Empty(codes.Except(["file-empty", "file-not-a-picture", "file-truncated"]));
    }

    /// <summary>Not so WebP, and TIFF with its directory in front: they carry neither checksum nor end mark, so nothing in the file tells.</summary>
    [Theory]
    [InlineData("baseline.jpg")]
    [InlineData("progressive.jpg")]
    [InlineData("restarts.jpg")]
    [InlineData("plain.png")]
    [InlineData("uncompressed.tif")]
    [InlineData("lzw.tif")]
    public void A_file_whose_copy_broke_off_and_was_filled_with_zeros_never_passes_with_other_pixels(string name)
    {
        byte[] whole = File(name);
        using Photograph original = PhotographReader.Read(whole, name, MadePictures.AnySize).Value;
        for (int length = 0; length < whole.Length; length += 7)
        {
            byte[] copy = [.. whole];
            copy.AsSpan(length).Clear();
            if (!PhotographReader.Read(copy, name, MadePictures.AnySize).TryGet(out Photograph? photograph, out _)) continue;
            using (photograph) Assert.Equal(0, PhotographReaderTests.MeanDifference(original.Bgr, photograph.Bgr));
        }
    }

    /// <summary>
    /// Some tools close a broken JPEG with an end mark. The decoder takes it; what it fills in must not pass, but for a part of the last block
    /// (16 x 16 pixels here: colour is stored at half the resolution), whose end cannot be told from its data.
    /// </summary>
    [Theory]
    [InlineData("baseline.jpg")]
    [InlineData("restarts.jpg")]
    public void A_broken_JPEG_with_an_end_mark_put_on_lacks_no_more_than_its_last_block(string name)
    {
        byte[] whole = File(name);
        using Photograph original = PhotographReader.Read(whole, name, MadePictures.AnySize).Value;
        int scan = whole.AsSpan().LastIndexOf((byte[])[0xFF, 0xDA]) + 14, refused = 0;
        for (int length = scan; length < whole.Length - 2; length++)
        {
            byte[] closed = [.. whole[..length], 0xFF, 0xD9];
            if (!PhotographReader.Read(closed, name, MadePictures.AnySize).TryGet(out Photograph? photograph, out Refusal? refusal))
            {
                Assert.Contains(refusal.Code, (string[])["file-truncated", "file-damaged"]);
                refused++;
                continue;
            }

            using (photograph)
            using (Mat before = original.Bgr.Clone())
            using (Mat after = photograph.Bgr.Clone())
            {
                // 60 x 44 pixels: the last block begins at (48, 32), and its colour reaches one pixel into its neighbours.
                foreach (Mat picture in (Mat[])[before, after]) Cv2.Rectangle(picture, new Rect(47, 31, 13, 13), Scalar.Black, -1);
                Assert.Equal(0, PhotographReaderTests.MeanDifference(before, after));
            }
        }

        Assert.True(refused > 0.9 * (whole.Length - scan) * 11 / 12);
    }

    [Fact]
    public void A_progressive_JPEG_without_its_last_scan_is_refused()
    {
        byte[] whole = File("progressive.jpg");
        int lastScan = whole.AsSpan().LastIndexOf((byte[])[0xFF, 0xDA]);
        Assert.Equal("file-truncated", PhotographReaderTests.Refused([.. whole[..lastScan], 0xFF, 0xD9], "progressive.jpg").Code);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Damage_anywhere_ends_in_a_refusal_or_a_picture_of_the_right_size_and_leaks_nothing(string name)
    {
        byte[] whole = File(name);
        Random random = new(77_001);
        string[] codes = ["file-not-a-picture", "file-misnamed", "file-truncated", "file-damaged", "picture-too-large", "picture-too-small"];
        int refused = 0, before = Photograph.LivingCount;
        const int trials = 500;
        for (int trial = 0; trial < trials; trial++)
        {
            byte[] damaged = Damage(whole, random);
            if (PhotographReader.Read(damaged, name, MadePictures.AnySize).TryGet(out Photograph? photograph, out Refusal? refusal))
            {
                using (photograph) Assert.Equal((photograph.WidthPx, photograph.HeightPx), (photograph.Grey.Cols, photograph.Grey.Rows));
            }
            else
            {
                Assert.Contains(refusal.Code, codes);
                refused++;
            }
        }

        Assert.InRange(refused, 1, trials);
        Assert.Equal(before, Photograph.LivingCount);
    }

    /// <summary>One to four blows: a bit, a byte, some bytes inserted, some removed, some repeated from elsewhere. Half of them fall on the first 200 bytes, where the headers are.</summary>
    private static byte[] Damage(byte[] whole, Random random)
    {
        List<byte> bytes = [.. whole];
        for (int blows = random.Next(1, 5); blows > 0; blows--)
        {
            int at = random.Next(random.Next(2) == 0 ? Math.Min(200, bytes.Count) : bytes.Count);
            int run = Math.Min(random.Next(1, 9), bytes.Count - at);
            switch (random.Next(5))
            {
                case 0: bytes[at] ^= (byte)(1 << random.Next(8)); break;
                case 1: bytes[at] = (byte)(random.Next(2) == 0 ? random.Next(256) : 0xFF); break;
                case 2: bytes.InsertRange(at, Enumerable.Range(0, run).Select(_ => (byte)random.Next(256)).ToArray()); break;
                case 3: bytes.RemoveRange(at, run); break;
                default: bytes.InsertRange(at, whole.AsSpan(random.Next(whole.Length - run), run).ToArray()); break;
            }
        }

        return [.. bytes];
    }
}
