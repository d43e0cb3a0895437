using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Tests.Tags;
using EdgeLens.Web.People;
using Microsoft.Playwright;
using Xunit;

namespace EdgeLens.WebTests;

/// <summary>A phone that loses its connection, in a real browser: nothing taken is lost, and nothing is entered twice.</summary>
public sealed class OfflineTests
{
    private readonly System.Collections.Concurrent.ConcurrentQueue<string> _complaints = [];

    [Fact]
    public async Task Photographs_taken_without_connection_wait_on_the_phone_and_are_sent_when_it_is_back()
    {
        await using RunningServer server = await RunningServer.Start();
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await Launch(playwright);
        IPage phone = await NewPhone(browser, server);
        await BrowserTests.SignIn(phone, "NU1", "offline-sign-in");
        await phone.Locator("html[data-offline=ready]").WaitForAsync();
        await phone.Context.SetOfflineAsync(true);
        await phone.GotoAsync("/");
        await Assertions.Expect(phone.GetByRole(AriaRole.Heading, new() { Name = "No connection" })).ToBeVisibleAsync();
        await BrowserTests.Shot(phone, "phone-offline");
        await phone.GetByLabel("Which working end is it?").SelectOptionAsync("C-07 end 1");
        await phone.GetByText("Note, or first photograph").ClickAsync();
        await phone.GetByLabel("It is new").CheckAsync();
        await phone.GetByLabel("Note", new() { Exact = true }).FillAsync("taken in the stable");
        await Take(phone, "C-07/2025-01-10-face.jpg");
        await Assertions.Expect(phone.GetByText("1 photograph waits on this phone")).ToBeVisibleAsync();
        await Take(phone, "refuse/overexposed.jpg");
        await Assertions.Expect(phone.GetByText("2 photographs wait on this phone")).ToBeVisibleAsync();
        await BrowserTests.Shot(phone, "phone-offline-waiting");
        // The phone may be put away and its page opened anew.
        await phone.ReloadAsync();
        await Assertions.Expect(phone.GetByText("2 photographs wait on this phone")).ToBeVisibleAsync();
        Assert.Empty(server.Book.Current<InspectionEntry>());
        await phone.Context.SetOfflineAsync(false);
        // One is in the book and off the phone; of the other stands why it was refused, until it is read.
        await Assertions.Expect(phone.Locator(".waiting-list .refused")).ToBeVisibleAsync();
        await Assertions.Expect(phone.Locator(".waiting-list li")).ToHaveCountAsync(1);
        await Assertions.Expect(phone.GetByRole(AriaRole.Heading, new() { Name = "Please take it again" })).ToBeVisibleAsync();
        await BrowserTests.Shot(phone, "phone-offline-refused");
        InspectionEntry entry = Assert.Single(server.Book.Current<InspectionEntry>());
        Assert.Equal(("C-07", true, "taken in the stable", "NU1"), (entry.Instrument, entry.IsAsNew, entry.Note, entry.By));
        await phone.GetByRole(AriaRole.Button, new() { Name = "I have read it" }).ClickAsync();
        await Assertions.Expect(phone.Locator(".waiting-list")).ToHaveCountAsync(0);
        Assert.DoesNotContain(_complaints, c => c.Contains("Content Security Policy", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_session_that_ended_meanwhile_asks_for_the_PIN_and_sending_goes_on()
    {
        await using RunningServer server = await RunningServer.Start();
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await Launch(playwright);
        IPage phone = await NewPhone(browser, server);
        await BrowserTests.SignIn(phone, "NU1", "expired-sign-in");
        await phone.GotoAsync("/capture/photograph?instrument=C-07&end=1");
        await phone.Context.SetOfflineAsync(true);
        await Take(phone, "C-07/2025-01-10-face.jpg");
        await Assertions.Expect(phone.GetByText("1 photograph waits on this phone")).ToBeVisibleAsync();
        await BrowserTests.Shot(phone, "phone-connection-lost");
        new StaffFile(server.Folder).Set("NU1", Role.Nurse, "915384");
        await phone.Context.SetOfflineAsync(false);
        await Assertions.Expect(phone.GetByText("Sign in again to send. Nothing is lost.")).ToBeVisibleAsync();
        await BrowserTests.Shot(phone, "phone-sign-in-again");
        await phone.GetByRole(AriaRole.Link, new() { Name = "Sign in" }).ClickAsync();
        await phone.GetByLabel("Staff code").FillAsync("NU1");
        await phone.GetByLabel("PIN").FillAsync("915384");
        await phone.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await phone.WaitForURLAsync("**/capture");
        await Assertions.Expect(phone.Locator(".waiting-list")).ToHaveCountAsync(0);
        Assert.Single(server.Book.Current<InspectionEntry>());
    }

    [Fact]
    public async Task An_answer_that_is_lost_on_its_way_does_not_enter_the_photograph_twice()
    {
        await using RunningServer server = await RunningServer.Start();
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await Launch(playwright);
        IPage phone = await NewPhone(browser, server, ServiceWorkerPolicy.Block);
        await BrowserTests.SignIn(phone, "NU1", "lost-sign-in");
        await phone.GotoAsync("/capture/photograph?instrument=C-07&end=1");
        int uploads = 0;
        await phone.RouteAsync("**/capture/photograph*", async route =>
        {
            if (route.Request.Method == "POST" && Interlocked.Increment(ref uploads) == 1)
            {
                await route.FetchAsync();
                await route.AbortAsync();
            }
            else await route.ContinueAsync();
        });
        await Take(phone, "C-07/2025-01-10-face.jpg");
        await Assertions.Expect(phone.GetByText("1 photograph waits on this phone")).ToBeVisibleAsync();
        await phone.GetByRole(AriaRole.Button, new() { Name = "Send now" }).ClickAsync();
        await Assertions.Expect(phone.Locator(".waiting-list")).ToHaveCountAsync(0);
        Assert.Equal(2, uploads);
        Assert.Single(server.Book.Current<InspectionEntry>());
    }

    [Fact]
    public async Task What_somebody_else_took_is_listed_and_sent_only_under_their_own_code()
    {
        await using RunningServer server = await RunningServer.Start();
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await Launch(playwright);
        IPage phone = await NewPhone(browser, server);
        await BrowserTests.SignIn(phone, "NU1", "other-sign-in");
        await phone.GotoAsync("/capture/photograph?instrument=C-07&end=1");
        await phone.Context.SetOfflineAsync(true);
        await Take(phone, "C-07/2025-01-10-face.jpg");
        await Assertions.Expect(phone.GetByText("1 photograph waits on this phone")).ToBeVisibleAsync();
        await phone.Context.ClearCookiesAsync();
        await phone.Context.SetOfflineAsync(false);
        await phone.GotoAsync("/sign-in?then=capture");
        await BrowserTests.SignIn(phone, "LC1", "other-sign-in");
        await phone.GotoAsync("/capture");
        await Assertions.Expect(phone.GetByText("It is sent when NU1 signs in.")).ToBeVisibleAsync();
        Assert.Empty(server.Book.Current<InspectionEntry>());
    }

    [Fact]
    public async Task Every_state_of_a_capture_with_tags_fits_a_phone_and_its_targets_a_thumb()
    {
        await using RunningServer server = await RunningServer.Start();
        server.Book.Append(new EndTag { By = "LC1", Instrument = "C-07", End = 1, Number = 17 });
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await Launch(playwright);
        foreach (ColorScheme scheme in (ColorScheme[])[ColorScheme.Light, ColorScheme.Dark])
        {
            string dark = scheme == ColorScheme.Dark ? "-dark" : "";
            IPage phone = await NewPhone(browser, server, scheme: scheme);
            await BrowserTests.SignIn(phone, "NU1", "tag-sign-in" + dark);
            await Thumb(phone, "choose" + dark);
            await phone.GetByRole(AriaRole.Link, new() { Name = "Photograph with tag" }).ClickAsync();
            await Thumb(phone, "tag-camera" + dark);
            byte[] plain = await File.ReadAllBytesAsync(RunningServer.Demo("C-07/2025-01-10-face.jpg"), TestContext.Current.CancellationToken);
            if (dark.Length == 0)
            {
                await Take(phone, TaggedPhotograph.Jpeg(plain, Cli.Files.InputFile.Card(null), TaggedPhotograph.Usual(17)), asNew: true);
                await Assertions.Expect(phone.GetByText("Filed by its tag 17")).ToBeVisibleAsync();
                await Thumb(phone, "filed-by-tag");
                await phone.GotoAsync("/capture/photograph");
            }
            await Take(phone, plain);
            await Assertions.Expect(phone.GetByRole(AriaRole.Alert)).ToContainTextAsync("No tag can be read");
            await Thumb(phone, "held" + dark);
            await phone.GetByRole(AriaRole.Link, new() { Name = "Choose the working end" }).ClickAsync();
            await Thumb(phone, "held-choose" + dark);
            await phone.GotoAsync("/capture/photograph?instrument=C-07&end=1");
            await Take(phone, await File.ReadAllBytesAsync(RunningServer.Demo("C-07/2025-06-20-face.jpg"), TestContext.Current.CancellationToken));
            await Assertions.Expect(phone.Locator(".verdict h2")).ToBeVisibleAsync();
            await Thumb(phone, "dull" + dark);
            await phone.GetByRole(AriaRole.Link, new() { Name = "Photograph again after sharpening" }).ClickAsync();
            await Thumb(phone, "after-sharpening-camera" + dark);
            await Take(phone, await File.ReadAllBytesAsync(RunningServer.Demo("C-07/2025-06-21-face.jpg"), TestContext.Current.CancellationToken));
            await Assertions.Expect(phone.GetByRole(AriaRole.Heading, new() { Name = "What the sharpening did" })).ToBeVisibleAsync();
            await Thumb(phone, "sharpened" + dark);
            if (dark.Length > 0) continue;
            await phone.GotoAsync("/capture/photograph?instrument=C-07&end=1");
            await Take(phone, await File.ReadAllBytesAsync(RunningServer.Demo("C-07/2025-06-21-toe.jpg"), TestContext.Current.CancellationToken));
            await Assertions.Expect(phone.GetByRole(AriaRole.Heading, new() { Name = "Angles" })).ToBeVisibleAsync();
            await Thumb(phone, "angles");
        }
    }

    /// <summary>Whatever is pressed is at least 44 px high (WCAG 2.2, 2.5.5, target size enhanced: 44 by 44 CSS pixels), but for links within a text, which that criterion excepts.</summary>
    private static async Task Thumb(IPage page, string name)
    {
        await BrowserTests.Shot(page, "phone-" + name);
        await BrowserTests.IsAccessible(page, name);
        string[] small = await page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('a, button, input:not([type=hidden]), select, summary')]
              .map(e => e.matches('.tick input') ? e.parentElement : e)
              .filter(e => !e.matches('.skip'))
              .map(e => [e, e.getBoundingClientRect()])
              .filter(([e, r]) => r.width > 0 && (r.height < 44 || r.width < 44))
              .map(([e, r]) => `${e.outerHTML.slice(0, 120)}: ${Math.round(r.width)} x ${Math.round(r.height)}`)
            """);
        Assert.True(small.Length == 0, $"{name}: too small for a thumb: {string.Join("; ", small)}");
    }

    private static async Task<IBrowser> Launch(IPlaywright playwright)
    {
        string? chromium = BrowserTests.Places.FirstOrDefault(File.Exists);
        if (chromium is null) Assert.Skip("No Chromium on this machine (apt-get install chromium): the browser test was not run.");
        return await playwright.Chromium.LaunchAsync(new() { ExecutablePath = chromium, Args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--no-first-run"] });
    }

    private async Task<IPage> NewPhone(IBrowser browser, RunningServer server, ServiceWorkerPolicy workers = ServiceWorkerPolicy.Allow, ColorScheme scheme = ColorScheme.Light)
    {
        IBrowserContext context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 360, Height = 740 }, BaseURL = server.Url.ToString(), ServiceWorkers = workers, ColorScheme = scheme });
        context.SetDefaultTimeout(120_000);
        Assertions.SetDefaultExpectTimeout(120_000);
        IPage page = await context.NewPageAsync();
        page.Console += (_, message) => _complaints.Enqueue($"{message.Type}: {message.Text}");
        return page;
    }

    private static Task Take(IPage page, string photograph) => Take(page, File.ReadAllBytes(RunningServer.Demo(photograph)));

    private static async Task Take(IPage page, byte[] photograph, bool asNew = false)
    {
        if (asNew)
        {
            await page.GetByText("Note, or first photograph").ClickAsync();
            await page.GetByLabel("It is new").CheckAsync();
        }
        await page.Locator("input[type=file]").SetInputFilesAsync(new FilePayload { Name = "photo", MimeType = "image/jpeg", Buffer = photograph });
        await page.GetByRole(AriaRole.Button, new() { Name = "Measure" }).ClickAsync();
    }
}
