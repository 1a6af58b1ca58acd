using System.Collections.Immutable;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The pages of one person outside: every activity in order, and with each all that the person must know then.</summary>
internal static class PersonChapter
{
    public static Chapter Of(BriefedPlan plan, Person person)
    {
        Wording words = plan.Words;
        return new(words.Say("person.title", person.Id, person.Name),
        [
            new Paragraph(words.Say("person.facts", person.Suit is null ? "–" : plan.Trace.CutOffs.Where(cut => cut.Person == person.Id).Select(cut => words.Say("person.cutoff", cut.At, cut.Binds)).FirstOrDefault("–"),
                string.Join(", ", person.TrainedFor.DefaultIfEmpty("–")), string.Join(", ", person.Reels.Select(reel => FormattableString.Invariant($"{reel:0.#} m")).DefaultIfEmpty("–")))),
            new Paragraph(words["person.key"], Setting.Small),
            Lines(plan, person),
            .. OtherBranch.Blocks(plan, branch => Lines(branch, person)),
        ])
        { Wide = true };
    }

    private static Table Lines(BriefedPlan plan, Person person)
    {
        Wording words = plan.Words;
        ImmutableArray<Row>.Builder rows = ImmutableArray.CreateBuilder<Row>();
        LegId? leg = null;
        foreach (Activity activity in plan.Of(person.Id).OrderBy(activity => activity.Start))
        {
            if (activity is DoStep step && step.Leg != leg) rows.Add(Head(plan, step.Leg));
            bool isBetween = activity is not DoStep && leg is not null;
            leg = (activity as DoStep)?.Leg;
            rows.Add(Line(plan, person.Id, activity) with { EndsBand = isBetween });
        }
        return new(
        [
            new(words["col.pet"], 46), new(words["col.do"], 162), new(words["col.where"], 92), new(words["col.tether"], 84), new(words["col.suit"], 92), new(words["col.others"], 92),
            new(words["col.mind"], 92), new(words["col.leave"], 146),
        ], rows.ToImmutable());
    }

    private static Row Head(BriefedPlan plan, LegId id)
    {
        (Leg leg, Job job, Site site) = (plan.Leg(id), plan.Job(id), plan.Site(id));
        string what = plan.Words.Say("leg.head", id, leg.Title, site.Title, site.Grip?.Value ?? $"{site.Arm} {site.Pose}");
        return Row.Band(Phrase.Strong(what), plan.Words.Say("leg.for", job.For) + (job.Hazard.Length > 0 ? " " + plan.Words.Say("leg.hazard", job.Hazard) : ""));
    }

    private static Row Line(BriefedPlan plan, PersonId person, Activity activity)
    {
        Wording words = plan.Words;
        // Whoever walks is told where that ends.
        Pet shown = activity is Translate ? activity.End : activity.Start;
        return Row.Of(
            new Cell([Phrase.Strong(activity.Start.ToString()), activity.Length.ToString()]),
            new Cell([.. Doing(plan, person, activity)]),
            new Cell([plan.Place(person, shown), plan.IsInside(person, shown) ? "" : plan.Footing(person, shown)]),
            plan.Tether(person, shown),
            new Cell([.. plan.OnSuit(person, activity.Start).Select(one => new Phrase(one)).DefaultIfEmpty("–")]),
            new Cell([.. plan.Others(person, activity.Start).Select(one => new Phrase(one)).DefaultIfEmpty("–")]),
            new Cell([.. Mind(plan, person, activity).Distinct()]),
            new Cell([.. Leave(plan, person, activity)]));
    }

    private static IEnumerable<Phrase> Doing(BriefedPlan plan, PersonId person, Activity activity)
    {
        yield return new(plan.Do(activity, person), activity is DoStep ? Face.Bold : Face.Regular);
        if (activity is not DoStep told) yield break;
        Wording words = plan.Words;
        Step step = plan.Step(told);
        if (step.For.Length > 0) yield return step.For;
        foreach (GearId need in step.Needs.OfType<NeedGear>().Select(need => need.Gear).Distinct())
            yield return words.Say("step.with", plan.Gear(need), plan.Spot(need, told.Start));
        if (step.Fastener is { } bolt) yield return words.Say("step.bolt", bolt.Text);
        foreach (GearId tie in step.Ties) yield return words.Say("step.tie", plan.Gear(tie));
        foreach (MoveGear move in step.Makes.OfType<MoveGear>())
            yield return words.Say("step.moves", plan.Gear(move.Gear), plan.Spot(move.Gear, told.End));
    }

