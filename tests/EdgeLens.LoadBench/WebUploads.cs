namespace EdgeLens.LoadBench;

internal static class WebUploads
{
    public static Task<int> Run() => throw new NotImplementedException();
    public static Task<int> RunPhones() => throw new NotImplementedException();
}
