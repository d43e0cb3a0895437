using EdgeLens.Web.Auditing;
using EdgeLens.Web.Capturing;
using EdgeLens.Web.Devices;
using EdgeLens.Web.Pages;
using EdgeLens.Web.People;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace EdgeLens.Web.Serving;

/// <summary>The practice's server: one process that serves and others that measure, no cloud; pages without script, or with little that they do not need.</summary>
public static class WebServer
{
    /// <summary>Bytes of a request that is no upload: codes, PINs, comments.</summary>
    private const long MaxFormBytes = 64 * 1024;

    /// <summary>Serves until it is told to stop.</summary>
    /// <exception cref="Records.Book.BookException">There is nobody who could sign in, or the certificate cannot be used.</exception>
    /// <exception cref="IOException">The address cannot be listened on.</exception>
    public static void Run(ServerSettings settings, CancellationToken stopping = default)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (new StaffFile(settings.BookFolder).All().IsEmpty) throw new Records.Book.BookException(Texts.NobodyToSignIn);
        using WebApplication app = Build(settings);
        app.StartAsync(stopping).GetAwaiter().GetResult();
        foreach (string url in app.Urls) settings.Say(string.Format(System.Globalization.CultureInfo.InvariantCulture, Texts.Serving, url));
        app.WaitForShutdownAsync(stopping).GetAwaiter().GetResult();
    }

    /// <summary>The server with all its routes, not yet started.</summary>
    internal static WebApplication Build(ServerSettings settings)
    {
        // Empty: no settings from files or the environment of whoever starts it.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new());
        builder.WebHost.UseKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = MaxFormBytes;
            kestrel.Limits.MaxConcurrentConnections = 500;
            kestrel.Listen(settings.Address, settings.Port, listen =>
            {
                if (settings.UsesHttps) listen.UseHttps(ServerCertificate.Of(settings));
            });
        });
        AddServices(builder.Services, settings);
        WebApplication app = builder.Build();
        app.UseExceptionHandler(new ExceptionHandlerOptions { ExceptionHandler = context => Broken(context, settings) });
        app.Use(SecurityHeaders.Set);
        app.Use(async (context, next) =>
        {
            if (HostCheck.IsOurs(context.Request.Host, settings)) await next();
            else context.Response.StatusCode = StatusCodes.Status400BadRequest;
        });
        app.UseRouting();
        app.UseRateLimiter();
        app.UseAuthentication();
        app.Use(AccessCheck.Check);
        app.Use(CheckToken);
        Map(app);
        return app;
    }

    private static void AddServices(IServiceCollection services, ServerSettings settings)
    {
        PairedDevices devices = new(settings.BookFolder, settings.Clock);
        KeptPages kept = new(settings.BookFolder);
        HeldFolder held = new(settings.BookFolder);
        services.AddSingleton(settings).AddSingleton(settings.Book).AddSingleton(settings.Clock).AddSingleton(devices).AddSingleton(kept).AddSingleton(held);
        services.AddSingleton(new StaffFile(settings.BookFolder)).AddSingleton(new AuditFile(settings.BookFolder, settings.Clock)).AddSingleton(new SignInGuard(settings.Clock));
        services.AddSingleton(new PairingCode(settings.Clock, settings.Say)).AddSingleton(new IncomingFolder(settings.BookFolder, settings.Clock)).AddSingleton<DecisionDesk>();
        services.AddSingleton<PracticeDesk>().AddHostedService(s => s.GetRequiredService<PracticeDesk>());
        services.AddSingleton(new CaptureQueue(settings.Measure, settings.Prepare, settings.Book, kept, held, settings.Clock, settings.Say));
        services.AddHostedService(s => s.GetRequiredService<CaptureQueue>());
        services.AddRouting();
        // Keys live as long as the process: a restart ends all sessions, and no key lies on the disk.
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        services.AddAntiforgery(o =>
        {
            o.Cookie.Name = "edgelens-form";
            o.Cookie.SameSite = SameSiteMode.Strict;
            o.Cookie.SecurePolicy = Secure(settings);
            o.SuppressXFrameOptionsHeader = true;
        });
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(o => Sessions.Configure(o, Secure(settings)));
        services.AddRateLimiter(o => RateLimits.Configure(o, settings));
        services.Configure<FormOptions>(o =>
        {
            o.ValueCountLimit = 20;
            o.ValueLengthLimit = 4096;
            o.KeyLengthLimit = 100;
            o.MultipartBodyLengthLimit = IncomingFolder.MaxUploadBytes;
            o.MultipartHeadersLengthLimit = 4096;
        });
    }

    internal static CookieSecurePolicy Secure(ServerSettings settings) => settings.UsesHttps ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;

    /// <summary>Every request that changes something carries the token of its page, whichever route it goes to.</summary>
    private static async Task CheckToken(HttpContext context, Func<Task> next)
    {
        if (HttpMethods.IsGet(context.Request.Method) || HttpMethods.IsHead(context.Request.Method) || await context.RequestServices.GetRequiredService<IAntiforgery>().IsRequestValidAsync(context))
        {
            await next();
            return;
        }
        await Page.Message(context, StatusCodes.Status400BadRequest, Texts.FormExpired, Texts.FormExpiredAdvice);
    }

    private static Task Broken(HttpContext context, ServerSettings settings)
    {
        Exception? e = context.Features.Get<IExceptionHandlerFeature>()?.Error;
        // Who looks for the token reads the form first, and wraps what is wrong with it.
        if (e is AntiforgeryValidationException { InnerException: { } unread }) e = unread;
        if (e is BadHttpRequestException { StatusCode: var code }) return Page.Message(context, code, Texts.TooLarge, Texts.TooLargeAdvice);
        // A form that ends before its end: the reader of its parts has no exception of its own for it.
        if (e is InvalidDataException || (e is IOException && e.Message.StartsWith("Unexpected end of Stream", StringComparison.Ordinal))) return Page.Message(context, StatusCodes.Status400BadRequest, Texts.TooLarge, Texts.TooLargeAdvice);
        if (e is Records.Book.BookException refused) return Page.Message(context, StatusCodes.Status400BadRequest, refused.Message, Texts.GoBack);
        settings.Say(e?.ToString() ?? Texts.BrokeDown);
        return Page.Message(context, StatusCodes.Status500InternalServerError, Texts.BrokeDown, Texts.BrokeDownAdvice);
    }

    private static void Map(WebApplication app)
    {
        EmbeddedFile.Map(app, "web.css", "text/css; charset=utf-8").ForAnyone();
        ScriptPages.Map(app);
        PairingPages.Map(app);
        SignInPages.Map(app);
        HomePage.Map(app);
        CapturePages.Map(app);
        UploadPages.Map(app);
        HeldPages.Map(app);
        InspectionPages.Map(app);
        ComparePages.Map(app);
        ReviewPages.Map(app);
        PracticePages.Map(app);
    }
}
