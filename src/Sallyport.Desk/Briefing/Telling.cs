using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>Everything that could be told of a plan, each with its time and its weight.</summary>
internal sealed class Telling(Scenario scenario, ProvenPlan plan, WalkthroughWords words)
{
    /// <summary>What is told after it has begun is told no later than this, s, unless it goes on for longer.</summary>
    private const int Late = 180;

    /// <summary>Shorter ways, waits and rests are seen and not told, s.</summary>
    private const int ShortWay = 60, ShortWait = 180;

    private readonly WalkthroughNames names = new(scenario);
    private readonly History history = new(plan.Played[0].Trace);
    private readonly Timeline timeline = plan.Likely;

    public IEnumerable<Sentence> Sentences() =>
        Opening().Concat(timeline.Activities.SelectMany(Of)).Concat(Legs()).Concat(Together()).Concat(Light()).Concat(Choice());

    private IEnumerable<Sentence> Opening()
    {
        Pet from = plan.Played[0].Trace.From, late = Plus(from, 3600);
        yield return new(from, late, from, 1000, null, Caution.Text);
        int broken = plan.Verdict.Findings.Count(finding => finding.Severity == Severity.Broken);
        if (broken > 0) yield return new(from, late, from, 990, null, words.Say("told.draft", ("count", broken)));
        yield return new(from, late, from, 980, null, words.Say("told.open", ("title", scenario.Sortie.Title), ("end", plan.Played[0].Trace.To),
            ("people", words.List([.. scenario.Outside.Select(person => words.Say("told.person", ("name", person.Name), ("who", person.Id)))]))));
    }

    private IEnumerable<Sentence> Of(Activity activity)
    {
        switch (activity)
        {
            case AirlockPhase phase:
                if (OfPhase(phase) is { } told) yield return told;
                break;
            case Translate walk when walk.Length.Seconds >= ShortWay:
                yield return Told(walk, walk.Length.Seconds >= 2 * ShortWay ? 760 : 500, walk.Person, Way(walk));
                break;
            case SwapReel swap:
                yield return Told(swap, 540, swap.Person, swap.Onto == swap.At
                    ? words.Say("told.reelOut", ("who", swap.Person), ("place", names.Of(swap.At)))
                    : words.Say("told.reelBack", ("who", swap.Person), ("place", names.Of(swap.Onto))));
                break;
            case Take take:
                yield return Told(take, 620, take.Person, words.Say("told.take", ("who", take.Person), ("gear", names.Of(take.Gear)), ("place", names.Of(take.At))));
                break;
            case Put put:
                yield return Told(put, 600, put.Person, words.Say("told.put", ("who", put.Person), ("gear", names.Of(put.Gear)), ("place", names.Of(put.At))));
                break;
            case Give give:
                yield return Told(give, 880, give.From, words.Say("told.give", ("who", give.From), ("gear", names.Of(give.Gear)), ("other", give.To), ("place", names.Of(give.At))));
                break;
            case Plug plug:
                yield return Told(plug, 520, plug.Person, words.Say("told.plug", ("who", plug.Person), ("place", names.Of(plug.Socket))));
                break;
            case Unplug unplug:
                yield return Told(unplug, 410, unplug.Person, words.Say("told.unplug", ("who", unplug.Person), ("place", names.Of(unplug.Socket))));
                break;
            case EnterRestraint enter:
                yield return Told(enter, 510, enter.Person, words.Say("told.enter", ("who", enter.Person), ("place", names.Of(enter.Socket))));
                break;
            case LeaveRestraint leave:
                yield return Told(leave, 400, leave.Person, words.Say("told.leave", ("who", leave.Person)));
                break;
            case MountArm mount:
                yield return Told(mount, 810, mount.Person, words.Say("told.mount", ("who", mount.Person), ("arm", mount.Arm), ("place", names.Of(mount.At))));
                break;
            case ArmMove { Rider: { } rider } ride:
                yield return Told(ride, 870, rider, words.Say("told.ride", ("who", rider), ("arm", ride.Arm), ("place", names.Of(ride.Arm, ride.To))));
                break;
            case ArmMove move:
                yield return Told(move, 550, null, words.Say("told.empty", ("arm", move.Arm), ("place", names.Of(move.Arm, move.To))));
                break;
            case DismountArm dismount:
                yield return Told(dismount, 790, dismount.Person, words.Say("told.dismount", ("who", dismount.Person), ("arm", dismount.Arm), ("place", names.Of(dismount.At))));
                break;
            case DoStep { LeftBy: not null } left:
                yield return Told(left, 890, left.Person, words.Say("told.left", ("who", left.Person), ("step", names.Of(left))));
                break;
            case DoStep step:
                if (OfStep(step) is { } done) yield return done;
                break;
            case Await wait when wait.Length.Seconds >= ShortWait:
                yield return Told(wait, 420, wait.Person, words.Say("told.wait", ("who", wait.Person), ("until", wait.Until)));
                break;
            case CheckGloves check:
                yield return Told(check, 350, check.Person, words.Say("told.gloves", ("who", check.Person)));
                break;
            case Rest rest when rest.Length.Seconds >= ShortWait:
                yield return Told(rest, 300, rest.Person, words.Say("told.rest", ("who", rest.Person)));
                break;
            case SendCommand command:
                yield return Told(command, 740, null, words.Say("told.command", ("console", command.Console), ("command", command.Command)));
                if (scenario.Consoles.SelectMany(console => console.Commands).Any(known => known.Id == command.Command && known.Go is not null))
                    yield return new(command.End, Plus(command.End, Late), command.End, 730, null, words.Say("told.go", ("command", command.Command)));
                break;
        }
    }

