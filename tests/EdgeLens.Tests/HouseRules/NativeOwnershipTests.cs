using System.Text.RegularExpressions;
using Xunit;

namespace EdgeLens.Tests.HouseRules;

/// <summary>Who creates a picture in native memory disposes it in the same method or returns it. The compiler's own leak check (CA2000) finds none of this.</summary>
public sealed partial class NativeOwnershipTests
{
    [Fact]
    public void Every_native_picture_that_is_made_is_disposed_or_returned() =>
        Violations.MustBeNone(
            from source in Repository.Sources()
            from place in Leaks(source.ReadLines())
            select $"{source.Name}:{place.Line}: {place.Text}",
            "Write `using Mat x = ...;` or return it:");

    [Theory]
    [InlineData("Mat part = whole.SubMat(rect);")]
    [InlineData("var copy = new Mat();")]
    [InlineData("Cv2.Blur(grey.Clone(), target, size);")]
    [InlineData("Mat picture = Cv2.ImDecode(bytes, ImreadModes.Color);")]
    [InlineData("Cv2.Add(a.Row(3), b, c);")]
    public void A_picture_without_an_owner_is_found(string line) => Assert.Single(Leaks(["using OpenCvSharp;", line]));

    [Theory]
    [InlineData("using Mat part = whole.SubMat(rect);")]
    [InlineData("using (Mat copy = new())")]
    [InlineData("using Mat mask = new(size, MatType.CV_8UC1, Scalar.Black);")]
    [InlineData("return whole.Clone();")]
    [InlineData("public static Mat Grey(Mat colour) => Cv2.ImDecode(bytes, ImreadModes.Color);")]
    [InlineData("// not code: new Mat()")]
    [InlineData("Size size = new(3, 3);")]
    public void An_owned_picture_is_let_pass(string line) => Assert.Empty(Leaks(["using OpenCvSharp;", line]));

    [Theory]
    [InlineData("return mask;", 0)]
    [InlineData("return new Region(bounds, mask);", 0)]
    [InlineData("return mask.Rows;", 1)]
    [InlineData("return masked;", 1)]
    [InlineData("}\n    Mat Other()\n    {\n        return mask;", 1)]
    public void A_picture_may_be_returned_later_in_its_method_but_not_from_another(string ending, int leaks) =>
        Assert.Equal(leaks, Leaks(["using OpenCvSharp;", "        Mat mask = new(size);", "        Fill(mask);", .. ("    " + ending).Split('\n')]).Count());

    private static IEnumerable<(int Line, string Text)> Leaks(string[] lines)
    {
        if (!lines.Any(line => line.Contains("OpenCvSharp", StringComparison.Ordinal))) yield break;
        for (int i = 0; i < lines.Length; i++)
        {
            string code = Comment().Replace(lines[i], "");
            if (!Maker().IsMatch(code)) continue;
            // A long statement may be broken before the maker: its beginning counts too.
            string statement = i > 0 && !StatementEnd().IsMatch(lines[i - 1]) ? lines[i - 1] + code : code;
            if (!Owned().IsMatch(statement) && !IsReturnedLater(Declared().Match(code).Groups[1].Value, lines[(i + 1)..])) yield return (i + 1, lines[i].Trim());
        }
    }

    /// <summary>By itself or inside its new owner, before the method ends.</summary>
    private static bool IsReturnedLater(string name, string[] following) =>
        name.Length > 0 && following.TakeWhile(line => !MethodEnd().IsMatch(line)).Any(line => Regex.IsMatch(line, $@"\breturn\b[^;]*\b{name}\b(?!\.)"));

    [GeneratedRegex(@"//.*$")]
    private static partial Regex Comment();

    [GeneratedRegex(@"\bnew Mat\b|\bMat \w+ = new\(|\.(SubMat|RowRange|ColRange|Row|Col|Diag)\(|\bMat \w+ = .*\.Clone\(|\(\w+\.Clone\(|= \w+\.(Clone|Reshape|T|Inv)\(|Cv2\.(ImRead|ImDecode)\(|\breturn \w+\.Clone\(")]
    private static partial Regex Maker();

    [GeneratedRegex(@"\busing\b|\breturn\b|=>|^\s*_\w+ = ")]
    private static partial Regex Owned();

    [GeneratedRegex(@"\b(?:Mat|var) (\w+) =")]
    private static partial Regex Declared();

    /// <summary>A closing brace at the depth of a member.</summary>
    [GeneratedRegex(@"^    \}")]
    private static partial Regex MethodEnd();

    [GeneratedRegex(@"[;{}]\s*(//.*)?$|^\s*(//.*)?$")]
    private static partial Regex StatementEnd();
}
