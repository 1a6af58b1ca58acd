using System.Collections.Immutable;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>Makes what a page shows of a plan.</summary>
internal sealed class PlanViewBuilder
{
    private readonly Scenario scenario;
    private readonly ProvenPlan plan;
    private readonly BriefedPlan told;
    private readonly Trace trace;

    public PlanViewBuilder(Scenario scenario, ProvenPlan plan)
    {
        (this.scenario, this.plan) = (scenario, plan);
        told = new(scenario, plan, Wording.English);
        trace = plan.Played[0].Trace;
    }

    /// <param name="isWhole">Whether the verdict is whole; one that is not is never called clean.</param>
    /// <param name="width">How wide the chart is drawn.</param>
    /// <param name="stripHeight">How high each strip is drawn.</param>
    /// <param name="part">What ids of the chart begin with.</param>
    public PlanView View(bool isWhole, double width, double stripHeight, string part)
    {
        RangeChartOptions options = new(plan.Name, null, width, plan.Outline?.Decision) { StripHeight = stripHeight, ListsBelow = false, Numbered = int.MaxValue, IsWhole = isWhole };
        ChartFrame frame = RangeChart.FrameOf(scenario, plan.Played, plan.Verdict, options);
        return new()
        {
            Svg = SvgWriter.WritePart(RangeChart.Draw(scenario, plan.Played, plan.Verdict, options), part, frame.Top),
            Frame = PlaybackChart.Of(frame),
            Width = width,
            PetZero = PlaybackBuilder.ZeroOf(scenario),
            Strips = [.. frame.Strips.Select(strip => new StripView(strip.Person.Value, scenario.People.First(person => person.Id == strip.Person).Name, strip.Top, strip.Bottom))],
            Legs = Legs(),
            Findings = [.. plan.Verdict.Findings.Select(Finding)],
            Ends = PlanText.Ends(scenario, plan),
        };
    }

    /// <param name="orbit">The orbit, for the Sun; null where the sky was given by hand.</param>
    public PlanBeside Beside(ScenarioOrbit? orbit)
    {
        ChartFrame frame = RangeChart.FrameOf(scenario, plan.Played, plan.Verdict, new(plan.Name, null, Decision: plan.Outline?.Decision));
        return new()
        {
            Returns = [.. trace.Returns.Where(curve => !curve.Points.IsEmpty).Select(curve => new ReturnView(curve.Kind.ToString().ToLowerInvariant(), curve.Person?.Value,
                [.. curve.Points.Select(point => new[] { point.At.Seconds, point.Seconds < ReturnPoint.NoWaySeconds ? point.Seconds : -1 })]))],
            Tight = [.. plan.Tight.Select(tight => new TightView(tight.Kind.ToString().ToLowerInvariant(), tight.Person?.Value, tight.At.Seconds, Words(tight)))],
            Ceiling = [.. trace.Ceiling.Select(piece => new CeilingView(piece.From.Seconds, piece.To.Seconds, piece.FromSeconds, piece.ToSeconds, piece.Binds))],
            Gear = [.. scenario.Gear.Select(gear => new GearView(gear.Title, gear.Kind.ToString().ToLowerInvariant(),
                [.. told.History.Of($"gear {gear.Id} place").Select(place => new PlaybackState(place.At.Seconds, told.SpotWords(place.State)))]))],
            Commands = [.. plan.Likely.Activities.OfType<SendCommand>().Select(command => new CommandView(command.Start.Seconds, command.End.Seconds, command.Console.Value, command.Command.Value,
                string.Join(", ", told.CommandOf(command).Makes.Select(make => $"{make.Feature}: {make.State}")), command.For?.Value))],
            Dead = [.. Dead()],
            Inhibits = [.. Inhibits()],
            Inside = [.. RunningSheet.Inside(plan).OrderBy(one => one.At).Select(one => new PlaybackDeed(one.At.Seconds, one.At.Seconds, one.Words, null))],
            LeftOut = LeftOut(),
            Playback = PlaybackBuilder.Of(told, orbit, new([], []), frame),
        };
    }

