using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Draw;

/// <summary>A label that found no room and is written at the foot instead.</summary>
internal sealed record KeyEntry(string Letter, string Words);

/// <summary>What all parts of one chart share.</summary>
internal sealed class Sheet
{
    private readonly List<KeyEntry> key = [];

    public Sheet(Scenario scenario, IReadOnlyList<(Timeline Timeline, Trace Trace)> played, Verdict verdict, RangeChartOptions options, double margin, double axisLeft)
    {
        (Scenario, Verdict, Options, Margin) = (scenario, verdict, options, margin);
        (Timeline, Trace) = played.First(branch => branch.Timeline.Branch == Branch.Likely);
        Otherwise = played.Where(branch => branch.Timeline.Branch == Branch.Otherwise).Select(branch => branch.Trace).FirstOrDefault();
        EndLimit = scenario.LimitOf("pet.limit") is { } limit ? Pet.FromSeconds((int)Math.Floor(limit.Value.Value)) : null;
        Pet last = EndLimit is { } end && end > Trace.To ? end : Trace.To;
        if (Otherwise is { } other && other.To > last) last = other.To;
        Pet first = Trace.From < default(Pet) ? Trace.From : default;
        Axis = new(first, last, scenario.Sortie.PetZero, axisLeft, options.Width - margin - 12);
    }

    public Scenario Scenario { get; }

    public Timeline Timeline { get; }

    public Trace Trace { get; }

    /// <summary>The other branch, when there is one.</summary>
    public Trace? Otherwise { get; }

    public Verdict Verdict { get; }

    public RangeChartOptions Options { get; }

    /// <summary>What the chart says of its own.</summary>
    public Wording Words => Options.Words;

    public double Margin { get; }

    public TimeAxis Axis { get; }

    public Ids Ids { get; } = new();

    /// <summary>The moment that the sortie must end by; null when the scenario sets none.</summary>
    public Pet? EndLimit { get; }

    /// <summary>The limit for everyone in, s, where the ceiling does not already say it; null where it does or none is given.</summary>
    public double? BothLimit =>
        Scenario.LimitOf("return.both") is { } limit && Trace.Ceiling.All(piece => piece.FromSeconds != limit.Value.Value) ? limit.Value.Value : null;

    public double Right => Options.Width - Margin;

    public IReadOnlyList<KeyEntry> Key => key;

    /// <summary>Labels that say only where somebody is, left out for room.</summary>
    public int PlacesLeftOut { get; set; }

    /// <summary>Writes a label at the foot and gives the letter to mark its place with.</summary>
    public string MoveToKey(string words)
    {
        string letter = "";
        for (int number = key.Count; number >= 0; number = number / 26 - 1) letter = (char)('a' + number % 26) + letter;
        key.Add(new(letter, words));
        return letter;
    }

    public ReturnCurve? Curve(Trace trace, ReturnKind kind, PersonId? person) =>
        trace.Returns.FirstOrDefault(curve => curve.Kind == kind && curve.Person == person && !curve.Points.IsEmpty);

    /// <summary>The name people use for a grip: that of the worksite on it, or its own.</summary>
    public string PlaceName(GripId grip) => Scenario.Station.Sites.FirstOrDefault(site => site.Grip == grip)?.Title ?? grip.Value;

    public string PlaceName(Leg leg) => Scenario.Station.Sites.FirstOrDefault(site => site.Id == leg.Site)?.Title ?? leg.Site.Value;

    public string GearName(GearId gear) => Scenario.Gear.FirstOrDefault(thing => thing.Id == gear)?.Title ?? gear.Value;

    /// <summary>Minutes that something takes or has reached: never shown as less than it is.</summary>
    public static string MinutesUp(double seconds) => Whole(Math.Ceiling((seconds - 1e-6) / 60));

    /// <summary>Minutes that are left: never shown as more than there are.</summary>
    public static string MinutesDown(double seconds) => Whole(Math.Floor((seconds + 1e-6) / 60));

    private static string Whole(double minutes) => (minutes == 0 ? 0 : minutes).ToString("0", CultureInfo.InvariantCulture);
}
