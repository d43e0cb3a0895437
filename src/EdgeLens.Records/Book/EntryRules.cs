using EdgeLens.Records.Entries;
using EdgeLens.Records.Inspections;
using EdgeLens.Records.Instruments;
using EdgeLens.Records.MeasuringSetup;
using EdgeLens.Records.Practices;
using EdgeLens.Records.Sharpening;
using EdgeLens.Records.Uses;

namespace EdgeLens.Records.Book;

/// <summary>What a row must fulfil before it is entered. Holds for one transaction: what it lets pass it takes to be there for the next row.</summary>
/// <param name="codes">Which codes are given already.</param>
/// <param name="rows">What is there already.</param>
public sealed class EntryRules(IKnownCodes codes, ICurrentRows rows)
{
    /// <summary>Characters; a code stands in file names and headlines.</summary>
    private const int LongestCode = 40;

    // Looked up once in a transaction: a batch names the same instrument many times.
    private readonly Dictionary<(Type, string), bool> _known = [];
    private List<EndTag>? _tags;

    /// <summary>Looks at a row that is to be entered.</summary>
    /// <exception cref="BookException">It names something that is not there, is there already, or makes no sense.</exception>
    public void Check(Entry entry)
    {
        switch (entry)
        {
            case Practice p:
                MustHave(p.Currency is { Length: 3 } && p.Currency.All(char.IsAsciiLetterUpper), "A currency is three capital letters, for example EUR.");
                if (p.Corrects is null && rows.Current<Practice>().Count > 0) throw new BookException("The book has its practice already; correct that row.");
                break;
            case Site s: Name<Site>(s, s.Code); break;
            case Cassette c:
                Name<Cassette>(c, c.Code);
                if (c.Site is { } site) MustKnow<Site>(site);
                break;
            case Instrument i:
                Name<Instrument>(i, i.Code);
                MustHave(i.Price is null or >= 0, "A price is at least 0.");
                break;
            case WorkingEnd e:
                MustKnow<Instrument>(e.Instrument);
                MustHave(e.End is >= 1 and <= 99, "A working end's number is from 1 to 99.");
                Name<WorkingEnd>(e, Key(e.Instrument, e.End));
                break;
            case Placement p:
                MustKnow<Instrument>(p.Instrument);
                if (p.Cassette is { } cassette) MustKnow<Cassette>(cassette);
                break;
            case Procedure p:
                MustHave(p.Cassette is null != p.Instrument is null, "A procedure names a cassette or an instrument.");
                if (p.Cassette is { } used) MustKnow<Cassette>(used);
                if (p.Instrument is { } single) MustKnow<Instrument>(single);
                MustHave(p.LightCases >= 0 && p.HeavyCases >= 0 && p.LightCases + p.HeavyCases > 0, "A procedure counts at least one case.");
                break;
            case Stone s:
                Name<Stone>(s, s.Code);
                MustHave(s.Zones is >= 1 and <= 20, "A stone has 1 to 20 zones.");
                break;
            case StoneCare c: MustKnow<Stone>(c.Stone); break;
            case LensProfileEntry l: MustHave(IsName(l.Name), "A lens profile needs a name."); break;
            case SignOff s: MustHave(s.Agrees == true || !string.IsNullOrWhiteSpace(s.Comment), "A sign-off that does not agree, and a comment, need words."); break;
            case SharpeningPair p: MustHave(p.BeforeInspectionId != p.InspectionId, "A sharpening lies between two inspections."); break;
            case SharpeningRow s:
                MustKnowEnd(s);
                MustHave(s.Strokes is null or (>= 1 and <= 1000), "Strokes are from 1 to 1000.");
                if (s.Stone is { } stone) MustKnow<Stone>(stone);
                break;
            case EndTag t:
                MustKnowEnd(t);
                CheckTag(t);
                break;
            case WorkingEndEvent e: MustKnowEnd(e); break;
            case InstrumentEntry e: MustKnow<Instrument>(e.Instrument); break;
        }
    }

    /// <summary>How a working end is called where codes are asked for.</summary>
    public static string Key(string instrument, int end) => FormattableString.Invariant($"{instrument} end {end}");

    private void MustKnowEnd(WorkingEndEntry entry)
    {
        MustKnow<Instrument>(entry.Instrument);
        MustKnow<WorkingEnd>(Key(entry.Instrument, entry.End));
    }

    /// <summary>One tag, one end: a photograph must never be filed by what was printed for another instrument.</summary>
    private void CheckTag(EndTag tag)
    {
        MustHave(tag.Number is >= 1 and <= EndTag.GreatestNumber, $"A tag's number is from 1 to {EndTag.GreatestNumber}.");
        _tags ??= [.. rows.Current<EndTag>()];
        if (tag.Corrects is { } old) _tags.RemoveAll(t => t.Id == old);
        if (tag.IsWithdrawal) return;
        if (_tags.Find(t => t.Number == tag.Number) is { } taken) throw new BookException($"Tag {tag.Number} stands for {Key(taken.Instrument, taken.End)} (row {taken.Id}). Withdraw that row first, or take another number.");
        if (_tags.Find(t => t.Instrument == tag.Instrument && t.End == tag.End) is { } has) throw new BookException($"{Key(has.Instrument, has.End)} has the tag {has.Number} already (row {has.Id}).");
        _tags.Add(tag);
    }

    /// <summary>A code is given once; a correction of its own row may keep it.</summary>
    private void Name<T>(T entry, string code) where T : Entry
    {
        MustHave(IsName(code), $"\"{code}\" is no short name: 1 to {LongestCode} characters, no line breaks.");
        bool isTaken = IsKnown<T>(code);
        if (isTaken && !IsOwnCode(entry, code)) throw new BookException($"{Kind<T>()} {code} is in the book already.");
        _known[(typeof(T), code)] = !entry.IsWithdrawal;
    }

    private bool IsOwnCode<T>(T entry, string code) where T : Entry => entry.Corrects is { } old && rows.Current<T>().Any(r => r.Id == old && CodeOf(r) == code);

    private void MustKnow<T>(string code) where T : Entry
    {
        if (!IsKnown<T>(code)) throw new BookException($"The book has no {Kind<T>()} {code}. Add it first, or check the name.");
    }

    private bool IsKnown<T>(string code) where T : Entry
    {
        if (!_known.TryGetValue((typeof(T), code), out bool known)) _known[(typeof(T), code)] = known = codes.IsGiven<T>(code);
        return known;
    }

    private static string CodeOf(Entry entry) => entry switch
    {
        Site s => s.Code,
        Cassette c => c.Code,
        Instrument i => i.Code,
        WorkingEnd e => Key(e.Instrument, e.End),
        Stone s => s.Code,
        _ => throw new ArgumentException($"{entry.GetType().Name} has no code.", nameof(entry)),
    };

    private static string Kind<T>() => typeof(T) == typeof(WorkingEnd) ? "working end" : typeof(T).Name.ToLowerInvariant();

    private static bool IsName(string text) => text.Trim() == text && text.Length is > 0 and <= LongestCode && !text.Any(char.IsControl);

    private static void MustHave(bool isRight, string what)
    {
        if (!isRight) throw new BookException(what);
    }
}
