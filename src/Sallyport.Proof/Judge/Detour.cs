using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Holds a timeline told for a contingency against the plan: that it is the plan until then, and that the trouble is really in it.</summary>
internal static class Detour
{
    /// <summary>What is wrong with it, in words; null when it is what was asked for.</summary>
    public static string? Differs(Scenario scenario, Timeline planned, Timeline told, Trouble trouble)
    {
        if (told.Trouble != trouble || told.Branch != planned.Branch || told.PlanId != planned.PlanId) return "it follows something else";
        HashSet<string> was = Before(planned, trouble.From), now = Before(told, trouble.From);
        if (was.Except(now).FirstOrDefault() is { } forgotten) return $"before {trouble.From} it forgets \"{forgotten}\"";
        if (now.Except(was).FirstOrDefault() is { } invented) return $"before {trouble.From} it invents \"{invented}\"";
        bool ends = trouble.GoesOn == GoingOn.EndsInOrder;
        foreach (DoStep step in told.Activities.OfType<DoStep>())
        {
            bool itself = step.Leg == trouble.Leg && step.Step == trouble.Step;
            if (!ends && step.LeftBy is not null) return $"it leaves {step.Id} before it is done";
            // Whoever was soiled is tested before going in, also early.
            bool test = !itself && scenario.Legs.Any(leg => leg.Id == step.Leg && leg.IsTest);
            if (ends && !test && (itself || step.End > trouble.From) && step.LeftBy is null) return $"it goes on with {step.Id}";
        }
        if (!told.Activities.OfType<DoStep>().Any(step => step.Leg == trouble.Leg && step.Step == trouble.Step)) return $"step {trouble.Step} of {trouble.Leg} is not in it";
        if (ends) return null;
        // Going on may cost what is not a must: that is told as its price.
        HashSet<LegId> does = [.. told.Activities.OfType<DoStep>().Select(step => step.Leg)], did = [.. planned.Activities.OfType<DoStep>().Select(step => step.Leg)];
        if (scenario.Jobs.FirstOrDefault(job => job.Worth == Worth.Must && job.Legs.Any(leg => did.Contains(leg.Id) && !does.Contains(leg.Id))) is { } missing)
            return $"it leaves out {missing.Id}, a must-job of the plan";
        DoStep before = Find(planned), after = Find(told);
        return after.Length >= before.Length.Plus(trouble.Extra) ? null : $"step {trouble.Step} of {trouble.Leg} takes {after.Length}";

        DoStep Find(Timeline timeline) => timeline.Activities.OfType<DoStep>().First(step => step.Leg == trouble.Leg && step.Step == trouble.Step);
    }

    /// <summary>Whether a thing is at hand for a step at the moment its trouble is known: on the person, hooked or installed at the
    /// worksite, or in a bag that is.</summary>
    public static bool IsAtHand(Scenario scenario, History history, DoStep step, GearId tool)
    {
        string spot = SpotOf(tool);
        for (int depth = 0; spot.StartsWith("bag ", StringComparison.Ordinal) && depth < scenario.Gear.Length; depth++) spot = SpotOf(new(spot["bag ".Length..]));
        Site site = scenario.Station.Sites.First(one => one.Id == scenario.Legs.First(leg => leg.Id == step.Leg).Site);
        return spot == $"hands {step.Person}" || spot.StartsWith($"person {step.Person} ", StringComparison.Ordinal) || spot == $"site {site.Id}" || spot == $"grip {site.Grip}";

        // What happens in the very second in which the step ends comes too late for it.
        string SpotOf(GearId gear) => history.StateAt(history[$"gear {gear} place"], Pet.FromSeconds(step.End.Seconds - 1));
    }

    /// <summary>All that has begun before a moment, each as one text. How long a wait or a step that goes on then will last is not part of it.</summary>
    private static HashSet<string> Before(Timeline timeline, Pet moment) =>
        [.. timeline.Activities.Where(activity => activity.Start < moment).Select(activity => Told(activity, moment))];

    /// <summary>All that somebody or something does by an activity as far as it has come, as one text: what it is shown to wait for, its name and
    /// the words of a wait are no deeds.</summary>
    /// <exception cref="ArgumentException">A kind of activity that nobody taught this to compare.</exception>
    internal static string Told(Activity activity, Pet moment)
    {
        Pet end = activity.End < moment ? activity.End : moment;
        string what = activity switch
        {
            // How a step that goes on is left is told later than this.
            DoStep step => $"{step.Leg} {step.Step} {(step.End <= moment ? step.LeftBy : null)}",
            SendCommand send => $"{send.Console} {send.Command}",
            Translate walk => string.Join(' ', walk.Spans.Select(span => $"{span.From} {span.To} {span.Time}")),
            SwapReel swap => $"{swap.At} {swap.Onto} {Hooks(swap.Hooks)}",
            Take take => $"{take.Gear} {take.At} {take.Carry}",
            Put put => $"{put.Gear} {put.At}",
            Give give => $"{give.Gear} {give.From} {give.To} {give.At} {give.Carry}",
            Plug plug => $"{plug.Gear} {plug.Socket} {plug.Setting}",
            Unplug unplug => $"{unplug.Gear} {unplug.Socket} {unplug.Carry}",
            EnterRestraint enter => $"{enter.Socket}",
            LeaveRestraint leave => $"{leave.Socket}",
            MountArm mount => $"{mount.Arm} {mount.At} {Hooks(mount.Hooks)}",
            ArmMove move => $"{move.Arm} {move.From} {move.To} {move.Rider} {(move.BrakesSet ? "brakes" : "")}",
            DismountArm dismount => $"{dismount.Arm} {dismount.At} {Hooks(dismount.Hooks)}",
            AirlockPhase phase => $"{phase.Airlock} {phase.Phase}",
            Await or CheckGloves or Rest => "",
            _ => throw new ArgumentException($"a way on cannot be held against the plan: it has an activity of the unknown kind {activity.GetType().Name}", nameof(activity)),
        };
        // The leg that something is done for counts: whoever serves one that minds an edge was told of it. A wait serves what comes after it.
        return $"{activity.GetType().Name} {string.Join(' ', activity.People)} {(activity is Await ? null : activity.For)} {what} {activity.Start}-{end}";
    }

    private static string Hooks(HookMoves? hooks) => hooks is null ? "" : $"on {hooks.On} off {hooks.Off}";
}
