using System.Globalization;
using System.Xml;
using System.Xml.Linq;

namespace EdgeLens.Reports.Html;

/// <summary>
/// The page is built as a tree and written once, so that every text of the user is encoded by construction and no tag can be left open.
/// What is written is both HTML and well-formed XML.
/// </summary>
internal static class Markup
{
    /// <summary>An element.</summary>
    /// <param name="name">"p", or with its classes after a dot: "p.remark", "div.state open".</param>
    /// <param name="content">Texts, elements, attributes; null for none.</param>
    public static XElement El(string name, params object?[] content)
    {
        int dot = name.IndexOf('.', StringComparison.Ordinal);
        return dot < 0 ? new(name, content) : new(name[..dot], new XAttribute("class", name[(dot + 1)..]), content);
    }

    public static XAttribute Attr(string name, string value) => new(name, value);

    public static XAttribute Attr(string name, double value) => new(name, Px(value));

    /// <summary>Text of the user: its own direction of writing cannot turn the words round it.</summary>
    public static XElement UserText(string text) => new("bdi", text);

    /// <summary>A coordinate: a hundredth of a pixel is finer than any screen.</summary>
    public static string Px(double value) => Math.Round(value, 2).ToString(CultureInfo.InvariantCulture);

    /// <summary>The page as text: no white space is added between words, elements without content keep their closing tag where HTML wants one.</summary>
    public static string Write(XElement html)
    {
        foreach (XElement element in html.DescendantsAndSelf().ToList())
        {
            foreach (XAttribute attribute in element.Attributes()) attribute.Value = Printable(attribute.Value);
            foreach (XText text in element.Nodes().OfType<XText>().ToList()) text.Value = Printable(text.Value);
            if (element.IsEmpty && !Void.Contains(element.Name.LocalName)) element.Value = "";
        }
        return "<!DOCTYPE html>\n" + html.ToString(SaveOptions.DisableFormatting) + "\n";
    }

    /// <summary>HTML elements that have no closing tag, and the SVG shapes that may go without.</summary>
    private static readonly HashSet<string> Void = ["meta", "link", "input", "br", "img", "path", "line", "rect", "circle", "image"];

    /// <summary>Characters that XML 1.0 forbids (control characters, broken surrogates) are shown as a replacement mark.</summary>
    private static string Printable(string text)
    {
        if (!text.AsSpan().ContainsAnyExceptInRange(' ', '~')) return text;
        char[] printable = text.ToCharArray();
        for (int i = 0; i < printable.Length; i++)
        {
            if (XmlConvert.IsXmlChar(printable[i])) continue;
            if (i + 1 < printable.Length && XmlConvert.IsXmlSurrogatePair(printable[i + 1], printable[i])) i++;
            else printable[i] = '\uFFFD';
        }
        return new(printable);
    }
}
