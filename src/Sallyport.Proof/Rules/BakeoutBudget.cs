using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>No disconnect is opened unless there is time left for a bake-out.</summary>
internal sealed class BakeoutBudget : Rule
{
    public override RuleCard Card { get; } = new(new("bakeout.budget"),
        "a soiled person who must stay out for a bake-out and cannot",
        "whenever a disconnect was opened: from then until the sun has shone for a whole bake-out and the test is done, against what is left "
            + "until the limit of the sortie less the way in of everybody, and until each suit's cut-off less that person's own way in",
        "the bake-out and the test that the fluid net states, or the scenario's limit where that asks for more",
        Guard.Decoder("a plan that opens a disconnect too late for it counts as broken by the seconds that are missing"));

    public override string? Missing(Scenario scenario) =>
        FluidSpill.Missing(scenario)
        ?? (scenario.Station.BakeOut is not null && scenario.LimitOf("pet.limit") is not { Value.Dimension: Dimension.Time } && scenario.Outside.Any(person => person.Suit is null)
            ? "the scenario gives no pet.limit, and not for everybody a cut-off" : null);

    public override IEnumerable<Finding> Find(Case given)
    {
        if (given.Scenario.Station.BakeOut is not { } bakeOut) yield break;
        Limit? limit = given.Scenario.LimitOf(Card.Id.Value);
        int least = limit is { Value.Dimension: Dimension.Time } ? (int)Math.Ceiling(limit.Value.Value) : 0;
        double near = limit?.Near is { Dimension: Dimension.Time } wanted ? wanted.Value : 0;
        foreach (DoStep act in given.Timeline.Activities.OfType<DoStep>().Where(act => Spills(given, act)))
        {
            Pet clean = Sunlight.After(given.Scenario.Sky.Night, act.End, bakeOut.Sunlit.Seconds).Plus(bakeOut.Test);
            int need = Math.Max(least, clean.Seconds - act.End.Seconds);
            (int left, string bound) = Left(given, act.End);
            int margin = left - need;
            if (margin >= 0 && margin >= near) continue;
            yield return Broken(given, act.End, [act.Person],
                $"{act.Person}'s step {act.Step} of {act.Leg} opens a disconnect with {Words(left)} left, the way in counted off, until {bound}; a bake-out and its test would take {Words(need)}.",
                $"Do {act.Leg} earlier.", act.Id) with
            {
                Severity = margin < 0 ? Severity.Broken : Severity.Near,
                Measured = Words(left),
                Limit = Words(need),
                Margin = Words(margin),
                Source = least >= need && limit is not null ? SourceOf(limit) : bakeOut.Source,
            };
        }
    }

    /// <summary>Whether a step opens a disconnect that can spill something harmful: one that was closed before, or one that it says it opens.</summary>
    private static bool Spills(Case given, DoStep act)
    {
        Station station = given.Scenario.Station;
        Step step = given.Scenario.Legs.First(leg => leg.Id == act.Leg).Steps.First(one => one.Id == act.Step);
        bool Harms(Func<FluidLine, bool> which) => station.FluidLines.Any(line => !line.Harmless && which(line));
        if (step.Fluid is { Opens: true } touch && Harms(line => line.Name == touch.Line)) return true;
        foreach (FeatureState made in step.Makes.OfType<MakeFeature>().Select(make => make.State))
        {
            if (station.Disconnects.FirstOrDefault(one => one.Feature == made.Feature) is not { } disconnect || !Harms(line => line.Ends.Contains(made.Feature))) continue;
            string before = given.History.StateAt(given.History[$"feature {made.Feature} state"], act.End.Plus(Duration.FromSeconds(-1)));
            if (before != made.State && (disconnect.Mated.Contains(before) || disconnect.Capped.Contains(before))) return true;
        }
        return false;
    }

    /// <summary>How long everybody may still stay out, and what ends that.</summary>
    private static (int Seconds, string Bound) Left(Case given, Pet moment)
    {
        List<(int Seconds, string Bound)> bounds = [];
        if (given.Scenario.LimitOf("pet.limit") is { Value.Dimension: Dimension.Time } limit)
            bounds.Add(((int)Math.Floor(limit.Value.Value) - moment.Seconds - WayIn(given, ReturnKind.Both, null, moment), "the limit of the sortie"));
        foreach (CutOff cutOff in given.Trace.CutOffs)
            bounds.Add((cutOff.At.Seconds - moment.Seconds - WayIn(given, ReturnKind.One, cutOff.Person, moment), $"the {cutOff.Binds}"));
        return bounds.Count == 0 ? (int.MaxValue, "") : bounds.MinBy(bound => bound.Seconds);
    }

    /// <summary>The return time at a moment, of two that share it the longer; none for whoever is not outside.</summary>
    private static int WayIn(Case given, ReturnKind kind, PersonId? person, Pet moment)
    {
        if (given.Trace.Returns.FirstOrDefault(one => one.Kind == kind && one.Person == person) is not { } curve) return 0;
        double longest = 0;
        for (int i = Searching.First(curve.Points.Length, i => curve.Points[i].At >= moment); i < curve.Points.Length; i++)
        {
            ReturnPoint point = curve.Points[i];
            if (point.At == moment) longest = Math.Max(longest, point.Seconds);
            // Between two points the return time runs straight: the greater of both is never too little.
            if (i > 0 && curve.Points[i - 1].At < moment && point.At > moment) longest = Math.Max(longest, Math.Max(curve.Points[i - 1].Seconds, point.Seconds));
            if (point.At > moment) break;
        }
        return (int)Math.Min(Math.Ceiling(longest), int.MaxValue / 4);
    }

    private static string Words(int seconds) => Duration.FromSeconds(seconds).ToString();
}
