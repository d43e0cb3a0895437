using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using EdgeLens.Records.Inspections;
using Microsoft.Playwright;
using Xunit;

namespace EdgeLens.WebTests;

/// <summary>A day of the practice in a real browser: phone for the nurse, desk for the clinician. Pictures of the pages go to EDGELENS_SCREENSHOTS if it names a folder.</summary>
public sealed class BrowserTests
{
    internal static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    private readonly System.Collections.Concurrent.ConcurrentQueue<string> _complaints = [];

    [Fact]
    public async Task A_nurse_photographs_on_a_phone_and_the_clinician_signs_off_at_the_desk()
    {
        string? chromium = Places.FirstOrDefault(File.Exists);
        if (chromium is null) Assert.Skip("No Chromium on this machine (apt-get install chromium): the browser test was not run.");
        await using RunningServer server = await RunningServer.Start();
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await playwright.Chromium.LaunchAsync(new() { ExecutablePath = chromium, Args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--no-first-run"] });

        IPage phone = await NewPage(browser, server, 360, 740);
        await SignIn(phone, "NU1", "phone-sign-in");
        await Shot(phone, "phone-choose");
        await phone.GetByRole(AriaRole.Link, new() { Name = "C-07" }).ClickAsync();
        await phone.GetByText("Note, or first photograph").ClickAsync();
        await phone.GetByLabel("It is new").CheckAsync();
        await Take(phone, "C-07/2025-01-10-face.jpg");
        await phone.GetByRole(AriaRole.Link, new() { Name = "Photograph again", Exact = true }).ClickAsync();
        await Shot(phone, "phone-camera");
        await Take(phone, "refuse/overexposed.jpg");
        await Assertions.Expect(phone.GetByRole(AriaRole.Alert)).ToContainTextAsync("Please take it again");
        await Shot(phone, "phone-refused");
        await Take(phone, "C-07/2025-06-20-face.jpg");
        await Assertions.Expect(phone.Locator(".verdict h2")).ToBeVisibleAsync();
        Assert.True(await phone.Locator(".picture img").EvaluateAsync<int>("i => i.naturalWidth") > 100, "The drawn photograph is not shown.");
        await Shot(phone, "phone-verdict");
        Assert.Equal(2, server.Book.Current<InspectionEntry>().Count);

        IPage desk = await NewPage(browser, server, 1280, 800);
        await SignIn(desk, "LC1", "desk-sign-in");
        await Shot(desk, "desk-review");
        // By keyboard alone: the first step leads past the navigation, the next ones through the queue in its order.
        await desk.Keyboard.PressAsync("Tab");
        await Assertions.Expect(desk.GetByRole(AriaRole.Link, new() { Name = "Skip to the content" })).ToBeFocusedAsync();
        await Focused(desk);
        await desk.Keyboard.PressAsync("Enter");
        await desk.Keyboard.PressAsync("Tab");
        await Assertions.Expect(desk.Locator(".choices a").First).ToBeFocusedAsync();
        await Focused(desk);
        await desk.Keyboard.PressAsync("Enter");
        await desk.GetByRole(AriaRole.Link, new() { Name = "Compare two dates" }).FocusAsync();
        await desk.Keyboard.PressAsync("Enter");
        await Laid(desk);
        await Shot(desk, "desk-compare");
        await desk.GoBackAsync();
        await desk.GetByLabel("Comment").FillAsync("I see the same under the loupe.");
        await Shot(desk, "desk-inspection");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Sign off" }).FocusAsync();
        await desk.Keyboard.PressAsync("Enter");
        await Assertions.Expect(desk.GetByText("Nothing waits for a decision.")).ToBeVisibleAsync();
        Assert.True(Assert.Single(server.Book.Current<SignOff>()).Agrees);
        await desk.GetByRole(AriaRole.Link, new() { Name = "Practice" }).ClickAsync();
        await Shot(desk, "desk-practice");
        foreach ((int width, int height) in new[] { (360, 740), (1280, 800) })
            foreach ((string code, string[] paths) in PagesOf(server))
            {
                IPage page = await NewPage(browser, server, width, height);
                await SignIn(page, code, $"{width}-{code}-sign-in");
                foreach (string path in paths)
                {
                    await page.GotoAsync(path);
                    await Shot(page, $"{width}-{code}{path.Split('?')[0].Replace('/', '-')}");
                    await IsAccessible(page, path);
                }
                await page.Context.CloseAsync();
            }
        Assert.DoesNotContain(_complaints, c => c.Contains("Content Security Policy", StringComparison.Ordinal));
    }

    /// <summary>Every page that a role has, and one that it has not; without the reports, whose policy lets no script in, axe's neither.</summary>
    private static IEnumerable<(string Code, string[] Paths)> PagesOf(RunningServer server)
    {
        string inspection = $"/inspections/{server.Book.Current<InspectionEntry>()[^1].Id}", compare = $"/compare?now={server.Book.Current<InspectionEntry>()[^1].Id}";
        string[] all = [inspection, compare, "/no-such-page"];
        yield return ("NU1", ["/capture", "/capture/photograph?instrument=C-07&end=1", "/capture/photograph", "/capture/offline", "/capture/held", "/capture/waiting?job=none", .. all]);
        yield return ("LC1", ["/review", "/practice", .. all]);
        yield return ("MA1", ["/practice", "/review", .. all]);
    }

    /// <summary>Rules of WCAG 2.0 to 2.2, levels A and AA, as axe-core checks them.</summary>
    internal static async Task IsAccessible(IPage page, string path)
    {
        AxeResult found = await page.RunAxe(new AxeRunOptions { RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] } });
        Assert.NotEmpty(found.Passes);
        Assert.True(found.Violations.Length == 0, $"{path} at {page.ViewportSize!.Width} px: {string.Join("; ", found.Violations.Select(v => $"{v.Impact} {v.Id}: {string.Join(", ", v.Nodes.Select(n => n.Html))}"))}");
    }

