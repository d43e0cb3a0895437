using EdgeLens.Store.Transfer;
using FsCheck.Xunit;
using Xunit;

namespace EdgeLens.Tests.RecordBooks;

public sealed class CsvTests
{
    /// <summary>RFC 4180, section 2, points 2, 5, 6 and 7: the records of its own examples.</summary>
    [Fact]
    public void The_examples_of_rfc_4180_are_read_as_it_says()
    {
        const string text = "aaa,bbb,ccc\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx\r\n\"aaa\",\"b\"\"bb\",\"ccc\"";
        string?[][] records = [.. CsvText.Read(new StringReader(text))];
        Assert.Equal([["aaa", "bbb", "ccc"], ["aaa", "b\r\nbb", "ccc"], ["zzz", "yyy", "xxx"], ["aaa", "b\"bb", "ccc"]], records);
    }

    [Property]
    public void What_is_written_is_read_again(string?[] fields)
    {
        if (fields is null || fields.Length == 0) return;
        StringWriter target = new();
        CsvText.Write(target, fields);
        CsvText.Write(target, ["next"]);
        // A record of one missing value is an empty line, which stands for itself.
        Assert.Equal([fields, ["next"]], CsvText.Read(new StringReader(target.ToString())));
    }

    [Property]
    public void A_number_comes_back_to_the_last_bit(double number) =>
        Assert.Equal(BitConverter.DoubleToInt64Bits(number), BitConverter.DoubleToInt64Bits((double)ValueText.Read(ValueText.Write(number)!, typeof(double))));

    [Fact]
    public void A_quoted_field_without_an_end_is_refused() => Assert.Throws<FormatException>(() => CsvText.Read(new StringReader("a,\"b")).ToList());
}
