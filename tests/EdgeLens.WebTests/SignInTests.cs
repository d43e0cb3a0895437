using System.Net;
using EdgeLens.Web.People;
using Xunit;

namespace EdgeLens.WebTests;

public sealed class SignInTests
{
    [Fact]
    public async Task A_wrong_PIN_is_refused_and_five_of_them_lock_the_code_for_the_right_one_too()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor visitor = server.NewVisitor();
        for (int i = 0; i < 5; i++) Assert.Equal(HttpStatusCode.Forbidden, (await visitor.Post("/sign-in", "/sign-in", ("code", "NU1"), ("pin", "000001"))).StatusCode);
        Assert.Equal(HttpStatusCode.TooManyRequests, (await visitor.Post("/sign-in", "/sign-in", ("code", "nu1"), ("pin", RunningServer.Pin))).StatusCode);
        Assert.Equal(HttpStatusCode.SeeOther, (await visitor.Get("/capture")).StatusCode);
        string audit = await File.ReadAllTextAsync(Path.Combine(server.Folder, "web", "audit.jsonl"), TestContext.Current.CancellationToken);
        Assert.Equal(5, audit.Split("sign-in-refused").Length - 1);
        Assert.Contains("sign-in-locked", audit, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Twenty_tries_a_minute_are_enough_for_an_address()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor visitor = server.NewVisitor();
        HttpStatusCode last = 0;
        // Codes that nobody has: no lock of a code is in the way. Without a token they fail early, and count all the same.
        for (int i = 0; i < 21; i++) last = (await visitor.Client.PostAsync("/sign-in", new StringContent(""), TestContext.Current.CancellationToken)).StatusCode;
        Assert.Equal(HttpStatusCode.TooManyRequests, last);
    }

    [Fact]
    public async Task Whoever_is_removed_or_gets_another_role_is_out_at_the_next_request()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor nurse = await server.SignedIn(Role.Nurse), lead = await server.SignedIn(Role.LeadClinician);
        Assert.Equal(HttpStatusCode.OK, (await nurse.Get("/capture")).StatusCode);
        StaffFile staff = new(server.Folder);
        Assert.True(staff.Remove("NU1"));
        staff.Set("LC1", Role.Manager, RunningServer.Pin);
        Assert.Equal("/sign-in", (await nurse.Get("/capture")).Headers.Location?.OriginalString);
        Assert.Equal("/sign-in", (await lead.Get("/review")).Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task PINs_are_kept_as_slow_hashes_in_a_file_of_their_owner_alone()
    {
        await using RunningServer server = await RunningServer.Start();
        string path = Path.Combine(server.Folder, "web", "staff.json");
        Assert.DoesNotContain(RunningServer.Pin, await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        // ASP.NET Core's format 3: 0x01, then PRF (2: HMAC-SHA-512), iterations and salt length as big-endian 32 bits (its source, PasswordHasher.cs; from memory).
        byte[] hash = Convert.FromBase64String(new StaffFile(server.Folder).Find("NU1")!.PinHash);
        Assert.Equal([1, 0, 0, 0, 2], hash[..5]);
        Assert.True(System.Buffers.Binary.BinaryPrimitives.ReadInt32BigEndian(hash.AsSpan(5)) >= 210_000);
        if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
    }

    [Fact]
    public async Task A_device_of_the_network_sees_nothing_until_it_is_paired_with_the_code_on_the_console_once()
    {
        await using RunningServer server = await RunningServer.Start(isThisMachine: _ => false);
        using Visitor phone = server.NewVisitor(), other = server.NewVisitor();
        foreach (string path in (string[])["/", "/sign-in", "/capture", "/no-such-page"]) Assert.Equal("/pair", (await phone.Get(path)).Headers.Location?.OriginalString);
        Assert.Empty(server.Said);
        await phone.Post("/pair", "/pair/code");
        string code = string.Concat(server.Said.Take(TestContext.Current.CancellationToken).Split("code: ")[1].TakeWhile(c => c is ' ' || char.IsAsciiDigit(c)));
        string wrong = code.StartsWith('0') ? "1" + code[1..] : "0" + code[1..];
        Assert.Equal(HttpStatusCode.Forbidden, (await phone.Post("/pair", "/pair", ("code", wrong))).StatusCode);
        HttpResponseMessage paired = await phone.Post("/pair", "/pair", ("code", code));
        Assert.Equal("/sign-in", paired.Headers.Location?.OriginalString);
        Assert.Contains(paired.Headers.GetValues("Set-Cookie"), c => c.Contains("httponly", StringComparison.OrdinalIgnoreCase) && c.Contains("samesite=strict", StringComparison.OrdinalIgnoreCase));
        Assert.Equal(HttpStatusCode.OK, (await phone.Get("/sign-in")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await other.Post("/pair", "/pair", ("code", code))).StatusCode);
        Assert.Equal("/pair", (await other.Get("/sign-in")).Headers.Location?.OriginalString);
    }

    [Fact]
    public async Task A_name_that_is_not_ours_is_not_served()
    {
        await using RunningServer server = await RunningServer.Start();
        using Visitor visitor = server.NewVisitor();
        using HttpRequestMessage request = new(HttpMethod.Get, "/sign-in") { Headers = { Host = "evil.example" } };
        Assert.Equal(HttpStatusCode.BadRequest, (await visitor.Client.SendAsync(request, TestContext.Current.CancellationToken)).StatusCode);
    }
}