    private Sentence? OfPhase(AirlockPhase phase)
    {
        PersonId? who = phase.Who.IsEmpty ? null : phase.Who[0];
        string people = words.List([.. phase.Who.Select(person => person.Value)]);
        return phase.Phase switch
        {
            AirlockPhaseKind.Out => Told(phase, 850, who, words.Say("told.out", ("who", people), ("airlock", phase.Airlock))),
            AirlockPhaseKind.BagsOut => Told(phase, 610, who, words.Say("told.bagsOut", ("who", people))),
            AirlockPhaseKind.Check => Told(phase, 650, null, words.Say("told.check", ("people", people))),
            AirlockPhaseKind.Inventory => Told(phase, 700, null, words.Say("told.inventory", ("people", people))),
            AirlockPhaseKind.BagsIn => Told(phase, 660, null, words.Say("told.bagsIn")),
            AirlockPhaseKind.In => Told(phase, 845, who, words.Say("told.in", ("who", people))),
            AirlockPhaseKind.Close => Told(phase, 940, null, words.Say("told.close")),
            _ => null,
        };
    }

    private Sentence? OfStep(DoStep step)
    {
        if (names.Leg(step.Leg)?.Steps.FirstOrDefault(one => one.Id == step.Step) is not { } known) return null;
        int weight = known.ChecksGloves ? 350 : 450 + known.Work switch { WorkClass.Heavy => 60, WorkClass.Moderate => 30, _ => 0 } + (known.For.Length > 0 ? 20 : 0);
        return Told(step, weight, step.Person, known.For.Length > 0
            ? words.Say("told.stepFor", ("who", step.Person), ("step", known.Title), ("for", known.For))
            : words.Say("told.step", ("who", step.Person), ("step", known.Title)));
    }

    /// <summary>Each leg as it begins; the first leg of a job tells what the job is for.</summary>
    private IEnumerable<Sentence> Legs()
    {
        HashSet<JobId> begun = [];
        foreach (IGrouping<LegId, DoStep> steps in timeline.Activities.OfType<DoStep>().GroupBy(step => step.Leg))
        {
            if (names.Leg(steps.Key) is not { } leg || scenario.Jobs.FirstOrDefault(job => job.Id == leg.Job) is not { } job) continue;
            DoStep first = steps.First();
            Pet end = steps.Max(step => step.End);
            string place = names.PlaceOf(scenario, leg);
            bool opens = begun.Add(job.Id);
            string text = !opens ? words.Say("told.leg", ("who", first.Person), ("place", place), ("leg", leg.Title))
                : job.For.Length > 0 ? words.Say("told.job", ("who", first.Person), ("place", place), ("job", job.Title), ("for", job.For))
                : words.Say("told.jobPlain", ("who", first.Person), ("place", place), ("job", job.Title));
            int weight = !opens ? 780 : job.Worth switch { Worth.Must => 900, Worth.Should => 860, _ => 820 };
            yield return new(first.Start, end, end, weight, first.Person, text);
        }
    }

