using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>A return time held against a limit at every moment.</summary>
internal abstract class ReturnRule(ReturnKind kind) : Rule
{
    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Time);

    /// <summary>How a sentence says what takes so long.</summary>
    protected abstract string Takes(PersonId? person);

    protected abstract string Mend(PersonId? person);

    public override IEnumerable<Finding> Find(Case given)
    {
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        double near = limit.NearMargin;
        foreach (ReturnCurve curve in given.Trace.Returns.Where(curve => curve.Kind == kind))
            foreach (Finding finding in Against(given, curve, limit.Value.Value, near, SourceOf(limit))) yield return finding;
    }

    /// <summary>One finding for each stretch above the limit, at its first second, with the longest return in it; and, if there is none,
    /// one for the closest approach within the margin.</summary>
    protected IEnumerable<Finding> Against(Case given, ReturnCurve curve, double limit, double near, string source)
    {
        ReturnPoint? worst = null;
        Pet first = default;
        bool broken = false;
        ReturnPoint? closest = null;
        for (int i = 0; i < curve.Points.Length; i++)
        {
            ReturnPoint point = curve.Points[i];
            if (closest is null || point.Seconds > closest.Value.Seconds) closest = point;
            if (point.Seconds > limit)
            {
                if (worst is null) first = FirstAbove(curve.Points, i, limit);
                if (worst is null || point.Seconds > worst.Value.Seconds) worst = point;
            }
            else if (worst is { } over)
            {
                broken = true;
                yield return Says(given, curve, first, over, limit, source, Severity.Broken);
                worst = null;
            }
        }
        if (worst is { } last)
        {
            broken = true;
            yield return Says(given, curve, first, last, limit, source, Severity.Broken);
        }
        if (!broken && closest is { } close && limit - close.Seconds < near) yield return Says(given, curve, close.At, close, limit, source, Severity.Near);
    }

    /// <summary>The first whole second at which the line that leads to this point is above the limit.</summary>
    private static Pet FirstAbove(ImmutableArray<ReturnPoint> points, int index, double limit)
    {
        ReturnPoint to = points[index];
        if (index == 0 || points[index - 1].At == to.At) return to.At;
        ReturnPoint from = points[index - 1];
        double share = (limit - from.Seconds) / (to.Seconds - from.Seconds);
        return Pet.FromSeconds(Math.Min(to.At.Seconds, from.At.Seconds + (int)Math.Floor(share * (to.At.Seconds - from.At.Seconds)) + 1));
    }

    private Finding Says(Case given, ReturnCurve curve, Pet first, ReturnPoint worst, double limit, string source, Severity severity)
    {
        string measured = worst.Seconds >= Way.NoneSeconds ? "no way at all" : Duration.CeilingFromSeconds(worst.Seconds).ToString();
        string sentence = worst.Seconds >= Way.NoneSeconds
            ? $"{Takes(curve.Person)} is not possible at all{(worst.Closed is { } shut ? $": {shut} closes it (at {worst.At})" : "")}."
            : $"{Takes(curve.Person)} takes up to {measured} (at {worst.At}){(worst.Closed is { } closed ? $", waiting for {closed} where that is closed" : "")}; the limit is {Words(limit)}.";
        string mend = worst.Closed is { } hazard ? $"Make {hazard} safe before {first} and keep it so until everybody is past it, or let nobody be beyond it then." : Mend(curve.Person);
        return Broken(given, first, curve.Person is { } person ? [person] : given.People, sentence, mend, worst.Activity) with
        {
            Severity = severity,
            Measured = measured,
            Limit = Words(limit),
            Margin = worst.Seconds >= Way.NoneSeconds ? "" : Duration.FromSeconds((int)Math.Floor(limit - worst.Seconds)).ToString(),
            Source = source,
        };
    }

    /// <summary>A limit is never made longer by showing it.</summary>
    private static string Words(double limit) => Duration.FromSeconds((int)Math.Floor(limit)).ToString();
}

