using System.Globalization;
using System.Text.RegularExpressions;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>What an element set says, under the keywords of an OMM, whatever format it came in.</summary>
internal sealed partial class OrbitFields(SourceText source, Action<Problem> report)
{
    /// <summary>Keywords that may stand in an OMM; only some of them matter here.</summary>
    public static readonly HashSet<string> Known =
    [
        "CCSDS_OMM_VERS", "CLASSIFICATION", "CREATION_DATE", "ORIGINATOR", "MESSAGE_ID", "META_START", "META_STOP",
        "OBJECT_NAME", "OBJECT_ID", "CENTER_NAME", "REF_FRAME", "REF_FRAME_EPOCH", "TIME_SYSTEM", "MEAN_ELEMENT_THEORY",
        "EPOCH", "SEMI_MAJOR_AXIS", "MEAN_MOTION", "ECCENTRICITY", "INCLINATION", "RA_OF_ASC_NODE", "ARG_OF_PERICENTER", "MEAN_ANOMALY", "GM",
        "MASS", "SOLAR_RAD_AREA", "SOLAR_RAD_COEFF", "DRAG_AREA", "DRAG_COEFF",
        "EPHEMERIS_TYPE", "CLASSIFICATION_TYPE", "NORAD_CAT_ID", "ELEMENT_SET_NO", "REV_AT_EPOCH", "BSTAR", "BTERM",
        "MEAN_MOTION_DOT", "MEAN_MOTION_DDOT", "AGOM", "COV_REF_FRAME",
    ];

    private readonly Dictionary<string, TextNode> fields = [];

    /// <summary>Keeps a field; a second one of the same keyword is a problem.</summary>
    public void Add(string key, string text, int line, int column, string? unit = null)
    {
        Place place = new(source, line, column);
        TextNode node = new(place, text, Plain: true);
        if (key == "CCSDS_OMM_VERS" && fields.ContainsKey(key))
        {
            report(OrbitProblems.SecondSet(place));
            return;
        }
        if (!Known.Contains(key) && !Rest().IsMatch(key)) report(OrbitProblems.Unknown(place, key, Known));
        else if (!fields.TryAdd(key, node)) report(FileProblems.DuplicateKey(new(place, key, Plain: true), fields[key].Place));
        else if (unit is not null && UnitOf(key) is { } wanted && !unit.Equals(wanted, StringComparison.OrdinalIgnoreCase)) report(OrbitProblems.Unit(node, key, unit, wanted));
    }

    public void Report(Problem problem) => report(problem);

    public Place PlaceOf(string key) => fields.TryGetValue(key, out TextNode? node) ? node.Place : new(source, 0, 0);

    /// <summary>The elements, or null when something is wrong, which is then told.</summary>
    public OrbitElements? Elements()
    {
        int before = wrong;
        Must("CENTER_NAME", "EARTH", "EARTH");
        Must("REF_FRAME", "TEME", "TEME", "TEMEOFDATE");
        Must("TIME_SYSTEM", "UTC", "UTC");
        Must("MEAN_ELEMENT_THEORY", "SGP4", "SGP4", "SGP/SGP4", "SDP4");
        if (fields.ContainsKey("EPHEMERIS_TYPE")) Must("EPHEMERIS_TYPE", "0", "0", "2", "");
        if (fields.ContainsKey("SEMI_MAJOR_AXIS") && !fields.ContainsKey("MEAN_MOTION")) Wrong(OrbitProblems.NoMeanMotion(PlaceOf("SEMI_MAJOR_AXIS")));
        DateTime epoch = Epoch();
        double motion = fields.ContainsKey("SEMI_MAJOR_AXIS") && !fields.ContainsKey("MEAN_MOTION") ? 1 : Number("MEAN_MOTION", 0.05, 17, "0.05 to 17 revolutions a day");
        double eccentricity = Number("ECCENTRICITY", 0, Math.BitDecrement(1), "at least 0 and below 1");
        double inclination = Number("INCLINATION", 0, 180, "0 to 180 degrees");
        double node = Number("RA_OF_ASC_NODE", -360, 360, "−360 to 360 degrees"), perigee = Number("ARG_OF_PERICENTER", -360, 360, "−360 to 360 degrees");
        double anomaly = Number("MEAN_ANOMALY", -360, 360, "−360 to 360 degrees"), drag = Number("BSTAR", -10, 10, "−10 to 10 an Earth radius");
        string name = fields.TryGetValue("OBJECT_NAME", out TextNode? called) && called.Text.Length > 0 ? called.Text : "unnamed";
        return wrong > before ? null : new(name, epoch, motion, eccentricity, inclination, node, perigee, anomaly, drag);
    }

