using System.Net;
using System.Text.RegularExpressions;

namespace EdgeLens.WebTests;

/// <summary>A browser without a window: cookies, forms with their tokens, no redirects followed.</summary>
internal sealed partial class Visitor(Uri url) : IDisposable
{
    public HttpClient Client { get; } = new(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = url };

    public Task<HttpResponseMessage> Get(string path) => Client.GetAsync(path);

    public Task<string> Text(string path) => Client.GetStringAsync(path);

    /// <summary>Loads a page and sends its form to an address.</summary>
    public async Task<HttpResponseMessage> Post(string page, string action, params (string Name, string Value)[] fields) => await Client.PostAsync(action, new FormUrlEncodedContent(
        [.. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)), KeyValuePair.Create("__RequestVerificationToken", await Token(page))]));

    public async Task<HttpResponseMessage> Upload(string page, byte[] photograph, string fileName, params (string Name, string Value)[] fields)
    {
        using MultipartFormDataContent content = new() { { new StringContent(await Token(page)), "__RequestVerificationToken" }, { new ByteArrayContent(photograph), "photograph", fileName } };
        foreach ((string name, string value) in fields) content.Add(new StringContent(value), name);
        return await Client.PostAsync(page, content);
    }

    /// <summary>Waits as the waiting page does, until it leads elsewhere.</summary>
    public async Task<HttpResponseMessage> Settled(HttpResponseMessage upload)
    {
        string path = upload.Headers.Location!.OriginalString;
        for (int i = 0; i < 120; i++)
        {
            HttpResponseMessage answer = await Get(path);
            if (answer.StatusCode != HttpStatusCode.OK || !(await answer.Content.ReadAsStringAsync()).Contains("http-equiv=\"refresh\"", StringComparison.Ordinal)) return answer;
        }
        throw new TimeoutException("The upload was not measured within four minutes.");
    }

    public void Dispose() => Client.Dispose();

    private async Task<string> Token(string page)
    {
        Match found = TokenField().Match(await Text(page));
        return found.Success ? found.Groups[1].Value : throw new InvalidOperationException($"{page} has no form.");
    }

    [GeneratedRegex("__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex TokenField();
}
