using System.Globalization;
using System.Xml.Linq;
using EdgeLens.Assessment.Instruments;
using EdgeLens.Assessment.Measurements;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Web.Serving;
using Microsoft.AspNetCore.Http;
using static EdgeLens.Reports.Html.Markup;

namespace EdgeLens.Web.Pages;

/// <summary>The form that takes a photograph, and the place where the phone lists what it has not sent yet.</summary>
internal static class CaptureForm
{
    /// <summary>Characters of a note.</summary>
    public const int LongestNote = 200;

    public const string Script = "/capture.js";

    /// <summary>Words for the address of the form without a working end.</summary>
    public const string ByTag = "/capture/photograph";

    public static string AddressOf(WorkingEnd end) => string.Create(CultureInfo.InvariantCulture, $"/capture/photograph?instrument={Uri.EscapeDataString(end.Instrument)}&end={end.End}");

    public static string NameOf(WorkingEnd? end) => end is null ? Texts.WithTag : string.Create(CultureInfo.InvariantCulture, $"{end.Instrument} {Texts.End} {end.End}");

    /// <summary>The fields of the form, from what is seldom changed at the top to what the thumb presses at the bottom.</summary>
    /// <param name="end">Null: the tag says it, or a select of the page does.</param>
    /// <param name="before">The inspection before a sharpening; null: none is meant.</param>
    public static IEnumerable<object?> Fields(WorkingEnd? end, InspectionEntry? before)
    {
        IEnumerable<PhotographView> views = end is null ? Enum.GetValues<PhotographView>() : [PhotographView.Face, FamilyTraits.Of(end.Family).AngleView];
        yield return before is null ? null : El("input", Attr("type", "hidden"), Attr("name", "before"), Attr("value", before.Id.ToString(CultureInfo.InvariantCulture)));
        yield return Choice(Texts.When, "moment", before is null ? "" : InspectionMoment.AfterSharpening.ToString(), [("", Texts.NotNoted), .. Enum.GetValues<InspectionMoment>().Select(m => (m.ToString(), Texts.Of(m)))]);
        yield return Choice(Texts.View, "view", "", [("", Texts.ViewByPicture), .. views.Select(v => (v.ToString(), Texts.Of(v)))]);
        yield return El("details", El("summary", Texts.More),
            Page.Field("note", Texts.Note, Attr("maxlength", LongestNote)),
            Page.Field("sharpenedby", Texts.SharpenedBy, Attr("maxlength", Records.Entries.StaffCode.Longest), Attr("autocapitalize", "characters")),
            El("p.tick", El("label", El("input", Attr("type", "checkbox"), Attr("name", "asnew"), Attr("value", "yes")), " ", Texts.AsNew)));
        yield return El("div.thumb",
            El("p.field camera", El("label", Attr("for", "photograph"), Texts.TakePhotograph),
                El("input", Attr("id", "photograph"), Attr("name", "photograph"), Attr("type", "file"), Attr("accept", "image/*"), Attr("capture", "environment"), Attr("required", "required"))),
            Page.Submit(Texts.Measure, "button large"));
    }

    /// <summary>Filled by the script: what waits on the phone, and how sending goes. All its words come from here.</summary>
    /// <param name="context">Of the request.</param>
    /// <param name="isOffline">True for the page that the phone keeps: it must not name who was signed in when it was fetched.</param>
    public static XElement Phone(HttpContext context, bool isOffline = false) => El("section.phone", Attr("id", "phone"), Attr("aria-live", "polite"),
        isOffline ? null : Attr("data-staff", AccessCheck.CodeOf(context)),
        Attr("data-one-waits", Texts.OneWaits), Attr("data-many-wait", Texts.ManyWait), Attr("data-refused", Texts.Refused), Attr("data-other-staff", Texts.OtherStaff), Attr("data-dismiss", Texts.Dismiss), Attr("data-discard", Texts.Discard),
        Attr("data-sure", Texts.DiscardSure), Attr("data-send-now", Texts.SendNow), Attr("data-sign-in", Texts.SignIn), Attr("data-sign-in-first", Texts.SignInFirst), Attr("data-sending", Texts.Sending),
        Attr("data-measuring", Texts.BeingMeasured), Attr("data-later", Texts.SentLater), Attr("data-offline", Texts.NoConnection), Attr("data-not-taken", Texts.NotTaken), Attr("data-phone-full", Texts.PhoneFull));

    private static XElement Choice(string title, string name, string chosen, IEnumerable<(string Value, string Words)> values) => El("fieldset.choice", El("legend", title),
        values.Select(v => El("label", El("input", Attr("type", "radio"), Attr("name", name), Attr("value", v.Value), v.Value == chosen ? Attr("checked", "checked") : null), El("span", v.Words))));
}
