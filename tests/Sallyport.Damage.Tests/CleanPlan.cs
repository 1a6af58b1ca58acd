using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Planning;
using Sallyport.Proof;

namespace Sallyport.Tests.Damage;

/// <summary>A plan that plays clean, with ways to change it. Every change gives a new timeline; the plan itself stays.</summary>
internal sealed class CleanPlan
{
    private const string PlanId = "clean";

    public CleanPlan(string name, Scenario scenario, Expander expander, Outline outline)
    {
        Name = name;
        Scenario = scenario;
        Outline = outline;
        Expander = expander;
        Timeline = Expand(outline) ?? throw new InvalidOperationException($"{name} does not expand");
        Trace = Player.Play(scenario, Timeline);
        History = new(Trace);
        Legs = scenario.Legs.ToDictionary(leg => leg.Id);
        Done = [.. Timeline.Activities.OfType<DoStep>().Select(step => step.Leg).Distinct()];
    }

    public string Name { get; }

    public Scenario Scenario { get; }

    public Outline Outline { get; }

    public Timeline Timeline { get; }

    public Trace Trace { get; }

    public History History { get; }

    public IReadOnlyDictionary<LegId, Leg> Legs { get; }

    /// <summary>The legs that the plan does, in order of their start.</summary>
    public ImmutableArray<LegId> Done { get; }

    private Expander Expander { get; }

    public ImmutableArray<PersonId> Outside => [.. Scenario.Outside.Select(person => person.Id)];

    public Timeline? Expand(Outline outline) => Expander.Expand(outline, Branch.Likely, PlanId).Timeline;

    public Verdict Judge(Damaged damaged) =>
        Proof.Judge.Of(damaged.Scenario, [(damaged.Timeline, Player.Play(damaged.Scenario, damaged.Timeline))], damaged.GoOn);

    public IEnumerable<T> All<T>() where T : Activity => Timeline.Activities.OfType<T>();

    public ImmutableArray<DoStep> StepsOf(LegId leg) => [.. All<DoStep>().Where(step => step.Leg == leg)];

    public IEnumerable<Activity> Of(PersonId person) => Timeline.Activities.Where(activity => activity.People.Contains(person));

    public Step Step(DoStep act) => Legs[act.Leg].Steps.Single(step => step.Id == act.Step);

    /// <summary>Where a person is when something starts.</summary>
    public string PlaceOf(PersonId person, Pet at) => History.StateAt(History[$"person {person} place"], at);

    // The timeline changed.

    public Damaged With(Func<Activity, IEnumerable<Activity>> change) => new(Scenario, Timeline with { Activities = InOrder(Timeline.Activities.SelectMany(change)) });

    public Damaged Instead(Activity old, params Activity[] others) => With(activity => activity == old ? others : [activity]);

    public Damaged Add(params Activity[] others) => new(Scenario, Timeline with { Activities = InOrder(Timeline.Activities.Concat(others)) });

    /// <summary>A person waits instead of what was planned; nobody waits instead of what nobody takes part in.</summary>
    public Damaged Skip(params Activity[] skipped) =>
        With(activity => !skipped.Contains(activity) ? [activity] : activity.People.Distinct().Select(person => Wait(activity, person)));

    public static Await Wait(Activity instead, PersonId person) => new()
    {
        Id = new($"{instead.Id}-wait-{person}"),
        Start = instead.Start,
        End = instead.End,
        Person = person,
        Until = "it is over",
    };

    /// <summary>From a moment on all is later, and what goes on at that moment takes longer.</summary>
    public Damaged Hold(Pet from, int seconds, params Activity[] meanwhile)
    {
        Duration by = Duration.FromSeconds(seconds);
        return new(Scenario, Timeline with
        {
            Activities = InOrder(Timeline.Activities.Select(activity =>
                activity.Start >= from ? activity with { Start = activity.Start.Plus(by), End = activity.End.Plus(by) }
                : activity.End > from ? activity with { End = activity.End.Plus(by) }
                : activity).Concat(meanwhile)),
        });
    }

    public Damaged Move(Activity activity, Pet to) => Instead(activity, activity with { Start = to, End = to.Plus(activity.Length) });

    // The world changed.

    public Damaged InWorld(Func<Scenario, Scenario> change) => new(change(Scenario), Timeline);

    public Damaged WithStation(Func<Station, Station> change) => InWorld(scenario => scenario with { Station = change(scenario.Station) });

    public Damaged WithGear(GearId gear, Func<Gear, Gear> change) => InWorld(scenario => scenario with { Gear = Each(scenario.Gear, one => one.Id == gear, change) });

    public Damaged WithPerson(PersonId person, Func<Person, Person> change) =>
        InWorld(scenario => scenario with { People = Each(scenario.People, one => one.Id == person, change) });

    public Damaged WithLeg(LegId leg, Func<Leg, Leg> change) => InWorld(scenario => scenario with
    {
        Jobs = Each(scenario.Jobs, job => job.Legs.Any(one => one.Id == leg), job => job with { Legs = Each(job.Legs, one => one.Id == leg, change) }),
    });

    public static ImmutableArray<T> Each<T>(ImmutableArray<T> all, Func<T, bool> which, Func<T, T> change) => [.. all.Select(one => which(one) ? change(one) : one)];

    private static ImmutableArray<Activity> InOrder(IEnumerable<Activity> activities) =>
        [.. activities.OrderBy(activity => activity.Start).ThenBy(activity => activity.Id.Value, StringComparer.Ordinal)];
}
