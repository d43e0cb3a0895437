using EdgeLens.Cli.Writing;
using Xunit;

namespace EdgeLens.Tests.Commands;

public sealed class ReportNamesTests
{
    private static readonly DateOnly Day = new(2025, 6, 20);

    [Theory]
    [InlineData("C-07", "C-07-end1-2025-06-20")]
    [InlineData("../../C 07", "_.._C_07-end1-2025-06-20")]
    [InlineData("...", "instrument-end1-2025-06-20")]
    [InlineData("Löffel/3", "L_ffel_3-end1-2025-06-20")]
    [InlineData("a\"><script>", "a___script_-end1-2025-06-20")]
    public void An_instrument_s_name_becomes_a_file_name_that_stays_in_its_folder(string id, string name) => Assert.Equal(name, new ReportNames().Take(id, 1, Day));

    [Fact]
    public void No_two_names_are_alike_even_where_capitals_do_not_count()
    {
        ReportNames names = new();

        Assert.Equal(["C_1-end1-2025-06-20", "C_1-end1-2025-06-20-2", "c_1-end1-2025-06-20-3"], [names.Take("C/1", 1, Day), names.Take("C 1", 1, Day), names.Take("c?1", 1, Day)]);
    }

    [Fact]
    public void A_very_long_name_is_cut() => Assert.InRange(new ReportNames().Take(new string('x', 5000), 1, Day).Length, 1, 120);
}