    private ImmutableArray<LegView> Legs()
    {
        Dictionary<LegId, Pins> pins = (plan.Outline?.People ?? []).SelectMany(person => person.Entries.OfType<LegEntry>()).ToDictionary(entry => entry.Leg, entry => entry.Pins);
        return
        [
            .. plan.Likely.Activities.OfType<DoStep>().GroupBy(step => (step.Leg, step.Person)).Select(steps =>
            {
                Leg leg = told.Leg(steps.Key.Leg);
                Job job = told.Job(leg.Id);
                Pins pinned = pins.GetValueOrDefault(leg.Id, Pins.None);
                return new LegView(leg.Id.Value, leg.Title, job.Id.Value, job.Title, job.Worth == Worth.Must, steps.Key.Person.Value, told.Site(leg.Id).Title,
                    steps.Min(step => step.Start).Seconds, steps.Max(step => step.End).Seconds, Words(pinned), pinned.At is not null);
            }).OrderBy(leg => leg.From).ThenBy(leg => leg.Person, StringComparer.Ordinal),
        ];
    }

    private static string? Words(Pins pins)
    {
        string[] all =
        [
            .. pins.At is { } at ? [$"starts at {at}"] : Array.Empty<string>(), .. pins.NotBefore is { } before ? [$"not before {before}"] : Array.Empty<string>(),
            .. pins.NotAfter is { } after ? [$"not after {after}"] : Array.Empty<string>(), .. pins.Who ? ["stays with this person"] : Array.Empty<string>(), .. pins.Keep ? ["stays in the plan"] : Array.Empty<string>(),
        ];
        return all.Length == 0 ? null : string.Join(", ", all);
    }

    private FindingView Finding(Finding finding, int index)
    {
        string[] figures =
        [
            .. finding.Measured.Length > 0 ? [$"measured {finding.Measured}"] : Array.Empty<string>(), .. finding.Limit.Length > 0 ? [$"limit {finding.Limit}"] : Array.Empty<string>(),
            .. finding.Margin.Length > 0 ? [$"margin {finding.Margin}"] : Array.Empty<string>(),
        ];
        Activity? about = finding.Activity is { } id ? plan.Played.FirstOrDefault(one => one.Timeline.Branch == finding.Branch).Timeline?.Activities.FirstOrDefault(activity => activity.Id == id) : null;
        return new(index + 1, finding.Rule.Value, finding.Severity.ToString().ToLowerInvariant(), finding.Branch == Branch.Otherwise, [.. finding.Who.Select(who => who.Value)], finding.At.Seconds,
            finding.Sentence, string.Join(", ", figures), finding.Source, finding.Mend, ((about as DoStep)?.Leg ?? about?.For)?.Value);
    }

    private string Words(TightMoment tight)
    {
        string held = tight.IsNoWay ? "no way back in" : $"{tight.Takes}, held against {tight.Held}";
        return $"{told.MarginOf(tight)}: {held}, at {tight.At}";
    }

    private IEnumerable<DeadView> Dead() => PlanText.Off(scenario, told.History)
        .Select(one => new DeadView(one.Shutdown.Id.Value, one.Off.From.Seconds, one.Off.To < trace.To ? one.Off.To.Seconds : null, one.Shutdown.Longest?.Seconds));

    private IEnumerable<InhibitView> Inhibits()
    {
        foreach (DoStep step in plan.Likely.Activities.OfType<DoStep>())
            foreach (NeedDead dead in told.Step(step).Needs.OfType<NeedDead>())
                yield return new(step.Start.Seconds, step.End.Seconds, step.Person.Value, told.Step(step).Title, dead.Node.Value, dead.Inhibits, [.. GroundChapter.OpenSwitches(told, step.Start).Select(phrase => phrase.Words)]);
    }

    private ImmutableArray<LeftOutView> LeftOut()
    {
        HashSet<JobId> done = PlanText.Done(plan);
        return [.. scenario.Jobs.Where(job => !done.Contains(job.Id)).Select(job => new LeftOutView(job.Id.Value, job.Title, job.Worth == Worth.Must, job.Value,
            plan.Outline?.LeftOut.FirstOrDefault(one => one.Job == job.Id)?.Why ?? "no reason given in the outline"))];
    }
}
