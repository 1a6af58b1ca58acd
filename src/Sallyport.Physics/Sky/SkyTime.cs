namespace Sallyport.Physics;

/// <summary>Time scales and the turning of the Earth.</summary>
/// <remarks>UT1 is taken as UTC: less than 0.9 s apart by agreement, hence at most 0.004° of the Earth's turning.</remarks>
public static class SkyTime
{
    /// <summary>Julian date of the epoch J2000, 2000 January 1, 12 h.</summary>
    public const double J2000 = 2451545;

    private static readonly DateTime J2000Utc = new(2000, 1, 1, 12, 0, 0, DateTimeKind.Utc);

    // Beginnings of TT − UTC, s: 32.184 s and the leap seconds. From memory, unverified; one second wrong moves the Sun by 0.00001°.
    private static readonly (DateTime From, double Seconds)[] Steps =
    [
        (new(2017, 1, 1), 69.184), (new(2015, 7, 1), 68.184), (new(2012, 7, 1), 67.184), (new(2009, 1, 1), 66.184), (new(2006, 1, 1), 65.184),
    ];

    /// <summary>Days from J2000 to an instant in its own time scale, good to a microsecond for centuries.</summary>
    public static double DaysFromJ2000(DateTime instant) => (instant - J2000Utc).Ticks / (double)TimeSpan.TicksPerDay;

    /// <summary>Terrestrial Time less UTC, s. Before 2006 the figure of 1999; after 2017, and so for all dates ahead, that of 2017.</summary>
    public static double TerrestrialLessUtc(DateTime utc)
    {
        foreach ((DateTime from, double seconds) in Steps)
            if (utc >= from) return seconds;
        return 64.184;
    }

    /// <summary>Greenwich mean sidereal time of 1982, rad in [0, 2π): the turn from TEME to Earth-fixed axes.</summary>
    /// <remarks>Aoki and others, 1982, as reference "sgp4-verification" has it.</remarks>
    /// <param name="daysFromJ2000">UT1 (here UTC), days from J2000.</param>
    public static double GreenwichSidereal(double daysFromJ2000)
    {
        double t = daysFromJ2000 / 36525;
        // The whole turns of each day are left out before the product grows large, which keeps nanoradians.
        double turns = daysFromJ2000 - Math.Floor(daysFromJ2000) + (67310.54841 + t * (8640184.812866 + t * (0.093104 - t * 6.2e-6))) / 86400;
        // At noon, where days from J2000 are whole, the 876600 h a century are whole days: nothing of them is left.
        return (turns - Math.Floor(turns)) * Math.Tau;
    }
}
