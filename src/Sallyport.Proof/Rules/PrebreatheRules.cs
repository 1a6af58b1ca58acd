using System.Globalization;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>Enough inert gas is out of the body before the pressure falls.</summary>
internal sealed class PrebreatheRatio : Rule
{
    public override RuleCard Card { get; } = new(new("prebreathe.ratio"),
        "decompression sickness",
        "inert-gas tension after the last part, in one compartment with the half-time told, over the lowest regulated suit pressure. A sequence with exercise is approved as a whole, which this does not describe: "
            + "its ratio is for information only. The flight surgeon decides",
        "the scenario's limit",
        Guard.Proof("the hours before the hatch are the scenario's, not the plan's"));

    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Count)
        ?? (scenario.Prebreathe is null ? "the scenario does not say what is breathed before the hatch (prebreathe)" : null)
        ?? (SuitPascals(scenario) is null ? "no suit pressure is given" : null);

    public override IEnumerable<string> Unseen(Scenario scenario) => scenario.Prebreathe is { } plan && plan.Parts.Any(part => part.Exercise)
        ? ["a sequence with exercise is approved as a whole; its ratio is for information only"]
        : [];

    public override IEnumerable<Finding> Find(Case given)
    {
        // The hours before the hatch are the same, whatever follows: they are told of the plan.
        if (given.Timeline.Trouble is not null) yield break;
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        PrebreatheResult result = Over(given.Scenario);
        double ratio = result.Steps[^1].Ratio, margin = limit.Value.Value - ratio;
        double near = limit.NearMargin;
        if (margin >= 0 && margin >= near && !result.IsForInformationOnly) yield break;
        string sentence = $"After the prebreathe the ratio is {Words(ratio, up: true)} (at the start {result.StartIs}); the limit is {Words(limit.Value.Value, up: false)}.";
        yield return Broken(given, given.Trace.From, given.People, result.IsForInformationOnly ? $"{sentence} It has exercise in it: for information only." : sentence,
            "Breathe oxygen for longer; the flight surgeon decides.") with
        {
            Severity = result.IsForInformationOnly ? Severity.Note : margin < 0 ? Severity.Broken : Severity.Near,
            Measured = Words(ratio, up: true),
            Limit = Words(limit.Value.Value, up: false),
            Margin = Words(margin, up: false),
            Source = SourceOf(limit),
        };
    }

    /// <summary>The scenario's prebreathe reckoned through.</summary>
    internal static PrebreatheResult Over(Scenario scenario) =>
        InertGas.Of(scenario.Prebreathe!, SuitPascals(scenario)!.Value).Over(scenario.Prebreathe!.Parts, InertGas.PaidBack(scenario.LimitOf("prebreathe.break")));

    internal static double? SuitPascals(Scenario scenario) => scenario.Prebreathe?.SuitPascals ?? scenario.LowestSuitPressure;

    private static string Words(double ratio, bool up) =>
        ((up ? Math.Ceiling(ratio * 10000 - 1e-6) : Math.Floor(ratio * 10000 + 1e-6)) / 10000).ToString("0.0000", CultureInfo.InvariantCulture);
}

/// <summary>A break in breathing oxygen is paid back.</summary>
internal sealed class PrebreatheBreak : Rule
{
    public override RuleCard Card { get; } = new(new("prebreathe.break"),
        "inert gas that came back in a break and was not breathed out again",
        "minutes breathed, breaks aside, beyond what was planned without breaks, against the longer of two: what the rule asks for all breaks, and what the tension asks, each break with the gas breathed before it",
        "the scenario's limit: what a minute of break costs",
        Guard.Proof("the hours before the hatch are the scenario's, not the plan's"));

    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Time)
        ?? (scenario.Prebreathe is null ? "the scenario does not say what is breathed before the hatch (prebreathe)" : null)
        ?? (PrebreatheRatio.SuitPascals(scenario) is null ? "no suit pressure is given" : null);

    public override IEnumerable<Finding> Find(Case given)
    {
        // The hours before the hatch are the same, whatever follows: they are told of the plan.
        if (given.Timeline.Trouble is not null) yield break;
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        BreakPenalty penalty = PrebreatheRatio.Over(given.Scenario).Penalty;
        double paid = InertGas.BeyondMinutes(given.Scenario.Prebreathe!);
        // A share of a second is no more than the last bits of a quotient.
        if (penalty.BreakMinutes == 0 || (penalty.Minutes is { } due && paid >= due - 1e-9)) yield break;
        string asked = penalty.Minutes is { } minutes ? Minutes(Math.Ceiling(minutes * 10 - 1e-9) / 10) : "more than that gas can give";
        yield return Broken(given, given.Trace.From, given.People,
            $"Breaks of {Minutes(penalty.BreakMinutes)} in the prebreathe ask for {asked} more than it takes without them; {Minutes(paid)} were breathed.",
            "Breathe oxygen for longer after the break; the flight surgeon decides.") with
        {
            Measured = Minutes(paid),
            Limit = asked,
            Margin = penalty.Minutes is { } most ? Minutes(Math.Floor((paid - most) * 10) / 10) : "",
            Source = SourceOf(limit),
        };
    }

    private static string Minutes(double minutes) => string.Create(CultureInfo.InvariantCulture, $"{minutes:0.#} min");
}

/// <summary>Nobody's day is too long.</summary>
internal sealed class CrewDayLength : Rule
{
    public override RuleCard Card { get; } = new(new("crew.day"),
        "tired people outside",
        "from waking to the suit being off, which comes a stated time after the start of repress",
        "the scenario's limit",
        Guard.Decoder("what ends late counts against a plan; the day itself is held by the proof"));

    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Time)
        ?? (scenario.Days.IsEmpty ? "the scenario does not say when people wake and when their suits are off (days)" : null);

    public override IEnumerable<string> Unseen(Scenario scenario) =>
        scenario.Outside.Where(person => scenario.Days.All(day => !day.People.Contains(person.Id))).Select(person => $"{person.Id}'s day is not described");

    public override IEnumerable<Finding> Find(Case given)
    {
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        double near = limit.NearMargin;
        foreach (WorkDay told in given.Scenario.Days)
            foreach (PersonId person in told.People.Where(given.People.Contains))
            {
                CrewDay day = new(person, told.Waking, SuitWalk.RepressStartOf(given.Timeline, given.Trace, person).Plus(told.SuitOff));
                int margin = (int)Math.Floor(limit.Value.Value - day.Length.Seconds);
                if (margin >= 0 && margin >= near) continue;
                Duration most = Duration.FromSeconds((int)Math.Floor(limit.Value.Value));
                yield return Broken(given, day.SuitOff, [person], $"{person}'s day, from waking at {day.Waking} to the suit being off, takes {day.Length}; the limit is {most}.",
                    $"End the walk earlier, or let {person} wake later.") with
                {
                    Severity = margin < 0 ? Severity.Broken : Severity.Near,
                    Measured = day.Length.ToString(),
                    Limit = most.ToString(),
                    Margin = Duration.FromSeconds(margin).ToString(),
                    Source = SourceOf(limit),
                };
            }
    }
}
