using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Nothing may depend on an order that the plan does not give.</summary>
internal sealed class TimeClash : FactRule
{
    public override RuleCard Card { get; } = new(new("time.clash"),
        "a plan that comes out differently depending on which of two things in one second comes first",
        "activities that end in one instant, or start in one, where two change the same thing or one changes what the other looks at",
        RuleCard.NoFigure,
        Guard.Expansion("everything shared has one sequence in the outline, and each use waits for the end of the one before"));
}

/// <summary>Nothing is shorter than the scenario says it takes.</summary>
internal sealed class TimeShort : FactRule
{
    public override RuleCard Card { get; } = new(new("time.short"),
        "a plan that gives a task less time than it is known to take",
        "the length of each activity against the scenario's time for it; steps against their likely time",
        "the scenario's own times, each with its source",
        Guard.Expansion("each activity gets the scenario's own time"));
}

/// <summary>Nobody and nothing is in two activities at once; nobody outside is in none.</summary>
internal sealed class TimeTwice : Rule
{
    public override RuleCard Card { get; } = new(new("time.twice"),
        "a person, thing or console that is planned for two things at once, and a person outside for whom nothing is planned",
        "the activities of each person, of each thing handled, and of each console, laid one after another",
        RuleCard.NoFigure,
        Guard.Expansion("each list is walked one entry after another, and gaps are filled with waits"));

    public override IEnumerable<Finding> Find(Case given)
    {
        IEnumerable<(string Who, Activity Activity)> takes = given.Timeline.Activities.SelectMany(activity =>
            activity.People.Distinct().Select(person => (person.Value, activity)).Concat(Others(activity).Select(other => (other, activity))));
        foreach (IGrouping<string, Activity> own in takes.GroupBy(pair => pair.Who, pair => pair.Activity).OrderBy(own => own.Key, StringComparer.Ordinal))
        {
            Activity? longest = null;
            foreach (Activity activity in own.OrderBy(one => one.Start).ThenBy(one => one.Id.Value, StringComparer.Ordinal))
            {
                if (longest is not null && activity.Start < longest.End)
                    yield return Broken(given, activity.Start, activity.People,
                        $"{own.Key} is in {longest.Id} until {longest.End}, and in {activity.Id} from {activity.Start}.",
                        $"Start {activity.Id} at {longest.End} or later.", activity.Id);
                if (longest is null || activity.End > longest.End) longest = activity;
            }
        }
        foreach (PersonId person in given.People)
        {
            var planned = Intervals.Join(given.Timeline.Activities.Where(one => one.Has(person)).Select(one => new PetInterval(one.Start, one.End)));
            foreach (PetInterval gap in Intervals.Without(given.Outside(person), planned))
                yield return Broken(given, gap.From, [person],
                    $"{person} is outside until {gap.To} with nothing planned for {gap.To.Since(gap.From)}.",
                    $"Plan a wait for {person}, or close the gap.");
        }
    }

    /// <summary>The things and consoles that an activity takes up, in words.</summary>
    private static IEnumerable<string> Others(Activity activity) => activity switch
    {
        Take take => [take.Gear.Value],
        Put put => [put.Gear.Value],
        Give give => [give.Gear.Value],
        Plug plug => [plug.Gear.Value],
        Unplug unplug => [unplug.Gear.Value],
        SendCommand send => [$"console {send.Console}"],
        _ => [],
    };
}
