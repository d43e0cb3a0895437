using EdgeLens.Records.Book;
using EdgeLens.Records.Inspections;
using EdgeLens.Web.Auditing;

namespace EdgeLens.Web.Pages;

/// <summary>Sign-offs enter the book here, one for each inspection: two clicks, or two clinicians at once, make one row.</summary>
internal sealed class DecisionDesk(IRecordBook book, AuditFile audit)
{
    /// <summary>Characters of a comment.</summary>
    public const int LongestComment = 500;

    private readonly Lock _gate = new();

    /// <summary>The decision on an inspection; null when there is none.</summary>
    public SignOff? On(InspectionEntry inspection) => book.SignOffsOn(inspection.Id, inspection.Occasion).LastOrDefault(s => s.Agrees is not null);

    /// <summary>Enters a decision.</summary>
    /// <returns>False when there is one already.</returns>
    /// <exception cref="BookException">A disagreement without words.</exception>
    public bool Decide(InspectionEntry inspection, string by, bool agrees, string? comment, string from)
    {
        lock (_gate)
        {
            if (On(inspection) is not null) return false;
            SignOff row = (SignOff)book.Append(new SignOff { By = by, InspectionId = inspection.Id, Agrees = agrees, Comment = comment })[0];
            audit.Write(agrees ? "signed-off" : "sent-back", by, from, FormattableString.Invariant($"inspection {inspection.Id}, row {row.Id}"));
            return true;
        }
    }
}
