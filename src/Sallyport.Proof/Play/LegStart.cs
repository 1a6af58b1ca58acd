using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>When and by whom each leg is begun, as told: legs that go together look at each other through it.</summary>
internal sealed class LegStarts
{
    private readonly Dictionary<LegId, (Pet Start, PersonId By)> starts = [];

    public LegStarts(World world, ImmutableArray<Activity> activities)
    {
        foreach (DoStep act in activities.OfType<DoStep>().OrderBy(act => act.Start))
            if (world.Lookup.Leg(act.Leg).Steps is [var first, ..] && first.Id == act.Step) starts.TryAdd(act.Leg, (act.Start, act.Person));
    }

    public (Pet Start, PersonId By)? Of(LegId leg) => starts.TryGetValue(leg, out var start) ? start : null;
}

/// <summary>What must hold when a leg begins: who does it, with what, after what, together with whom.</summary>
internal static class LegStart
{
    public static void Needs(World world, LegStarts starts, Deed deed, DoStep act, Leg leg)
    {
        Person person = world.Lookup.Person(act.Person);
        deed.Needs("person.untrained", () => leg.Who.IsEmpty || leg.Who.Contains(act.Person),
            () => $"{act.Person} begins {leg.Id}, which only {string.Join(", ", leg.Who)} may do", () => $"Give {leg.Id} to {string.Join(" or ", leg.Who)}.");
        foreach (string training in leg.Training)
            deed.Needs("person.untrained", () => person.TrainedFor.Contains(training),
                () => $"{act.Person} begins {leg.Id}, which asks for training in {training}", () => $"Give {leg.Id} to somebody trained in {training}.");
        foreach (GearId gear in leg.With)
            deed.Needs("gear.absent", () => world.IsOn(act.Person, gear),
                () => $"{act.Person} begins {leg.Id}, for which {gear} hangs on the person, but it is {world.SpotOf(gear).InWords()}",
                () => $"Let {act.Person} take {gear} first.");
        // Where everybody goes in early, a test follows what was left half done; that the bake-out is over, fluid.carried sees.
        bool early = leg.IsTest && world.Trouble is { GoesOn: GoingOn.EndsInOrder };
        foreach (Precedence before in early ? [] : leg.After) NeedsBefore(world, deed, act, leg, before);
        if (leg.Together.Length > 0) NeedsTogether(world, starts, deed, act, leg);
    }

    private static void NeedsBefore(World world, Deed deed, DoStep act, Leg leg, Precedence before)
    {
        int progress = world.Register.Legs[before.Leg];
        deed.Needs("job.order", () => world.State(progress) == "done",
            () => $"{act.Person} begins {leg.Id} before {before.Leg} is done", () => $"Finish {before.Leg} first.");
        deed.Needs("job.order", () => world.State(progress) != "done" || Lag() >= before.Least,
            () => $"{act.Person} begins {leg.Id} {Lag()} after {before.Leg}, and at least {before.Least} must lie between", () => $"Begin {leg.Id} later.",
            () => new(Lag().ToString(), before.Least.ToString(), Duration.FromSeconds(Lag().Seconds - before.Least.Seconds).ToString()));
        if (before.Most is { } most)
            deed.Needs("job.order", () => world.State(progress) != "done" || Lag() <= most,
                () => $"{act.Person} begins {leg.Id} {Lag()} after {before.Leg}, and at most {most} may lie between", () => $"Begin {leg.Id} earlier, or {before.Leg} later.",
                () => new(Lag().ToString(), most.ToString(), Duration.FromSeconds(most.Seconds - Lag().Seconds).ToString()));

        Duration Lag() => act.Start.Since(world.StepsDone[before.Leg].End);
    }

    private static void NeedsTogether(World world, LegStarts starts, Deed deed, DoStep act, Leg leg)
    {
        foreach (Leg other in world.Scenario.Legs.Where(other => other.Id != leg.Id && other.Job == leg.Job && other.Together == leg.Together))
        {
            deed.Needs("job.order", () => starts.Of(other.Id) is { } start && start.Start == act.Start,
                () => $"{act.Person} begins {leg.Id}, which starts together with {other.Id}, but that "
                    + (starts.Of(other.Id) is { } start ? $"starts at {start.Start}" : "is never begun"),
                () => $"Start {leg.Id} and {other.Id} at the same moment.");
            deed.Needs("job.order", () => starts.Of(other.Id) is not { } start || start.By != act.Person,
                () => $"{act.Person} begins both {leg.Id} and {other.Id}, which two different people do together", () => "Give one of them to somebody else.");
        }
    }
}
