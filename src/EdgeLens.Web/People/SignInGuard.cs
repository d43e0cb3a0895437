namespace EdgeLens.Web.People;

/// <summary>Locks a code for a while after wrong PINs; codes that nobody has too, so that a lock tells nothing. Forgets at a restart.</summary>
internal sealed class SignInGuard(TimeProvider clock)
{
    /// <summary>Wrong PINs in a row until the code is locked.</summary>
    public const int Allowed = 5;

    /// <summary>At 5 tries in 5 minutes half of a million PINs take about a year, and the audit file shows each of them.</summary>
    public static readonly TimeSpan LockedFor = TimeSpan.FromMinutes(5);

    /// <summary>Codes remembered; beyond it, invented codes fill the table and the oldest are forgotten.</summary>
    private const int MostCodes = 1000;

    private readonly Dictionary<string, (int Wrong, DateTimeOffset Last)> _tries = [];
    private readonly Lock _gate = new();

    /// <summary>Counts the try before the PIN is looked at, so that tries at the same time count too.</summary>
    /// <returns>False when the code is locked.</returns>
    public bool MayTry(string code)
    {
        DateTimeOffset now = clock.GetUtcNow();
        lock (_gate)
        {
            (int wrong, DateTimeOffset last) = _tries.GetValueOrDefault(code);
            if (now - last >= LockedFor) wrong = 0;
            if (wrong >= Allowed) return false;
            if (_tries.Count >= MostCodes && !_tries.ContainsKey(code)) _tries.Remove(_tries.MinBy(t => t.Value.Last).Key);
            _tries[code] = (wrong + 1, now);
            return true;
        }
    }

    /// <summary>The PIN was right.</summary>
    public void Passed(string code)
    {
        lock (_gate) _tries.Remove(code);
    }
}
