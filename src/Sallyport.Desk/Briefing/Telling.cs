using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Everything that could be told of a plan, each with its time and its weight.</summary>
internal sealed class Telling(BriefedPlan plan)
{
    /// <summary>What is told after it has begun is told no later than this, s, unless it goes on for longer.</summary>
    private const int Late = 180;

    /// <summary>Shorter ways, waits and rests are seen and not told, s.</summary>
    private const int ShortWay = 60, ShortWait = 180;

    private readonly Scenario scenario = plan.Scenario;
    private readonly Wording words = plan.Words;
    private readonly PlaceNames names = new(plan.Scenario);
    private readonly Timeline timeline = plan.Timeline;

    public IEnumerable<Sentence> Sentences() =>
        Opening().Concat(timeline.Activities.SelectMany(Of)).Concat(Legs()).Concat(Together()).Concat(Light()).Concat(Choice());

    private IEnumerable<Sentence> Opening()
    {
        Pet from = plan.Trace.From, late = Plus(from, 3600);
        yield return new(from, late, from, 1000, null, Caution.Text);
        int broken = plan.Plan.Verdict.Findings.Count(finding => finding.Severity == Severity.Broken);
        if (broken > 0) yield return new(from, late, from, 990, null, words.Say("told.draft", broken));
        string people = words.List([.. scenario.Outside.Select(person => words.Say("told.person", person.Name, person.Id))]);
        // While this is said the first is out already.
        bool oneFirst = timeline.Activities.OfType<AirlockPhase>().FirstOrDefault(phase => phase.Phase == AirlockPhaseKind.Out) is { Who.Length: 1 } && scenario.Outside.Count() > 1;
        yield return new(from, late, from, 980, null, oneFirst
            ? words.Say("told.openfirst", scenario.Sortie.Title, plan.Trace.To, people, timeline.Activities.OfType<AirlockPhase>().First(phase => phase.Phase == AirlockPhaseKind.Out).Who[0])
            : words.Say("told.open", scenario.Sortie.Title, plan.Trace.To, people));
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
                    ? words.Say("told.reelout", swap.Person, names.Of(swap.At))
                    : words.Say("told.reelback", swap.Person, names.Of(swap.Onto)));
                break;
            case Take take:
                yield return Told(take, 620, take.Person, words.Say("told.take", take.Person, plan.Gear(take.Gear), names.Of(take.At)));
                break;
            case Put put:
                yield return Told(put, 600, put.Person, words.Say("told.put", put.Person, plan.Gear(put.Gear), names.Of(put.At)));
                break;
            case Give give:
                yield return Told(give, 880, give.From, words.Say("told.give", give.From, plan.Gear(give.Gear), give.To, names.Of(give.At)));
                break;
            case Plug plug:
                yield return Told(plug, 520, plug.Person, words.Say("told.plug", plug.Person, names.Of(plug.Socket)));
                break;
            case Unplug unplug:
                yield return Told(unplug, 410, unplug.Person, words.Say("told.unplug", unplug.Person, names.Of(unplug.Socket)));
                break;
            case EnterRestraint enter:
                yield return Told(enter, 510, enter.Person, words.Say("told.enter", enter.Person, names.Of(enter.Socket)));
                break;
            case LeaveRestraint leave:
                yield return Told(leave, 400, leave.Person, words.Say("told.leave", leave.Person));
                break;
            case MountArm mount:
                yield return Told(mount, 810, mount.Person, words.Say("told.mount", mount.Person, mount.Arm, names.Of(mount.At)));
                break;
            case ArmMove { Rider: { } rider } ride:
                yield return Told(ride, 870, rider, words.Say("told.ride", rider, ride.Arm, names.Of(ride.Arm, ride.To)));
                break;
            case ArmMove move:
                yield return Told(move, 550, null, words.Say("told.empty", move.Arm, names.Of(move.Arm, move.To)));
                break;
            case DismountArm dismount:
                yield return Told(dismount, 790, dismount.Person, words.Say("told.dismount", dismount.Person, dismount.Arm, names.Of(dismount.At)));
                break;
            case DoStep { LeftBy: not null } left:
                yield return Told(left, 890, left.Person, words.Say("told.left", left.Person, plan.Step(left).Title));
                break;
            case DoStep step:
                yield return OfStep(step);
                break;
            case Await wait when wait.Length.Seconds >= ShortWait:
                yield return Told(wait, 420, wait.Person, words.Say("told.wait", wait.Person, InTitles(wait.Until)));
                break;
            case CheckGloves check:
                yield return Told(check, 350, check.Person, words.Say("told.gloves", check.Person));
                break;
            case Rest rest when rest.Length.Seconds >= ShortWait:
                yield return Told(rest, 300, rest.Person, words.Say("told.rest", rest.Person));
                break;
            case SendCommand command:
                yield return Told(command, 740, null, words.Say("told.command", command.Console, command.Command));
                if (scenario.Consoles.SelectMany(console => console.Commands).Any(known => known.Id == command.Command && known.Go is not null))
                    yield return new(command.End, Plus(command.End, Late), command.End, 730, null, words.Say("told.go", command.Command));
                break;
        }
    }

    private Sentence? OfPhase(AirlockPhase phase)
    {
        PersonId? who = phase.Who.IsEmpty ? null : phase.Who[0];
        string people = words.List([.. phase.Who.Select(person => person.Value)]);
        return phase.Phase switch
        {
            AirlockPhaseKind.Out => Told(phase, 850, who, words.Say("told.out", people, phase.Airlock)),
            AirlockPhaseKind.BagsOut => Told(phase, 610, who, words.Say("told.bagsout", people)),
            AirlockPhaseKind.Check => Told(phase, 650, null, words.Say("told.check", people)),
            AirlockPhaseKind.Inventory => Told(phase, 700, null, words.Say("told.inventory", people)),
            AirlockPhaseKind.BagsIn => Told(phase, 660, null, words.Say("told.bagsin")),
            AirlockPhaseKind.In => Told(phase, 845, who, words.Say("told.in", people)),
            AirlockPhaseKind.Close => Told(phase, 940, null, words.Say("told.close")),
            _ => null,
        };
    }

    private Sentence OfStep(DoStep step)
    {
        Step known = plan.Step(step);
        int weight = known.ChecksGloves ? 350 : 450 + known.Work switch { WorkClass.Heavy => 60, WorkClass.Moderate => 30, _ => 0 } + (known.For.Length > 0 ? 20 : 0);
        return Told(step, weight, step.Person, known.For.Length > 0
            ? words.Say("told.stepfor", step.Person, known.Title, known.For)
            : words.Say("told.step", step.Person, known.Title));
    }

    /// <summary>Each leg as it begins; the first leg of a job tells what the job is for.</summary>
    private IEnumerable<Sentence> Legs()
    {
        HashSet<JobId> begun = [];
        HashSet<LegId> toldTogether = [.. BegunTogether().SelectMany(first => first).Select(step => step.Leg)];
        foreach (IGrouping<LegId, DoStep> steps in timeline.Activities.OfType<DoStep>().GroupBy(step => step.Leg))
        {
            (Leg leg, Job job) = (plan.Leg(steps.Key), plan.Job(steps.Key));
            DoStep first = steps.First();
            Pet end = steps.Max(step => step.End);
            string place = plan.Site(leg.Id).Title;
            bool opens = begun.Add(job.Id);
            if (!opens && toldTogether.Contains(leg.Id)) continue;
            bool namesPlace = leg.Title.Contains(place, StringComparison.OrdinalIgnoreCase);
            string text = !opens ? namesPlace ? words.Say("told.leghere", first.Person, leg.Title) : words.Say("told.leg", first.Person, place, leg.Title)
                : job.For.Length > 0 ? words.Say("told.job", first.Person, place, job.Title, job.For)
                : words.Say("told.jobplain", first.Person, place, job.Title);
            int weight = !opens ? 780 : job.Worth switch { Worth.Must => 900, Worth.Should => 860, _ => 820 };
            yield return new(first.Start, end, end, weight, first.Person, text);
        }
    }

    private IEnumerable<Sentence> Together()
    {
        foreach (DoStep[] first in BegunTogether())
            yield return new(first[0].Start, Plus(first[0].Start, Late), first[0].End, 910, null, words.Say("told.together",
                words.List([.. first.Select(step => step.Person.Value)]), string.Join(' ', first.Select(step => words.Say("told.part", step.Person, plan.Leg(step.Leg).Title)))));
    }

    /// <summary>The first steps of legs that begin in the same second.</summary>
    private IEnumerable<DoStep[]> BegunTogether() => scenario.Legs.Where(leg => leg.Together.Length > 0).GroupBy(leg => (leg.Job, leg.Together))
        .Select(group => group.Select(leg => timeline.Activities.OfType<DoStep>().FirstOrDefault(step => step.Leg == leg.Id)).OfType<DoStep>().ToArray()).Where(first => first.Length > 1);

    /// <summary>A reason as expansion words it, with the titles of legs in the place of their ids.</summary>
    private string InTitles(string reason) =>
        string.Join(' ', reason.Split(' ').Select(word => scenario.Legs.FirstOrDefault(leg => leg.Id.Value == word) is { } leg ? words.Say("told.quoted", leg.Title) : word));

    private IEnumerable<Sentence> Light()
    {
        IReadOnlyList<(Pet At, string State, int, ActivityId?)> light = plan.History.Of("sky light");
        for (int i = 1; i < light.Count; i++)
        {
            if (light[i].State is not ("day" or "night")) continue;
            Pet until = i + 1 < light.Count ? light[i + 1].At : plan.Trace.To;
            yield return new(light[i].At, Plus(light[i].At, Late), until, 560, null, Words(light[i].State == "day", until));
        }
    }

    /// <summary>The end of the walk is no sunset and no sunrise.</summary>
    private string Words(bool isDay, Pet until) =>
        until < plan.Trace.To ? words.Say(isDay ? "told.day" : "told.night", until) : words[isDay ? "told.daytoend" : "told.nighttoend"];

    /// <summary>The decision as it is taken: which legs follow on this branch alone, or are left out on it.</summary>
    private IEnumerable<Sentence> Choice()
    {
        if (plan.DecisionTaken is not { } taken || plan.Plan.Played.Length < 2) yield break;
        LegId[] likely = LegsOf(plan.Plan.Played[0].Timeline), other = LegsOf(plan.Plan.Played[1].Timeline);
        string[] then = [.. likely.Except(other).Select(leg => words.Say("told.quoted", plan.Leg(leg).Title))];
        if (then.Length == 0) yield break;
        yield return new(taken.At, Plus(taken.At, Late), taken.At, 930, null, words.Say(timeline.Branch == Branch.Likely ? "told.choice" : "told.choiceother", taken.Decision.IfBefore, words.List(then)));

        static LegId[] LegsOf(Timeline timeline) => [.. timeline.Activities.OfType<DoStep>().Select(step => step.Leg).Distinct()];
    }

    private string Way(Translate walk)
    {
        string[] gear = [.. scenario.Outside.First(person => person.Id == walk.Person).CarryPoints
            .Select(point => plan.State($"person {walk.Person} carry {point.Id}", walk.Start)).Where(state => state is not (null or "none")).Select(thing => plan.Gear(new(thing!)))];
        string place = names.Of(walk.Spans[^1].To), with = words.List(gear);
        // The leg is named unless it begins where this way ends: then its own sentence names it.
        Activity? next = timeline.Activities.FirstOrDefault(other => other.Start >= walk.End && other.People.Contains(walk.Person));
        string? leg = walk.For is { } serves && next is not DoStep ? plan.Leg(serves).Title : null;
        return (gear.Length, leg) switch
        {
            (0, null) => words.Say("told.walk", walk.Person, place),
            (_, null) => words.Say("told.walkwith", walk.Person, place, with),
            (0, _) => words.Say("told.walkfor", walk.Person, place, leg),
            _ => words.Say("told.walkwithfor", walk.Person, place, with, leg),
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
