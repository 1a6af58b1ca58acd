using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Nobody stays where what is touched is too hot or too cold for a glove.</summary>
internal sealed class TouchTemperature : Rule
{
    public override RuleCard Card { get; } = new(new("touch.temperature"),
        "burns and frostbite through a glove",
        "wherever a person works, waits or passes: each surface there, by day at its lit figure, by night at its figure in shade, in twilight at both, against the hottest and the coldest",
        "the scenario's limit and its least",
        Guard.Decoder("places where a surface is too hot or too cold are closed to ways and work meanwhile"));

    public override string? Missing(Scenario scenario) => scenario.Station.Surfaces.IsEmpty ? null
        : MissingLimit(scenario, Dimension.Temperature) ?? (scenario.LimitOf(Card.Id.Value)!.Least is null ? "the scenario gives the hottest only, and no least" : null);

    public override IEnumerable<Finding> Find(Case given)
    {
        if (given.Scenario.Station.Surfaces.IsEmpty) yield break;
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        double near = limit.NearMargin;
        int light = given.History["sky light"];
        foreach (Surface surface in given.Scenario.Station.Surfaces)
            foreach ((string when, Quantity temperature) in new[] { ("day", surface.Lit), ("night", surface.Shade) })
            {
                double tooHot = limit.Value.Value - temperature.Value, tooCold = temperature.Value - limit.Least!.Value.Value, margin = Math.Min(tooHot, tooCold);
                if (margin >= -Forgiven && margin >= near) continue;
                Quantity bound = tooHot < tooCold ? limit.Value : limit.Least.Value;
                ImmutableArray<PetInterval> so = given.History.While(light, state => state != (when == "day" ? "night" : "day"));
                HashSet<string> places = [.. PlacesOf(given.Scenario, surface)];
                foreach (PersonId person in given.People)
                    foreach (PetInterval touch in Intervals.Common(given.History.While(given.History[$"person {person} place"], places.Contains), so))
                        yield return Broken(given, touch.From, [person],
                            $"{person} is at {surface.Name} until {touch.To}, which is {temperature} by {when}; the limit is {bound}.",
                            $"Bring {person} there by {(when == "day" ? "night" : "day")}, or keep {person} away from {surface.Name}.") with
                        {
                            Severity = margin < -Forgiven ? Severity.Broken : Severity.Near,
                            Measured = temperature.ToString(),
                            Limit = bound.ToString(),
                            Margin = string.Create(CultureInfo.InvariantCulture, $"{margin:0.#} K"),
                            Source = $"{SourceOf(limit)}; the surface: {surface.Source}",
                        };
            }
    }

    // The last bits of turning degrees into kelvin.
    private const double Forgiven = 1e-9;

    private static IEnumerable<string> PlacesOf(Scenario scenario, Surface surface) =>
        surface.Grips.Select(Places.At).Concat(scenario.Station.Sites.Where(site => surface.Sites.Contains(site.Id)).Select(Places.At));
}

/// <summary>Nobody works or waits within reach of a bare edge without having been told of it.</summary>
internal sealed class EdgeSharp : Rule
{
    public override RuleCard Card { get; } = new(new("edge.sharp"),
        "a cut glove",
        "whatever a person does at a place, ways apart: the straight distance from there to each edge that is bare then. Where the leg served minds the edge, "
            + "it stands as a note that names it",
        "the scenario's limit: what lies no farther away is within reach",
        Guard.Proof("the legs of a job say which edges they mind; where people wait and hang bags near one, only the proof sees it"));

    public override string? Missing(Scenario scenario) => scenario.Station.Edges.IsEmpty ? null : MissingLimit(scenario, Dimension.Length);

    public override IEnumerable<Finding> Find(Case given)
    {
        Station station = given.Scenario.Station;
        if (station.Edges.IsEmpty) yield break;
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        Dictionary<LegId, Leg> legs = given.Scenario.Legs.ToDictionary(leg => leg.Id);
        foreach (Edge edge in station.Edges)
        {
            ImmutableArray<PetInterval> bare = edge.Covered is { } covered
                ? given.History.While(given.History[$"feature {covered.Feature} state"], state => !covered.States.Contains(state))
                : [new(given.Trace.From, given.Trace.To)];
            Dictionary<string, double> within = PlacesWithin(given.Scenario, edge.At, limit.Value.Value);
            HashSet<(PersonId, LegId)> told = [];
            foreach (Activity activity in given.Timeline.Activities.Where(activity => activity is not (Translate or ArmMove or SendCommand)))
                foreach (PersonId person in activity.People.Distinct())
                {
                    if (!within.TryGetValue(given.PlaceOf(person, activity.Start), out double away)) continue;
                    if (!Intervals.Common([new(activity.Start, activity.End)], bare).Any()) continue;
                    LegId? serves = activity is DoStep step ? step.Leg : activity.For;
                    bool minded = serves is { } leg && legs[leg].Minds.Contains(edge.Name);
                    if (minded && !told.Add((person, serves!.Value))) continue;
                    string distance = string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(away * 100) / 100:0.##} m");
                    yield return Broken(given, activity.Start, [person],
                        minded ? $"{person} works on {serves} {distance} from {edge.Name}, a sharp edge that was named beforehand."
                            : $"{person} is {distance} from {edge.Name}, a sharp edge that is bare, and nobody was told of it.",
                        minded ? "Keep hands away from it and look at the gloves afterwards." : $"Cover {edge.Name} first, do it elsewhere, or let the leg mind the edge.", activity.Id) with
                    {
                        Severity = minded ? Severity.Note : Severity.Broken,
                        Measured = distance,
                        Limit = limit.Value.ToString(),
                        Margin = string.Create(CultureInfo.InvariantCulture, $"{Math.Floor((away - limit.Value.Value) * 100) / 100:0.##} m"),
                        Source = SourceOf(limit),
                    };
                }
        }
    }

    /// <summary>Every place from which an edge is within reach, exactly at the reach too, with the distance.</summary>
    private static Dictionary<string, double> PlacesWithin(Scenario scenario, Point edge, double reach) =>
        scenario.Station.Grips.Select(grip => (Place: Places.At(grip.Id), grip.At))
            .Concat(scenario.Arms.SelectMany(arm => arm.Poses.Select(pose => (Place: Places.At(arm.Id, pose.Id), pose.At))))
            .Select(place => (place.Place, Away: place.At.DistanceTo(edge))).Where(place => place.Away <= reach + 1e-9).ToDictionary(place => place.Place, place => place.Away);
}
