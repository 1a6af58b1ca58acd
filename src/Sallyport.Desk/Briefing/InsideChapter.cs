using System.Collections.Immutable;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The pages of who leads from inside (IV): everybody outside, arms, ground and what is said, side by side by time.</summary>
internal static class InsideChapter
{
    public static Chapter Of(BriefedPlan plan)
    {
        Wording words = plan.Words;
        return new(words["inside.title"], [new Paragraph(words["inside.about"], Setting.Small), SideBySide(plan), .. OtherBranch.Blocks(plan, SideBySide)]) { Wide = true };
    }

    private static Table SideBySide(BriefedPlan plan)
    {
        Wording words = plan.Words;
        // Columns for whatever moves or is sent on either branch, so that the two can be held side by side.
        Activity[] all = [.. plan.Plan.Played.SelectMany(one => one.Timeline.Activities)];
        List<(Column Column, ILookup<Pet, Phrase> Lines)> columns =
        [
            .. plan.People.Select(person => (new Column($"{person.Id} · {person.Name}", 23), plan.Of(person.Id).SelectMany(activity => Lines(plan, person.Id, activity)).ToLookup(line => line.At, line => line.Words))),
            .. plan.Scenario.Arms.Where(arm => all.OfType<ArmMove>().Any(move => move.Arm == arm.Id)).Select(arm =>
                (new Column($"{arm.Id} · {arm.Operator}", 10), plan.Timeline.Activities.OfType<ArmMove>().Where(move => move.Arm == arm.Id)
                    .ToLookup(move => move.Start, move => new Phrase(move.Rider is { } rider ? words.Say("inside.ride", move.From, move.To, rider) : words.Say("inside.empty", move.From, move.To))))),
        ];
        ILookup<Pet, Phrase> ground = plan.Timeline.Activities.OfType<SendCommand>().ToLookup(command => command.Start, command => new Phrase($"{command.Console}: {command.Command}"));
        if (all.OfType<SendCommand>().Any()) columns.Add((new(words["col.ground"], 10), ground));
        columns.Add((new(words["col.iv"], 16), Said(plan).ToLookup(line => line.At, line => line.Words)));
        ImmutableArray<Row> rows = [.. columns.SelectMany(column => column.Lines.Select(line => line.Key)).Distinct().Order().Select(at => new Row(
            [Phrase.Strong(at.ToString()), plan.Utc(at), .. columns.Select(column => new Cell([.. column.Lines[at]]))]))];
        // Room for a time with its seconds, however many columns there are.
        double clock = columns.Sum(column => column.Column.Share) * 0.066;
        return new([new(words["col.pet"], clock), new(words["col.utc"], clock), .. columns.Select(column => column.Column)], rows);
    }

    private static IEnumerable<(Pet At, Phrase Words)> Lines(BriefedPlan plan, PersonId person, Activity activity)
    {
        if (activity is not DoStep step)
        {
            yield return (activity.Start, plan.Do(activity, person));
            yield break;
        }
        // A leg is named where it begins.
        if (plan.Leg(step.Leg).Steps[0].Id == step.Step) yield return (step.Start, Phrase.Strong($"{step.Leg} · {plan.Site(step.Leg).Title}"));
        yield return (step.Start, plan.Do(step, person));
    }

    /// <summary>What is said from inside, and what changes in the sky.</summary>
    private static IEnumerable<(Pet At, Phrase Words)> Said(BriefedPlan plan)
    {
        Wording words = plan.Words;
        foreach (DoStep step in plan.Timeline.Activities.OfType<DoStep>())
            if (plan.Step(step).Led) yield return (step.Start, words.Say("iv.lead", step.Person));
        foreach (SendCommand command in plan.Timeline.Activities.OfType<SendCommand>())
            if (plan.CommandOf(command).Go is { } go) yield return (command.End.Plus(Duration.FromSeconds(-go.Seconds)), Phrase.Strong(words.Say("iv.go", command.Command, command.End)));
        if (plan.DecisionTaken is { } taken) yield return (taken.At, Phrase.Strong(words.Say(plan.Timeline.Branch == Branch.Likely ? "iv.decide" : "iv.otherwise", taken.Decision.After, taken.Decision.IfBefore)));
        Sky sky = plan.Scenario.Sky;
        foreach ((ImmutableArray<PetInterval> times, string from, string to) in new[]
            { (sky.Night, "sky.sunset", "sky.sunrise"), (sky.NoLink, "sky.los", "sky.aos"), (sky.Radiation ?? [], "sky.radiation", "sky.radiationover"), (sky.NoVoice, "sky.novoice", "sky.voice") })
            foreach (PetInterval one in times)
            {
                if (plan.IsInPlan(one.From)) yield return (one.From, words[from]);
                if (plan.IsInPlan(one.To)) yield return (one.To, words[to]);
            }
    }
}