    /// <summary>What has the focus shows it by an outline.</summary>
    private static async Task Focused(IPage page) => Assert.True(await page.EvaluateAsync<double>("parseFloat(getComputedStyle(document.activeElement).outlineWidth)") >= 2, "The focus is not seen.");

    /// <summary>The range moves the border, by keyboard too.</summary>
    private static async Task Laid(IPage page)
    {
        ILocator range = page.GetByRole(AriaRole.Slider);
        await range.FocusAsync();
        await Focused(page);
        Assert.Equal("inset(0px 0px 0px 50%)", await Clip());
        await page.Keyboard.PressAsync("ArrowRight");
        Assert.Equal("inset(0px 0px 0px 51%)", await Clip());
        await page.Keyboard.PressAsync("Home");
        Assert.Contains(await Clip(), (string[])["inset(0px)", "inset(0px 0px 0px 0%)"]);
        await page.Keyboard.PressAsync("PageUp");
        foreach (string name in (string[])["then", "now"]) Assert.True(await page.Locator($".{name} img").EvaluateAsync<int>("i => i.naturalWidth") == 1600, $"The picture {name} is not shown.");
        Assert.Equal(await page.Locator(".then img").EvaluateAsync<double>("i => i.getBoundingClientRect().top"), await page.Locator(".now img").EvaluateAsync<double>("i => i.getBoundingClientRect().top"));

        Task<string> Clip() => page.Locator(".now img").EvaluateAsync<string>("i => getComputedStyle(i).clipPath");
    }

    private async Task<IPage> NewPage(IBrowser browser, RunningServer server, int width, int height)
    {
        IBrowserContext context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, BaseURL = server.Url.ToString() });
        // Several workers may share the machine's cores.
        context.SetDefaultTimeout(120_000);
        IPage page = await context.NewPageAsync();
        // A style or picture that the policy keeps out, or a script that ran into it, is a fault of the page.
        page.Console += (_, message) => _complaints.Enqueue($"{message.Type}: {message.Text}");
        return page;
    }

    internal static async Task SignIn(IPage page, string code, string shot)
    {
        await page.GotoAsync("/");
        await page.GetByLabel("Staff code").FillAsync(code);
        await page.GetByLabel("PIN").FillAsync(RunningServer.Pin);
        await Shot(page, shot);
        await IsAccessible(page, "/sign-in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).WaitForAsync();
    }

    private static async Task Take(IPage page, string photograph)
    {
        await page.Locator("input[type=file]").SetInputFilesAsync(RunningServer.Demo(photograph));
        await page.GetByRole(AriaRole.Button, new() { Name = "Measure" }).ClickAsync();
        await page.Locator(".verdict, .complaint").First.WaitForAsync();
    }

    /// <summary>No page is wider than its window: nobody scrolls sideways with one thumb.</summary>
    internal static async Task Shot(IPage page, string name)
    {
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= window.innerWidth"), $"{name} is wider than its window.");
        if (Environment.GetEnvironmentVariable("EDGELENS_SCREENSHOTS") is { } folder) await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
    }
}
