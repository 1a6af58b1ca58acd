using System.Collections.Immutable;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>What consoles send, what stands open between a person and power meanwhile, and the clocks that run.</summary>
internal static class GroundChapter
{
    public static Chapter Of(BriefedPlan plan)
    {
        Wording words = plan.Words;
        ImmutableArray<Block>.Builder blocks = ImmutableArray.CreateBuilder<Block>();
        Row[] commands = Whole(plan, Commands);
        if (commands.Length == 0) blocks.Add(new Paragraph(words["ground.none"]));
        else
        {
            blocks.Add(new Table([new(words["col.petutc"], 16), new(words["col.console"], 9), new(words["col.command"], 18), new(words["col.makes"], 26), new(words["col.telemetry"], 22), new(words["col.gocall"], 18), new(words["col.for"], 34)],
                [.. commands]));
            blocks.Add(new Paragraph(words["ground.key"], Setting.Small));
        }
        Row[] dead = Whole(plan, Dead);
        if (dead.Length > 0)
        {
            blocks.Add(new Heading(words["ground.inhibits"]));
            blocks.Add(new Table([new(words["col.pet"], 9), new(words["col.who"], 8), new(words["col.step"], 40), new(words["col.node"], 16), new(words["col.inhibits"], 10, true), new(words["col.open"], 40)], [.. dead]));
        }
        Row[] off = Whole(plan, Off);
        if (off.Length > 0)
        {
            blocks.Add(new Heading(words["ground.off"]));
            blocks.Add(new Table([new(words["col.what"], 18), new(words["col.from"], 9), new(words["col.to"], 9), new(words["col.lasts"], 14), new(words["col.longest"], 14), new(words["col.left"], 14), new(words["col.remark"], 30)], [.. off]));
        }
        if (plan.Scenario.Clocks.Length > 0)
        {
            Row[] runs = Whole(plan, Clocks);
            blocks.Add(new Heading(words["ground.clocks"]));
            if (runs.Length == 0) blocks.Add(new Paragraph(words["ground.noclock"]));
            else blocks.Add(new Table([new(words["col.clock"], 18), new(words["col.from"], 9), new(words["col.to"], 9), new(words["col.runs"], 14), new(words["col.longest"], 14), new(words["col.left"], 14), new(words["col.remark"], 30)], [.. runs]));
        }
        return new(words["ground.title"], blocks.ToImmutable()) { Wide = true };
    }

    /// <summary>The rows of the likely branch, and under a band what is otherwise on the other.</summary>
    private static Row[] Whole(BriefedPlan plan, Func<BriefedPlan, IEnumerable<Row>> rowsOf) => [.. rowsOf(plan), .. OtherBranch.Band(plan, branch => [.. rowsOf(branch)])];

    private static IEnumerable<Row> Commands(BriefedPlan plan) => plan.Timeline.Activities.OfType<SendCommand>().Select(command => CommandRow(plan, command));

    private static IEnumerable<Row> Clocks(BriefedPlan plan)
    {
        Case given = new(plan.Scenario, plan.Timeline, plan.Trace);
        return plan.Scenario.Clocks.SelectMany(clock => ClockRun.All(given, clock)).OrderBy(run => run.From).Select(run => Row.Of(
            run.Clock.Id.Value, run.From.ToString(), run.To.ToString(), run.Length.ToString(), run.Lasts.ToString(), Phrase.Strong(Duration.FromSeconds(run.Left).ToString()),
            plan.Words[run.RanOut is not null ? "clock.ranout" : run.IsStill ? "clock.still" : run.Clock.Kind == ClockKind.Cold ? "clock.cold" : "clock.hot"]));
    }

    private static Row CommandRow(BriefedPlan plan, SendCommand sent)
    {
        Wording words = plan.Words;
        Command command = plan.CommandOf(sent);
        bool linked = plan.History.Find("sky link") is { } link && plan.History.While(link, state => state == "link").Any(one => one.From <= sent.Start && sent.End <= one.To);
        return Row.Of(
            new Cell([Phrase.Strong($"{sent.Start} – {sent.End}"), $"{plan.Utc(sent.Start)} – {plan.Utc(sent.End)}"]), sent.Console.Value, Phrase.Strong(sent.Command.Value),
            new Cell([.. command.Makes.Select(make => new Phrase($"{make.Feature}: {make.State}")).DefaultIfEmpty("–")]),
            words[command.Makes.IsEmpty ? "telemetry.goonly" : command.NeedsLink ? linked ? "telemetry.link" : "telemetry.nolink" : command.SeenAboard ? "telemetry.aboard" : "telemetry.none"],
            command.Go is { } go ? words.Say("go.read", sent.End.Plus(Duration.FromSeconds(-go.Seconds)), sent.End) : words["go.none"],
            new Cell([sent.For is { } leg ? $"[{leg}] {plan.Leg(leg).Title}" : "", .. sent.After.Select(after => new Phrase(words.Say("mind.until", after.Why)))]));
    }

    /// <summary>Every step that asks for something dead, and which switches stand open as it begins.</summary>
    private static IEnumerable<Row> Dead(BriefedPlan plan)
    {
        foreach (DoStep told in plan.Timeline.Activities.OfType<DoStep>())
            foreach (NeedDead dead in plan.Step(told).Needs.OfType<NeedDead>())
                yield return Row.Of(told.Start.ToString(), told.Person.Value, $"[{told.Leg}] {plan.Step(told).Title}", dead.Node.Value, $"{dead.Inhibits}", new Cell([.. OpenSwitches(plan, told.Start)]));
    }

    internal static IEnumerable<Phrase> OpenSwitches(BriefedPlan plan, Pet at)
    {
        foreach (PowerLine line in plan.Scenario.Station.PowerLines.Where(line => line.Controller is not null))
            if (line.Closed is { } closed && plan.State($"feature {closed.Feature} state", at) is { } state && !closed.States.Contains(state))
                yield return plan.Words.Say("ground.switch", closed.Feature, state, line.Controller, plan.Words["sight." + (plan.State($"switch {closed.Feature} sight", at) ?? "unseen")]);
    }

    /// <summary>What is off, from the end of the command that turns it off to the end of the one that turns it on.</summary>
    private static IEnumerable<Row> Off(BriefedPlan plan)
    {
        Wording words = plan.Words;
        return PlanText.Off(plan.Scenario, plan.History)
            .OrderBy(one => one.Off.From).Select(one =>
            {
                Duration lasts = one.Off.To.Since(one.Off.From);
                return Row.Of(one.Shutdown.Id.Value, one.Off.From.ToString(), one.Off.To.ToString(), lasts.ToString(), one.Shutdown.Longest?.ToString() ?? "–",
                    one.Shutdown.Longest is { } longest ? Phrase.Strong(Duration.FromSeconds(longest.Seconds - lasts.Seconds).ToString()) : "–", words[one.Shutdown.CutsLink ? "off.cutslink" : "off.nothing"]);
            });
    }
}
