using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using EdgeLens.Geometry.Figures;
using EdgeLens.Imaging.Json;
using MathNet.Numerics.LinearAlgebra;

namespace EdgeLens.Imaging.Calibration;

/// <summary>
/// JSON of a <see cref="LensProfile"/>: <c>name</c>, <c>picture_px</c> [width, height], <c>focal_length_px</c>, <c>k1</c>, <c>centre_x_px</c> and
/// <c>centre_y_px</c> each with <c>value</c> and <c>standard_uncertainty</c>, <c>covariance</c> of these four in this order (16 numbers, row by row),
/// <c>photographs</c>, <c>corner_residual_px</c>, <c>date</c> (yyyy-MM-dd); and, where there were any, <c>verifications</c>, each with <c>date</c>, <c>gauge</c>,
/// <c>diameter_mm</c>, <c>limits_mm</c> [least, greatest], <c>result</c> (pass, fail, undecided), <c>due</c>.
/// </summary>
internal static class LensProfileFile
{
    private const string DateFormat = "yyyy-MM-dd";

    public static string Write(LensProfile p)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, new JsonWriterOptions { Indented = true }))
        {
            json.WriteStartObject();
            json.WriteString("name", p.Name);
            Numbers(json, "picture_px", p.WidthPx, p.HeightPx);
            Figure(json, "focal_length_px", p.FocalLengthPx);
            Figure(json, "k1", p.K1);
            Figure(json, "centre_x_px", p.CentreXPx);
            Figure(json, "centre_y_px", p.CentreYPx);
            Numbers(json, "covariance", p.Covariance.AsSpan());
            json.WriteNumber("photographs", p.PhotographCount);
            json.WriteNumber("corner_residual_px", p.CornerResidualPx);
            json.WriteString("date", p.Date.ToString(DateFormat, CultureInfo.InvariantCulture));
            if (!p.Verifications.IsDefaultOrEmpty) Verifications(json, p.Verifications);
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    private static void Verifications(Utf8JsonWriter json, ImmutableArray<LensVerification> verifications)
    {
        json.WriteStartArray("verifications");
        foreach (LensVerification v in verifications)
        {
            json.WriteStartObject();
            json.WriteString("date", v.Date.ToString(DateFormat, CultureInfo.InvariantCulture));
            json.WriteString("gauge", v.Gauge);
            Figure(json, "diameter_mm", v.DiameterMm);
            Numbers(json, "limits_mm", v.LeastMm, v.GreatestMm);
            json.WriteString("result", v.Result);
            json.WriteString("due", v.Due.ToString(DateFormat, CultureInfo.InvariantCulture));
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Figure(Utf8JsonWriter json, string name, Measured m)
    {
        json.WriteStartObject(name);
        json.WriteNumber("value", m.Value);
        json.WriteNumber("standard_uncertainty", m.StandardUncertainty);
        json.WriteEndObject();
    }

    private static void Numbers(Utf8JsonWriter json, string name, params ReadOnlySpan<double> numbers)
    {
        json.WriteStartArray(name);
        foreach (double n in numbers) json.WriteNumberValue(n);
        json.WriteEndArray();
    }

    public static Outcome<LensProfile> Read(string text)
    {
        try
        {
            return JsonFields.Read(text, Profile);
        }
        catch (JsonFieldException e)
        {
            return new Refusal("lens-profile-file", e.Message, "Make the profile again from photographs of the card, or restore the file.");
        }
    }

    private static LensProfile Profile(JsonFields root)
    {
        (double width, double height) = root.Pair("picture_px");
        Require(width is >= 100 and <= 50000 && height is >= 100 and <= 50000 && width % 1 == 0 && height % 1 == 0, "picture_px", $"[{width}, {height}]", "two whole numbers of 100 to 50000");
        Measured f = Figure(root, "focal_length_px"), k1 = Figure(root, "k1"), cx = Figure(root, "centre_x_px"), cy = Figure(root, "centre_y_px");
        Require(f.Value > 0.3 * width, "focal_length_px.value", f.Value, "more than 0.3 picture widths: the lens of a macro photograph");
        Require(cx.Value > 0 && cx.Value < width, "centre_x_px.value", cx.Value, "inside the picture");
        Require(cy.Value > 0 && cy.Value < height, "centre_y_px.value", cy.Value, "inside the picture");

        double[] covariance = root.Numbers("covariance");
        Require(covariance.Length == 16, "covariance", $"{covariance.Length} numbers", "16 numbers, row by row");
        Measured[] figures = [f, k1, cx, cy];
        for (int i = 0; i < 4; i++)
        {
            double variance = figures[i].StandardUncertainty * figures[i].StandardUncertainty;
            Require(Math.Abs(covariance[5 * i] - variance) <= 1e-6 * variance, $"covariance[{5 * i}]", covariance[5 * i], $"the square of its standard uncertainty ({variance})");
            for (int j = 0; j < i; j++)
                Require(covariance[4 * i + j] == covariance[4 * j + i], $"covariance[{4 * i + j}]", covariance[4 * i + j], $"the same as its mirror covariance[{4 * j + i}]");
        }
        Require(IsPositiveDefinite(covariance, figures), "covariance", "a matrix with a negative variance in some direction", "positive definite");

        int photographs = root.Integer("photographs");
        double residual = root.Number("corner_residual_px");
        Require(photographs >= LensProfiler.MinPhotographs, "photographs", photographs, $"at least {LensProfiler.MinPhotographs}");
        Require(residual >= 0, "corner_residual_px", residual, "0 or more");
        return new(root.Text("name"), (int)width, (int)height, new(f.Value, cx.Value, cy.Value, k1.Value), [.. covariance], photographs, residual, Day(root, "date"))
        {
            Verifications = [.. root.OptionalObjects("verifications").Select(Verification)],
        };
    }

    private static LensVerification Verification(JsonFields v)
    {
        (double least, double greatest) = v.Pair("limits_mm");
        Require(least > 0 && least < greatest, "limits_mm", $"[{least}, {greatest}]", "two diameters, the smaller one first");
        string result = v.Text("result");
        Require(result is "pass" or "fail" or "undecided", "result", result, "pass, fail or undecided");
        return new(Day(v, "date"), v.Text("gauge"), Figure(v, "diameter_mm"), least, greatest, result, Day(v, "due"));
    }

    private static DateOnly Day(JsonFields at, string name)
    {
        string date = at.Text(name);
        Require(DateOnly.TryParseExact(date, DateFormat, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day), name, date, "a date as 2025-01-31");
        return day;
    }

    private static bool IsPositiveDefinite(double[] covariance, Measured[] figures)
    {
        // As correlations, so that the four units don't matter.
        Matrix<double> r = Matrix<double>.Build.Dense(4, 4, (i, j) => covariance[4 * i + j] / (figures[i].StandardUncertainty * figures[j].StandardUncertainty));
        return r.Evd(Symmetricity.Symmetric).EigenValues.All(e => e.Real > 1e-12);
    }

    private static Measured Figure(JsonFields root, string name)
    {
        JsonFields f = root.Object(name);
        double u = f.Number("standard_uncertainty");
        Require(u > 0, $"{name}.standard_uncertainty", u, "more than 0");
        return new(f.Number("value"), u);
    }

    private static void Require(bool holds, string field, object value, string wanted)
    {
        if (!holds) throw new JsonFieldException(FormattableString.Invariant($"Field {field} is {value}, but must be {wanted}."));
    }
}