    private IEnumerable<Sentence> Together()
    {
        foreach (IGrouping<(JobId, string), Leg> group in scenario.Legs.Where(leg => leg.Together.Length > 0).GroupBy(leg => (leg.Job, leg.Together)))
        {
            DoStep[] first = [.. group.Select(leg => timeline.Activities.OfType<DoStep>().FirstOrDefault(step => step.Leg == leg.Id)).OfType<DoStep>()];
            if (first.Length < 2) continue;
            yield return new(first[0].Start, Plus(first[0].Start, Late), first[0].End, 910, null, words.Say("told.together",
                ("people", words.List([.. first.Select(step => step.Person.Value)])), ("legs", words.List([.. first.Select(step => names.Leg(step.Leg)!.Title)]))));
        }
    }

    private IEnumerable<Sentence> Light()
    {
        IReadOnlyList<(Pet At, string State, int, ActivityId?)> light = history.Of("sky light");
        for (int i = 1; i < light.Count; i++)
        {
            if (light[i].State is not ("day" or "night")) continue;
            Pet until = i + 1 < light.Count ? light[i + 1].At : plan.Played[0].Trace.To;
            yield return new(light[i].At, Plus(light[i].At, Late), until, 560, null, words.Say(light[i].State == "day" ? "told.day" : "told.night", ("until", until)));
        }
    }

    private IEnumerable<Sentence> Choice()
    {
        if (plan.Outline?.Decision is not { } decision) yield break;
        DoStep[] before = [.. timeline.Activities.OfType<DoStep>().Where(step => step.Leg == decision.After)];
        string[] then = [.. timeline.Activities.OfType<DoStep>().Where(step => before.Length > 0 && step.Start >= before.Max(one => one.End))
            .Select(step => step.Leg).Distinct().Where(leg => !plan.Played.Skip(1).Any(other => other.Timeline.Activities.OfType<DoStep>().Any(step => step.Leg == leg)))
            .Select(leg => names.Leg(leg)?.Title ?? leg.Value)];
        if (then.Length == 0) yield break;
        Pet at = before.Max(step => step.End);
        yield return new(at, Plus(at, Late), at, 930, null, words.Say("told.choice", ("before", decision.IfBefore), ("then", words.List(then))));
    }

    private string Way(Translate walk)
    {
        string[] gear = [.. scenario.Outside.First(person => person.Id == walk.Person).CarryPoints
            .Select(point => history.At($"person {walk.Person} carry {point.Id}", walk.Start)).Where(state => state is not ("" or "none")).Select(thing => names.Of(new GearId(thing)))];
        string place = names.Of(walk.Spans[^1].To), with = words.List(gear);
        // The leg is named unless it begins where this way ends: then its own sentence names it.
        Activity? next = timeline.Activities.FirstOrDefault(other => other.Start >= walk.End && other.People.Contains(walk.Person));
        string? leg = walk.For is { } serves && next is not DoStep ? names.Leg(serves)?.Title : null;
        return (gear.Length, leg) switch
        {
            (0, null) => words.Say("told.walk", ("who", walk.Person), ("place", place)),
            (_, null) => words.Say("told.walkWith", ("who", walk.Person), ("place", place), ("gear", with)),
            (0, _) => words.Say("told.walkFor", ("who", walk.Person), ("place", place), ("leg", leg)),
            _ => words.Say("told.walkWithFor", ("who", walk.Person), ("place", place), ("gear", with), ("leg", leg)),
        };
    }

    /// <summary>A sentence that may begin as long as its activity goes on, but no later than is still of use.</summary>
    private static Sentence Told(Activity activity, int weight, PersonId? who, string text)
    {
        Pet late = Plus(activity.Start, Math.Max(Late, activity.Length.Seconds / 2)), last = Plus(activity.End, -1);
        return new(activity.Start, last < late ? last : late, activity.End, weight, who, text);
    }

    private static Pet Plus(Pet at, int seconds) => at.Plus(Duration.FromSeconds(seconds));
}
