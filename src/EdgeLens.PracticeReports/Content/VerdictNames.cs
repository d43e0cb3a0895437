using EdgeLens.Assessment.Decision;

namespace EdgeLens.PracticeReports.Content;

/// <summary>Verdicts in files, classes and words.</summary>
internal static class VerdictNames
{
    /// <summary>keep, retake, touch-up, resharpen, retire.</summary>
    public static string Of(VerdictKind kind) => kind switch
    {
        VerdictKind.Keep => "keep",
        VerdictKind.Retake => "retake",
        VerdictKind.TouchUp => "touch-up",
        VerdictKind.Resharpen => "resharpen",
        _ => "retire",
    };

    /// <summary>The same for people.</summary>
    public static string Words(VerdictKind kind) => kind switch
    {
        VerdictKind.Keep => "keep",
        VerdictKind.Retake => "photograph again",
        VerdictKind.TouchUp => "touch up",
        VerdictKind.Resharpen => "resharpen",
        _ => "retire",
    };
}
