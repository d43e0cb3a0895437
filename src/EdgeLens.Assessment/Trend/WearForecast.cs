namespace EdgeLens.Assessment.Trend;

/// <summary>When a working end meets a limit, and how many sharpenings are left.</summary>
/// <param name="Limit">Upper limit of the loss, the measure's unit.</param>
/// <param name="IsMet">True when the predicted loss is at or above the limit by the last inspection already.</param>
/// <param name="SharpeningsLeft">Sharpenings after which the loss is still within the limit; missing with its reason where sharpenings do not drive the trend.</param>
/// <param name="MeetsLimit">Day on which the limit is met at the rate of use so far; missing with its reason.</param>
/// <param name="RateOfUse">Exposure per year that the day rests on; null when not known.</param>
public sealed record WearForecast(double Limit, bool IsMet, SharpeningsLeft? SharpeningsLeft, LimitDay? MeetsLimit, Exposure? RateOfUse)
{
    /// <summary>Why there is no number of sharpenings, else null.</summary>
    public string? WhyNoSharpenings { get; private init; }

    /// <summary>Why there is no day, else null.</summary>
    public string? WhyNoDay { get; private init; }

    // Steps of the search for the day: a day of a year is as fine as a practice plans.
    private const double StepYears = 1 / Exposure.DaysPerYear;

    // A blade loses its working width in some tens of sharpenings; more than this many left is "no end in sight".
    private const int MostSharpenings = 200;

    // Of the search: a forecast is made for every working end of a practice at once.
    private const int SharpeningStride = 8, DayStride = 64;

    /// <summary>Looks ahead from the last inspection.</summary>
    /// <param name="trend">Of the working end.</param>
    /// <param name="limit">Upper limit, the measure's unit, for example the policy's for retiring.</param>
    /// <param name="rateOfUse">Sharpenings and procedures per year to expect (<see cref="Exposure.Years"/> is ignored); null: as in the history so far.</param>
    public static WearForecast Of(WearTrend trend, double limit, Exposure? rateOfUse = null)
    {
        ArgumentNullException.ThrowIfNull(trend);
        if (!double.IsFinite(limit)) throw new ArgumentOutOfRangeException(nameof(limit), limit, "A limit must be finite.");
        Exposure now = trend.Exposures[^1];
        Exposure? rate = rateOfUse ?? RateSoFar(trend, now);
        return new(limit, trend.Predict(now).Loss.Value >= limit, Sharpenings(trend, limit, now), rate is { } r ? Day(trend, limit, now, r) : null, rate)
        {
            WhyNoSharpenings = trend.Drivers[0] == WearDriver.Sharpening ? null : "No sharpening is logged, so the loss by one is not known.",
            WhyNoDay = rate is null ? FormattableString.Invariant($"The history is shorter than {trend.Options.ShortestHistoryDays:0} days: the rate of use is not known.") : null,
        };
    }

    private static Exposure? RateSoFar(WearTrend trend, Exposure now) => now.Years * Exposure.DaysPerYear < trend.Options.ShortestHistoryDays
        ? null
        : new(now.Sharpenings / now.Years, now.Procedures / now.Years, 1);

    private static SharpeningsLeft? Sharpenings(WearTrend trend, double limit, Exposure now)
    {
        if (trend.Drivers[0] != WearDriver.Sharpening) return null;
        // As many cases go with a sharpening as went with one so far.
        double cases = now.Sharpenings > 0 ? now.Procedures / now.Sharpenings : 0;
        Func<int, PredictedLoss> after = Once(k => trend.Predict(now with { Sharpenings = now.Sharpenings + k, Procedures = now.Procedures + k * cases }));
        int? Left(Func<PredictedLoss, double> of) => First(MostSharpenings, SharpeningStride, k => of(after(k)) > limit) is { } over ? Math.Max(0, over - 1) : null;
        return new(Left(p => p.High) ?? MostSharpenings, Left(p => p.Loss.Value), Left(p => p.Low));
    }

    /// <summary>The searches for both ends of the interval and for the prediction ask for the same places: each is predicted once.</summary>
    private static Func<int, PredictedLoss> Once(Func<int, PredictedLoss> predict)
    {
        Dictionary<int, PredictedLoss> seen = [];
        return place => seen.TryGetValue(place, out PredictedLoss? known) ? known : seen[place] = predict(place);
    }

    /// <summary>The first whole number from 0 to <paramref name="last"/> that is met; null for none.</summary>
    /// <remarks>
    /// In strides and then by halving. The prediction rises in a straight line and its interval's half width is convex, so the upper end meets a limit once and for good, and the lower
    /// end (concave) once on its way up; only a lower end that touches the limit for less than a stride is overlooked, and is then "no latest day".
    /// </remarks>
    private static int? First(int last, int stride, Func<int, bool> isMet)
    {
        int met = 0;
        while (!isMet(met))
        {
            if (met == last) return null;
            met = Math.Min(last, met + stride);
        }
        int below = Math.Max(-1, met - stride);
        while (met - below > 1)
        {
            int middle = below + (met - below) / 2;
            if (isMet(middle)) met = middle;
            else below = middle;
        }
        return met;
    }

    private static LimitDay Day(WearTrend trend, double limit, Exposure now, Exposure rate)
    {
        DateTime last = trend.Observations[^1].When;
        int days = (int)(trend.Options.HorizonYears / StepYears);
        Func<int, PredictedLoss> after = Once(day =>
        {
            double ahead = day * StepYears;
            return trend.Predict(new(now.Sharpenings + rate.Sharpenings * ahead, now.Procedures + rate.Procedures * ahead, now.Years + ahead));
        });
        DateOnly? Met(Func<PredictedLoss, double> of) => First(days, DayStride, day => of(after(day)) >= limit) is { } first ? DateOnly.FromDateTime(last.AddDays(first)) : null;
        return new(Met(p => p.High), Met(p => p.Loss.Value), Met(p => p.Low), DateOnly.FromDateTime(last.AddDays(trend.Options.HorizonYears * Exposure.DaysPerYear)));
    }
}

/// <summary>How many more sharpenings keep the loss within the limit.</summary>
/// <param name="AtLeast">Even the upper end of the prediction interval stays within the limit.</param>
/// <param name="Likely">The prediction itself does; null for no end in sight.</param>
/// <param name="AtMost">The lower end of the interval does; null for no end in sight.</param>
public sealed record SharpeningsLeft(int AtLeast, int? Likely, int? AtMost);

/// <summary>When the limit is met.</summary>
/// <param name="Earliest">The upper end of the prediction interval meets it; null: not before <paramref name="Horizon"/>.</param>
/// <param name="Likely">The prediction meets it; null: not before the horizon.</param>
/// <param name="Latest">The lower end of the interval meets it; null: not before the horizon.</param>
/// <param name="Horizon">How far the forecast looks.</param>
public sealed record LimitDay(DateOnly? Earliest, DateOnly? Likely, DateOnly? Latest, DateOnly Horizon);
