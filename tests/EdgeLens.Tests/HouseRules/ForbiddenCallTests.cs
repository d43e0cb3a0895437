using Xunit;

namespace EdgeLens.Tests.HouseRules;

/// <summary>Calls that compile and go wrong: slow, leaking, or different from run to run. Each message says what to call instead.</summary>
public sealed class ForbiddenCallTests
{
    private static readonly ForbiddenCall[] Forbidden =
    [
        new("OpenCvSharp.Mat", ["At", "Get", "Set", "GetGenericIndexer", "GetUnsafeGenericIndexer"], null, "one native call per pixel, 40 times slower: take row spans or a whole-picture OpenCV call"),
        new("OpenCvSharp.Mat", ["AsSpan"], null, "silently empty on a part of a picture: take row spans"),
        new("OpenCvSharp.Mat", ["get_Item"], null, "hides that a new native object is made: write `using Mat part = whole.SubMat(...)`"),
        new("OpenCvSharp.Mat", ["op_Addition", "op_Subtraction", "op_Multiply", "op_Division", "op_UnaryNegation"], null, "makes hidden native objects: call Cv2.Add, Cv2.Subtract ... with a destination"),
        new("System.DateTime", ["get_Now", "get_UtcNow", "get_Today"], null, "take a TimeProvider as argument"),
        new("System.DateTimeOffset", ["get_Now", "get_UtcNow"], null, "take a TimeProvider as argument"),
        new("System.Random", [".ctor"], 0, "the seed is an argument"),
        new("System.Random", ["get_Shared"], null, "the seed is an argument"),
        new("System.Guid", ["NewGuid"], null, "the same input must give the same output"),
        new("System.Double", ["ToString"], 0, "name CultureInfo.InvariantCulture"),
        new("System.Double", ["Parse"], 1, "name CultureInfo.InvariantCulture"),
        new("System.Double", ["TryParse"], 2, "name CultureInfo.InvariantCulture"),
        new("System.Single", ["Parse"], 1, "name CultureInfo.InvariantCulture"),
        new("System.Decimal", ["Parse"], 1, "name CultureInfo.InvariantCulture"),
        new("System.Convert", ["ToDouble", "ToSingle"], 1, "name CultureInfo.InvariantCulture"),
    ];

    [Fact]
    public void Shipped_code_makes_no_forbidden_call() => Violations.MustBeNone(CompiledAssembly.Shipped.SelectMany(Broken), "These calls compile and go wrong:");

    [Fact]
    public void The_check_sees_a_forbidden_call_in_compiled_code()
    {
        // This very assembly makes one, below: the rule must find it, or it would pass on anything.
        Assert.True(AnUnseededDraw() >= 0);
        Assert.Contains(Broken(CompiledAssembly.Read(typeof(ForbiddenCallTests).Assembly.Location)), violation => violation.Contains("System.Random", StringComparison.Ordinal));
    }

    [Fact]
    public void The_program_runs_in_the_invariant_culture_whatever_the_machine_is_set_to() =>
        Assert.Contains("\"System.Globalization.Invariant\": true", File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "edgelens.runtimeconfig.json")), StringComparison.Ordinal);

    private static IEnumerable<string> Broken(CompiledAssembly assembly) =>
        from member in assembly.UsedMembers
        from rule in Forbidden
        where rule.Matches(member)
        select $"{assembly.Name} calls {member.Type}.{member.Name}: {rule.Instead}";

    private static int AnUnseededDraw() => new Random().Next();

    private sealed record ForbiddenCall(string Type, string[] Names, int? ParameterCount, string Instead)
    {
        public bool Matches(UsedMember member) => member.Type == Type && Names.Contains(member.Name) && (ParameterCount is null || member.ParameterCount == ParameterCount);
    }
}