    /// <summary>What to wait for, and what to mind.</summary>
    private static IEnumerable<Phrase> Mind(BriefedPlan plan, PersonId person, Activity activity)
    {
        Wording words = plan.Words;
        foreach (Dependency after in activity.After)
        {
            Activity? before = plan.FindOrNone(after.Activity);
            // What one did oneself needs no call.
            if (before is not null && before is not SendCommand && before.People.Contains(person)) continue;
            if (before is SendCommand command && activity is DoStep doing && plan.Step(doing).Needs.OfType<NeedGo>().Any(need => need.Command == command.Command)) continue;
            yield return words.Say("mind.until", after.Why);
        }
        if (activity is DoStep told)
        {
            (Step step, Leg leg) = (plan.Step(told), plan.Leg(told.Leg));
            foreach (NeedGo go in step.Needs.OfType<NeedGo>()) yield return Phrase.Strong(words.Say("mind.go", go.Command));
            foreach (NeedDead dead in step.Needs.OfType<NeedDead>()) yield return Phrase.Strong(words.Say("mind.dead", dead.Node, dead.Inhibits));
            if (leg.Together.Length > 0 && step == leg.Steps[0]) yield return Phrase.Strong(words["mind.together"]);
            if (step.Led) yield return words["mind.led"];
            if (step.Fluid is { Opens: true } fluid) yield return Phrase.Strong(words.Say("mind.opens", fluid.Line));
            if (step.Fluid is { Tests.IsEmpty: false }) yield return words["mind.test"];
            if (leg.Light is { } light) yield return words[light == LightCondition.Day ? "mind.day" : "mind.night"];
            if (leg.NeedsLink) yield return words["mind.link"];
            foreach (string edge in leg.Minds) yield return words.Say("mind.edge", edge);
            if (step.Rough) yield return words["mind.rough"];
            if (plan.State($"site {leg.Site} light", told.Start) == "glare") yield return words["mind.glare"];
        }
        foreach (Finding finding in plan.FindingsOf(activity, person).Where(one => one.Severity != Severity.Note))
            yield return Phrase.Strong(words.Say(finding.Severity == Severity.Broken ? "mind.broken" : "mind.near", finding.Rule));
    }

    /// <summary>How the activity is left, what that leaves behind, and how far it is home.</summary>
    private static IEnumerable<Phrase> Leave(BriefedPlan plan, PersonId person, Activity activity)
    {
        Wording words = plan.Words;
        if (plan.Rung(activity.Id) is { } rung)
        {
            string abort = Left(rung.Abort), terminate = Left(rung.Terminate);
            if (abort == terminate) yield return words.Say("leave.both", rung.Abort.Time, rung.Terminate.Time) + abort;
            else
            {
                yield return words.Say("leave.abort", rung.Abort.Time) + abort;
                yield return words.Say("leave.terminate", rung.Terminate.Time) + terminate;
            }
            if (!rung.Off.IsEmpty) yield return words.Say("leave.off", string.Join(", ", rung.Off));
        }
        if (plan.Curve(ReturnKind.One, person) is { } curve && BriefedPlan.LongestReturn(curve, activity.Start, activity.End) is > 0 and { } longest)
        {
            yield return longest >= ReturnPoint.NoWaySeconds ? Phrase.Strong(words["leave.nowayhome"]) : words.Say("leave.home", BriefedPlan.MinutesUp(longest));
            if (plan.Curve(ReturnKind.Armless, person) is { } armless && BriefedPlan.LongestReturn(armless, activity.Start, activity.End) is { } climbing && climbing > longest)
                yield return climbing >= ReturnPoint.NoWaySeconds ? Phrase.Strong(words["leave.nowaydown"]) : words.Say("leave.armless", BriefedPlan.MinutesUp(climbing));
        }
    }

    private static string Left(WayOut way)
    {
        string[] left = [.. way.Leaves.Select(one => $"{one.Feature} {one.State}{(way.Unsafe.Contains(one.Feature) ? " (!)" : "")}"), .. way.Things.Select(thing => $"{thing} (!)")];
        return left.Length == 0 ? "" : ": " + string.Join(", ", left);
    }
}
