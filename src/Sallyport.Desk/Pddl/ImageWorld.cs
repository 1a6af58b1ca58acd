using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The things of one scenario and timeline under their PDDL names, and the sentences that are said of them.</summary>
internal sealed class ImageWorld
{
    public ImageWorld(Scenario scenario, Timeline timeline)
    {
        Scenario = scenario;
        Timeline = timeline;
        From = timeline.Activities.IsEmpty ? default : timeline.Activities.Min(activity => activity.Start);
        To = timeline.Activities.IsEmpty ? default : timeline.Activities.Max(activity => activity.End);
        HashSet<PersonId> named = [.. timeline.Activities.SelectMany(activity => activity.People)];
        People = [.. scenario.People.Where(person => person.Role == Role.Outside || named.Contains(person.Id))];
        Spots = new(this);
        Closings = [.. ImageClosings.Of(this)];
    }

    public Scenario Scenario { get; }

    public Timeline Timeline { get; }

    public Pet From { get; }

    public Pet To { get; }

    public ImmutableArray<Person> People { get; }

    public ImageNames Names { get; } = new();

    /// <summary>Where things can be.</summary>
    public ImageSpots Spots { get; }

    /// <summary>What is closed while something is so.</summary>
    public ImmutableArray<ImageClosing> Closings { get; }

    /// <summary>Plan time: everything lies after zero, whatever the sign of PET.</summary>
    public decimal TimeOf(Pet pet) => 1 + pet.Since(From).Seconds;

    // Things.

    public string Person(PersonId person) => Names.Of("person", "person", person.Value);

    public string Grip(GripId grip) => Names.Of("place", "grip", grip.Value);

    public string Pose(ArmId arm, PoseId pose) => Names.Of("place", "pose", $"{arm}/{pose}");

    public string Indoors => Names.Of("place", "indoors", "");

    /// <summary>Where a worksite is worked at.</summary>
    public string PlaceOf(Site site) => site.Grip is { } grip ? Grip(grip) : Pose(site.Arm!.Value, site.Pose!.Value);

    public string Gear(GearId gear) => Names.Of("gear", "gear", gear.Value);

    public string Size(SizeId size) => Names.Of("size", "size", size.Value);

    public string Arm(ArmId arm) => Names.Of("arm", "arm", arm.Value);

    public string Console(ConsoleId console) => Names.Of("console", "console", console.Value);

    public string Hatch(AirlockId airlock) => Names.Of("hatch", "hatch", airlock.Value);

    public string Shutdown(ShutdownId shutdown) => Names.Of("shutdown", "shutdown", shutdown.Value);

    public string Zone(ZoneId zone) => Names.Of("zone", "zone", zone.Value);

    public string Leg(LegId leg) => Names.Of("leg", "leg", leg.Value);

    public string Step(StepId step) => Names.Of("step", "step", step.Value);

    public string Training(string training) => Names.Of("training", "training", training);

    public string Setting(string setting) => Names.Of("setting", "setting", setting);

    public string Count(int count) => Names.Of("count", "count", $"{count}");

    public string Node(NodeId node) => Names.Of("node", "node", node.Value);

    // Sentences.

    public string Stands(PersonId person, string place) => $"(stands {Person(person)} {place})";

    public string IsOutside(PersonId person) => Say.Not(Stands(person, Indoors));

    public string IsLoose(PersonId person) => $"(loose {Person(person)})";

    public string Is(FeatureId feature, string state) => $"(is {Names.Of("feature", "feature", feature.Value)} {Names.Of("state", "state", state)})";

    public string Holds(FeatureCondition condition) => Say.Or(condition.States.Select(state => Is(condition.Feature, state)));

    /// <summary>Whether a feature is a switch of the power net, of which the crew must know that it is open.</summary>
    public bool IsSwitch(FeatureId feature) => Scenario.Station.PowerLines.Any(line => line.Controller is not null && line.Closed?.Feature == feature);

    /// <summary>That the state of a switch was seen and read to the crew since it changed.</summary>
    public string IsKnown(FeatureId feature) => $"(known {Names.Of("feature", "feature", feature.Value)})";

    /// <summary>That something is off and nobody has seen it to be on again.</summary>
    public string IsCold(ShutdownId shutdown) => $"(cold {Shutdown(shutdown)})";

    /// <summary>That there is a link: the sky gives one, and nothing that is shut down cuts it.</summary>
    public string HasLink => Say.And([
        "(not (silence))",
        .. Scenario.Consoles.SelectMany(console => console.Shutdowns).Where(shutdown => shutdown.CutsLink)
            .Select(shutdown => $"(not (cut {Shutdown(shutdown.Id)}))")]);

    /// <summary>What follows when features take states; of two states for one feature the last one stays.</summary>
    public IEnumerable<string> Becomes(IEnumerable<FeatureState> made) => made.GroupBy(one => one.Feature).SelectMany(states =>
        Scenario.Station.Features.Single(feature => feature.Id == states.Key).States
            .Select(state => state == states.Last().State ? Is(states.Key, state) : Say.Not(Is(states.Key, state))));

    public ImageAction Action(string kind, Activity activity, Duration least) =>
        Action(kind, activity, activity.Start, activity.Length, least);

    /// <summary>An action of an activity, or of a part of one; everybody who takes part does nothing else meanwhile.</summary>
    public ImageAction Action(string kind, Activity activity, Pet start, Duration length, Duration least)
    {
        ImageAction action = new(Names.ForAction($"{kind}-{activity.Id}"), start, length.Seconds, least.Seconds, activity.People);
        foreach (PersonId person in activity.People.Distinct()) action.TakesUp(Person(person));
        return action;
    }
}

/// <summary>Sentences joined.</summary>
internal static class Say
{
    public static string Not(string sentence) => $"(not {sentence})";

    public static string And(IEnumerable<string> all) => Join("and", all);

    public static string Or(IEnumerable<string> any) => Join("or", any);

    private static string Join(string word, IEnumerable<string> sentences)
    {
        List<string> list = [.. sentences.Distinct()];
        return list.Count == 1 ? list[0] : $"({word} {string.Join(' ', list)})";
    }
}
