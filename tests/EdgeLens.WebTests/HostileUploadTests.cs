using System.Buffers.Binary;
using System.IO.Compression;
using System.Net;
using EdgeLens.Imaging.Photographs;
using EdgeLens.Records.Inspections;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Xunit;

namespace EdgeLens.WebTests;

/// <summary>Uploads that are no photographs: each is refused with words, nothing enters the book, nothing stays behind, and the next photograph is taken.</summary>
public sealed class HostileUploadTests
{
    private const string Page = "/capture/photograph?instrument=C-07&end=1";

    [Fact]
    public async Task Bombs_stumps_and_strangers_are_refused_with_words_and_leave_nothing()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        byte[] photograph = await File.ReadAllBytesAsync(RunningServer.Demo("C-07/2025-06-20-face.jpg"), TestContext.Current.CancellationToken);
        byte[] flipped = [.. photograph];
        for (int i = 2000; i < flipped.Length; i += 997) flipped[i] ^= 0x55;
        (string Name, byte[] Bytes, string Words)[] hostile =
        [
            ("a bomb: 900 megapixels of zeros in some kilobytes", Png(30_000, 30_000), "30000 x 30000"),
            ("a header that promises more than there is", Png(4000, 3000)[..200], "incomplete"),
            ("half a photograph", photograph[..(photograph.Length / 2)], "incomplete"),
            ("damaged inside", flipped, ""),
            ("a page", "<!DOCTYPE html><script>alert(1)</script>"u8.ToArray(), "not a JPEG"),
            ("a drawing with script", "<svg xmlns=\"http://www.w3.org/2000/svg\" onload=\"alert(1)\"/>"u8.ToArray(), "not a JPEG"),
            ("an archive", [0x50, 0x4B, 3, 4, .. new byte[500]], "not a JPEG"),
            ("too few pixels", Png(100, 100), "100 x 100"),
        ];
        foreach ((string name, byte[] bytes, string words) in hostile)
        {
            HttpResponseMessage answer = await nurse.Settled(await nurse.Upload(Page, bytes, "photo.jpg"));
            string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
            Assert.True(text.Contains("role=\"alert\"", StringComparison.Ordinal) && text.Contains(words, StringComparison.Ordinal), $"{name}: {text}");
        }
        Assert.Empty(server.Book.Current<InspectionEntry>());
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(server.Folder, "web", "incoming")));
        Assert.Empty(server.Said);
        Assert.Equal(HttpStatusCode.SeeOther, (await nurse.Settled(await nurse.Upload(Page, photograph, "photo.jpg"))).StatusCode);
    }

    [Fact]
    public async Task Many_parts_long_fields_and_a_cut_off_body_are_refused_before_anything_is_kept()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse);
        Assert.Equal(HttpStatusCode.BadRequest, (await nurse.Upload(Page, [1], "photo.jpg", [.. Enumerable.Range(0, 100).Select(i => ($"field{i}", "x"))])).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await nurse.Upload(Page, [1], "photo.jpg", ("note", new string('x', 50_000)))).StatusCode);
        using StringContent notMultipart = new("no parts at all");
        notMultipart.Headers.ContentType = new("multipart/form-data") { Parameters = { new("boundary", "b") } };
        Assert.Equal(HttpStatusCode.BadRequest, (await nurse.Client.PostAsync(Page, notMultipart, TestContext.Current.CancellationToken)).StatusCode);
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(server.Folder, "web", "incoming")));
        Assert.Equal(HttpStatusCode.OK, (await nurse.Get("/capture")).StatusCode);
    }

    [Fact]
    public void A_file_of_the_server_that_cannot_be_written_leaves_no_part_and_the_old_one_as_it_was()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("edgelens-web-file-");
        try
        {
            string path = Path.Combine(folder.FullName, "staff.json");
            WebFile.Write(path, "old"u8.ToArray());
            if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
            Assert.Throws<IOException>(() => Records.Files.WholeFile.Write(path, _ => throw new IOException("No space left on device"), ownerOnly: true));
            Assert.Equal(path, Assert.Single(Directory.EnumerateFiles(folder.FullName)));
            Assert.Equal("old", File.ReadAllText(path));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>A PNG file of nothing but zeros (ISO/IEC 15948): deflate packs them a thousand times.</summary>
    private static byte[] Png(int widthPx, int heightPx)
    {
        byte[] header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, widthPx);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), heightPx);
        (header[8], header[9]) = (1, 0); // 1 bit of grey
        using MemoryStream packed = new();
        using (ZLibStream zlib = new(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            byte[] row = new byte[1 + (widthPx + 7) / 8];
            for (int y = 0; y < heightPx; y++) zlib.Write(row);
        }
        return [.. PngChunk.Signature, .. PngChunk.Make("IHDR", header), .. PngChunk.Make("IDAT", packed.ToArray()), .. PngChunk.Make("IEND", [])];
    }
}