/// <summary>Everybody is always near enough to safety, and before the suit's own end.</summary>
internal sealed class ReturnOne() : ReturnRule(ReturnKind.One)
{
    public override RuleCard Card { get; } = new(new("return.one"),
        "a person who cannot get in before the oxygen for it is used up",
        "break-off, out of the restraint, off the arm, back along the own line with each change of reels, waiting for what is closed on the way, and in; at every moment, "
            + "against the limit and against what is left until the suit's cut-off or, where that is earlier, until its first reserve is reached at high use",
        "the scenario's limit; the cut-off of each suit, and the limit of suit.reserve",
        Guard.Decoder("the return time of each leg and ride is counted against the limit and the cut-off, at legs with the wait for zones closed at times; what states close is left to the proof"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        foreach (CutOff cutOff in given.Trace.CutOffs)
        {
            if (given.Trace.Returns.FirstOrDefault(one => one.Kind == ReturnKind.One && one.Person == cutOff.Person) is not { } curve) continue;
            // Return time plus the moment is when the person is in: held against the cut-off as one figure. That there is no way at all is told above.
            foreach (ReturnPoint point in curve.Points.Where(point => point.Seconds is > 0 and < Way.NoneSeconds))
            {
                int inside = point.At.Seconds + (int)Math.Ceiling(point.Seconds);
                if (inside <= cutOff.At.Seconds) continue;
                yield return Broken(given, point.At, [cutOff.Person],
                    $"{cutOff.Person} could be in at {Pet.FromSeconds(inside)} at the earliest, and the {cutOff.Binds} is {(cutOff.Binds.StartsWith("reserve", StringComparison.Ordinal) ? "reached at " : "")}{cutOff.At}.",
                    $"Bring {cutOff.Person} home earlier.", point.Activity) with
                {
                    Measured = $"PET {Pet.FromSeconds(inside)}",
                    Limit = $"PET {cutOff.At}",
                    Margin = Duration.FromSeconds(cutOff.At.Seconds - inside).ToString(),
                    Source = cutOff.Source,
                };
                break;
            }
        }
    }

    protected override string Takes(PersonId? person) => $"{person}'s way to safety";

    protected override string Mend(PersonId? person) => $"Bring {person} a nearer anchor or less to carry, or leave the job out.";
}

/// <summary>Everybody together is always near enough.</summary>
internal sealed class ReturnBoth() : ReturnRule(ReturnKind.Both)
{
    public override RuleCard Card { get; } = new(new("return.both"),
        "the last one waiting at the hatch for too long",
        "everybody's own way to the hatch at once, waiting for what is closed, entry one after another in order of arrival, and the hatch closed; at every moment",
        "the scenario's limit",
        Guard.Decoder("counted at each leg as if all who share the hatch came there at once"));

    protected override string Takes(PersonId? person) => "Bringing everybody in and closing the hatch";

    protected override string Mend(PersonId? person) => "Let the two furthest jobs not lie at the same time, or keep one person nearer.";
}

/// <summary>Nobody is beyond help.</summary>
internal sealed class ReturnHelp() : ReturnRule(ReturnKind.Help)
{
    public override RuleCard Card { get; } = new(new("return.help"),
        "a person who cannot come in alone, and whom nobody brings in in time",
        "the best helper's way: breaking off, out of the restraint, off the arm, back along the own line and out along the other one's with each change of reels; then getting that "
            + "person clear of the step, the restraint and the arm, ready to be moved, home at the slower one's pace times what helping costs, waiting for what is closed on the way, in, and the hatch closed; at every moment at which somebody else is outside",
        "the scenario's limit; the figures under 'help'",
        Guard.Decoder("reckoned for every two people over the decoded plan, a walk as if one stood at the worse of its ends; what is closed on the way is left to the proof"));

    public override string? Missing(Scenario scenario) => base.Missing(scenario) ?? (scenario.Help is null ? "the scenario does not say what helping takes" : null);

    protected override string Takes(PersonId? person) => $"Bringing in {person}, who cannot come in alone,";

    protected override string Mend(PersonId? person) => $"Keep somebody nearer to {person}, or let {person} work nearer to the hatch.";
}

/// <summary>A rider is near enough even when the arm stops.</summary>
internal sealed class ReturnArmless() : ReturnRule(ReturnKind.Armless)
{
    public override RuleCard Card { get; } = new(new("return.armless"),
        "a rider who is stranded when the arm fails",
        "break-off, climbing down from the pose (during a move, from the worse of its two), the shortest way home with a change of reels "
            + "for each reel needed beyond the first, waiting for what is closed on the way, and in",
        "the scenario's limit",
        Guard.Decoder("the climb home is counted at each leg and ride on an arm"));

    // Nobody rides where there is no arm: then there is nothing to hold against a limit, and none is asked for.
    public override string? Missing(Scenario scenario) => scenario.Arms.IsEmpty ? null : base.Missing(scenario);

    public override IEnumerable<Finding> Find(Case given) => given.Scenario.Arms.IsEmpty ? [] : base.Find(given);

    protected override string Takes(PersonId? person) => $"With the arm stopped, {person}'s way to safety";

    protected override string Mend(PersonId? person) => $"Work from a pose with a grip in reach nearer the airlock, or without the arm.";
}
