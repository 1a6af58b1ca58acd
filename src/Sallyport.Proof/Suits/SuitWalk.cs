using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>What a person's suit goes through in a plan: exertion and state, stretch by stretch, from the suit being closed to the start of repress.</summary>
/// <param name="Profile">The person in the suit.</param>
/// <param name="Told">How the suit is used, as the scenario says.</param>
/// <param name="Use">What it uses. Water that is on outside vacuum is reckoned as off: it cools nothing, and the rule water.pressure finds it.</param>
/// <param name="RepressStart">When repress starts: the end of the person's last hatch closing, or of the plan where there is none.</param>
/// <param name="Vacuum">When the person is in vacuum.</param>
/// <param name="Water">When feedwater is on; empty when it is told to be off before it is on.</param>
public sealed record SuitWalk(
    SuitProfile Profile, SuitInUse Told, SuitUse Use, Pet RepressStart, ImmutableArray<PetInterval> Vacuum, ImmutableArray<PetInterval> Water)
{
    /// <summary>The shorter of the two windows that the load on the body is averaged over.</summary>
    public static Duration ShortWindow { get; } = Duration.FromMinutes(15);

    /// <summary>The longer one, also that of the carbon dioxide breathed in.</summary>
    public static Duration LongWindow { get; } = Duration.FromMinutes(60);

    /// <summary>What is reckoned for no suit, in words.</summary>
    public static ImmutableArray<string> NeverReckoned { get; } =
        ["what is carried makes no work harder here", "secondary oxygen is never counted", "until the start of repress everybody is taken to be on the own suit, on no umbilical of the airlock"];

    /// <summary>The class of an activity, where it is no step: what kinds of activity are on the body (common practice, no source).</summary>
    public static Exertion DefaultOf(Activity activity) => activity switch
    {
        AirlockPhase { Phase: AirlockPhaseKind.WaitInside or AirlockPhaseKind.SafeInside } or Await or Rest or ArmMove => Exertion.Rest,
        AirlockPhase { Phase: AirlockPhaseKind.Out or AirlockPhaseKind.In } or Translate => Exertion.Translate,
        Plug or Unplug or EnterRestraint or LeaveRestraint or MountArm or DismountArm => Exertion.Moderate,
        _ => Exertion.Light,
    };

    /// <summary>Everybody whose suit and body the scenario describes, in its order.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="timeline">The plan.</param>
    /// <param name="trace">What playing it gave; day, night and the hatch are read from it.</param>
    public static ImmutableArray<SuitWalk> Of(Scenario scenario, Timeline timeline, Trace trace)
    {
        if (scenario.Suits.IsEmpty || scenario.Body is null || timeline.Activities.IsEmpty) return [];
        Dictionary<(LegId, StepId), Exertion> steps = [];
        foreach (Leg leg in scenario.Legs)
            foreach (Step step in leg.Steps) steps[(leg.Id, step.Id)] = WorkRates.Of(step.Work);
        ImmutableArray<SuitWalk>.Builder walks = ImmutableArray.CreateBuilder<SuitWalk>();
        foreach (Person person in scenario.Outside)
            if (SuitProfile.Of(scenario, person.Id) is { } profile && Of(scenario, timeline, trace, profile, steps) is { } walk) walks.Add(walk);
        return walks.ToImmutable();
    }

    /// <summary>When repress starts for a person: the end of that person's last hatch closing, or of the plan where there is none.</summary>
    public static Pet RepressStartOf(Timeline timeline, Trace trace, PersonId person) => timeline.Activities
        .Where(activity => activity is AirlockPhase { Phase: AirlockPhaseKind.Close } && activity.Has(person)).Select(activity => activity.End).DefaultIfEmpty(trace.To).Max();

    private static SuitWalk? Of(Scenario scenario, Timeline timeline, Trace trace, SuitProfile profile, Dictionary<(LegId, StepId), Exertion> steps)
    {
        SuitInUse told = scenario.Suits.First(one => one.People.Contains(profile.Person));
        Activity[] own = [.. timeline.Activities.Where(activity => activity.Has(profile.Person))];
        if (own.Length == 0) return null;
        Pet repress = RepressStartOf(timeline, trace, profile.Person);
        ImmutableArray<PetInterval> vacuum = VacuumOf(scenario, trace, profile.Person, told, repress);
        Pet waterOff = repress.Plus(Duration.FromSeconds(-told.WaterOff.Seconds));
        ImmutableArray<PetInterval> water = told.WaterOn < waterOff ? [new(told.WaterOn, waterOff)] : [];
        ImmutableArray<PetInterval> lights = While(trace, "sky light", light => light != "day", repress);
        Pet[] events = [told.Purge, told.OwnOxygen, told.OwnPower, trace.From];
        Pet from = events.Append(own[0].Start).Min();
        if (from >= repress) return null;

        SortedSet<Pet> moments = [from, repress, .. events, .. own.SelectMany(activity => new[] { activity.Start, activity.End })];
        foreach (PetInterval one in vacuum.Concat(water).Concat(lights)) moments.UnionWith([one.From, one.To]);
        Pet[] cuts = [.. moments.Where(moment => moment >= from && moment <= repress)];
        Exertion[] exertions = Exertions(own, cuts, trace.From, profile, steps);
        ImmutableArray<SuitStretch>.Builder stretches = ImmutableArray.CreateBuilder<SuitStretch>(cuts.Length - 1);
        int dark = 0, empty = 0, wet = 0;
        for (int i = 0; i + 1 < cuts.Length; i++)
        {
            Pet now = cuts[i];
            bool inVacuum = Within(vacuum, ref empty, now);
            bool waterOn = Within(water, ref wet, now) && inVacuum;
            string mode = Within(lights, ref dark, now) ? SuitProfile.LightsOn : SuitProfile.LightsOff;
            stretches.Add(new(now, cuts[i + 1], exertions[i], new(now >= told.OwnOxygen, now >= told.Purge, now >= told.OwnPower, mode, waterOn, inVacuum)));
        }
        return new(profile, told, SuitUse.Over(profile, stretches.MoveToImmutable(), repress, SuitAmounts.None), repress, vacuum, water);
    }

    /// <summary>The exertion from each moment to the next. Of two activities told at once the harder counts; before the plan begins, light work.</summary>
    private static Exertion[] Exertions(Activity[] own, Pet[] cuts, Pet planFrom, SuitProfile profile, Dictionary<(LegId, StepId), Exertion> steps)
    {
        Exertion[] exertions = new Exertion[cuts.Length];
        for (int i = 0; i < cuts.Length; i++) exertions[i] = cuts[i] < planFrom ? Exertion.Light : Exertion.Rest;
        foreach (Activity activity in own)
        {
            Exertion exertion = activity is DoStep step ? steps[(step.Leg, step.Step)] : DefaultOf(activity);
            int at = Array.BinarySearch(cuts, activity.Start);
            for (int i = at < 0 ? ~at : at; i < cuts.Length && cuts[i] < activity.End; i++)
                if (Watts(exertion) > Watts(exertions[i])) exertions[i] = exertion;
        }
        return exertions;

        double Watts(Exertion exertion) => profile.Rates.Watts(exertion, Estimate.Exactly(1)).High;
    }

    /// <summary>From the airlock's vacuum, or from its hatch opening where that is earlier, until the hatch is closed again.</summary>
    private static ImmutableArray<PetInterval> VacuumOf(Scenario scenario, Trace trace, PersonId person, SuitInUse told, Pet repress)
    {
        Airlock? airlock = scenario.Station.Airlocks.FirstOrDefault(one => one.Order.Contains(person));
        ImmutableArray<PetInterval> open = airlock is null ? [] : While(trace, $"airlock {airlock.Id} hatch", hatch => hatch == "open", repress);
        if (open.IsEmpty) return told.Vacuum < repress ? [new(told.Vacuum, repress)] : [];
        return Intervals.Join(open.Append(new(told.Vacuum, open[0].To)));
    }

    /// <summary>When the state of a variable of the trace is as asked, until a moment at most.</summary>
    private static ImmutableArray<PetInterval> While(Trace trace, string name, Func<string, bool> state, Pet until)
    {
        int variable = -1;
        for (int i = 0; i < trace.Variables.Length && variable < 0; i++)
            if (trace.Variables[i].Name == name) variable = i;
        if (variable < 0) return [];
        ImmutableArray<string> states = trace.Variables[variable].States;
        List<PetInterval> found = [];
        Pet from = trace.From;
        bool holds = state(states[trace.Start[variable]]);
        foreach (Change change in trace.Changes)
        {
            if (change.Variable != variable) continue;
            if (holds) found.Add(new(from, change.At));
            (from, holds) = (change.At, state(states[change.Value]));
        }
        if (holds) found.Add(new(from, until));
        return Intervals.Join(found);
    }

    private static bool Within(ImmutableArray<PetInterval> intervals, ref int next, Pet now)
    {
        while (next < intervals.Length && intervals[next].To <= now) next++;
        return next < intervals.Length && intervals[next].From <= now;
    }
}