    private int wrong;

    private void Wrong(Problem problem)
    {
        wrong++;
        report(problem);
    }

    private void Must(string key, string meant, params string[] allowed)
    {
        if (!fields.TryGetValue(key, out TextNode? node)) Wrong(OrbitProblems.Missing(source, key, meant));
        else if (!allowed.Contains(node.Text, StringComparer.OrdinalIgnoreCase)) Wrong(OrbitProblems.Other(node, key, meant));
    }

    private double Number(string key, double least, double most, string range)
    {
        if (!fields.TryGetValue(key, out TextNode? node)) Wrong(OrbitProblems.Missing(source, key, "…"));
        else if (!Figure().IsMatch(node.Text) || !double.TryParse(node.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)) Wrong(ValueProblems.Number(node, key, "a number"));
        else if (!(value >= least && value <= most)) Wrong(ValueProblems.Range(node, key, range));
        else return value;
        return double.NaN;
    }

    private DateTime Epoch()
    {
        const string key = "EPOCH";
        if (!fields.TryGetValue(key, out TextNode? node))
        {
            Wrong(OrbitProblems.Missing(source, key, "2031-05-12T08:00:00"));
            return default;
        }
        Match match = Instant().Match(node.Text);
        bool read = false;
        DateTime instant = default;
        if (match.Success)
        {
            int Part(string group) => match.Groups[group].Success ? int.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture) : 0;
            int year = Part("year"), day = Part("day"), month = Part("month");
            bool dated = match.Groups["month"].Success
                ? month is >= 1 and <= 12 && year >= 1 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
                : year >= 1 && day >= 1 && day <= (DateTime.IsLeapYear(year) ? 366 : 365);
            // A leap second would name an instant that the calendar of this program does not have.
            if (dated && Part("hour") <= 23 && Part("minute") <= 59 && Part("second") <= 59)
            {
                instant = new DateTime(year, dated && month > 0 ? month : 1, month > 0 ? day : 1, Part("hour"), Part("minute"), Part("second"), DateTimeKind.Utc);
                if (month == 0) instant = instant.AddDays(day - 1);
                string part = match.Groups["part"].Value;
                if (part.Length > 0) instant = instant.AddTicks((long)Math.Round(double.Parse("0." + part, CultureInfo.InvariantCulture) * TimeSpan.TicksPerSecond));
                read = true;
            }
        }
        if (!read) Wrong(ValueProblems.Form(node, key, "an instant in UTC", "2031-05-12T08:00:00.000"));
        else if (instant.Year is < 1957 or > 2100) Wrong(ValueProblems.Range(node, key, "years 1957 to 2100"));
        return instant;
    }

    private static string? UnitOf(string key) => key switch
    {
        "MEAN_MOTION" => "rev/day",
        "INCLINATION" or "RA_OF_ASC_NODE" or "ARG_OF_PERICENTER" or "MEAN_ANOMALY" => "deg",
        "BSTAR" => "1/ER",
        _ => null,
    };

    [GeneratedRegex(@"^(USER_DEFINED_\w+|C[XYZ](_DOT)?_[XYZ](_DOT)?)$")]
    private static partial Regex Rest();

    [GeneratedRegex(@"^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$")]
    private static partial Regex Figure();

    [GeneratedRegex(@"^(?<year>\d{4})-((?<month>\d\d)-(?<day>\d\d)|(?<day>\d{3}))T(?<hour>\d\d):(?<minute>\d\d):(?<second>\d\d)(\.(?<part>\d{1,12}))?Z?$")]
    private static partial Regex Instant();
}
