using System.Text;
using System.Xml.Linq;
using EdgeLens.Web.People;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>The frame of every page. Pages are trees, so that every text of the user is encoded by construction.</summary>
internal static class Page
{
    /// <summary>Answers with a page.</summary>
    /// <param name="context">Of the request.</param>
    /// <param name="title">Also its heading.</param>
    /// <param name="content">Of the page.</param>
    /// <param name="refreshSeconds">The page asks for itself again; null: it does not.</param>
    /// <param name="script">Address of its script; null: none.</param>
    /// <param name="withNavigation">False for a page that must not say who is signed in.</param>
    public static Task Write(HttpContext context, string title, IEnumerable<object?> content, int? refreshSeconds = null, string? script = null, bool withNavigation = true) => Html(context, El("html", Attr("lang", "en"),
        El("head",
            El("meta", Attr("charset", "utf-8")), El("meta", Attr("name", "viewport"), Attr("content", "width=device-width, initial-scale=1")),
            refreshSeconds is { } seconds ? El("meta", Attr("http-equiv", "refresh"), Attr("content", seconds)) : null,
            El("title", $"{title} - {Texts.Program}"), El("link", Attr("rel", "stylesheet"), Attr("href", "/web.css")), El("meta", Attr("name", "color-scheme"), Attr("content", "light dark")),
            script is null ? null : El("script", Attr("src", script), Attr("defer", "defer"))),
        El("body", withNavigation ? Navigation(context) : null, El("main", Attr("id", "content"), El("h1", UserText(title)), content))));

    /// <summary>Answers with one sentence and what to do.</summary>
    public static Task Message(HttpContext context, int status, string what, string advice)
    {
        context.Response.StatusCode = status;
        return Write(context, what, [El("p", advice), El("p", El("a.button", Attr("href", "/"), Texts.ToStart))]);
    }

    /// <summary>A form that carries the token of its page.</summary>
    public static XElement Form(HttpContext context, string action, params object?[] content) => El("form", Attr("method", "post"), Attr("action", action), content,
        El("input", Attr("type", "hidden"), Attr("name", "__RequestVerificationToken"), Attr("value", context.RequestServices.GetRequiredService<IAntiforgery>().GetAndStoreTokens(context).RequestToken ?? "")));

    /// <summary>A labelled field of text.</summary>
    public static XElement Field(string name, string label, params object?[] more) => El("p.field", El("label", Attr("for", name), label), El("input", Attr("id", name), Attr("name", name), more));

    public static XElement Submit(string words, string cssClass = "button") => El("button." + cssClass, Attr("type", "submit"), words);

    public static Task Redirect(HttpContext context, string path)
    {
        context.Response.StatusCode = StatusCodes.Status303SeeOther;
        context.Response.Headers.Location = path;
        return Task.CompletedTask;
    }

    private static Task Html(HttpContext context, XElement html)
    {
        context.Response.ContentType = "text/html; charset=utf-8";
        return context.Response.WriteAsync(Reports.Html.Markup.Write(html), Encoding.UTF8);
    }

    private static XElement? Navigation(HttpContext context)
    {
        if (AccessCheck.RoleOf(context) is not { } role) return null;
        return El("header.bar",
            El("a.skip", Attr("href", "#content"), Texts.SkipToContent),
            El("nav", Attr("aria-label", Texts.Program),
                role is Role.Nurse or Role.LeadClinician ? El("a", Attr("href", "/capture"), Texts.Capture) : null,
                role is Role.LeadClinician ? El("a", Attr("href", "/review"), Texts.Review) : null,
                role is Role.LeadClinician or Role.Manager ? El("a", Attr("href", "/practice"), Texts.Practice) : null),
            Form(context, "/sign-out", El("button.quiet", Attr("type", "submit"), $"{Texts.SignOut} {AccessCheck.CodeOf(context)}")));
    }
}
