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

    /// <summary>Return time plus the moment is when somebody is in: held against a cut-off as one figure. That there is no way at all is told elsewhere.</summary>
    /// <param name="given">The plan.</param>
    /// <param name="curve">The return time.</param>
    /// <param name="cutOff">What it is held against.</param>
    /// <param name="wouldBe">Who would be in, in words that come before the moment.</param>
    /// <param name="whose">Whose cut-off it is, in words that come before it; empty where that is plain.</param>
    /// <param name="mend">What would mend it.</param>
    protected IEnumerable<Finding> AgainstCutOff(Case given, ReturnCurve curve, CutOff cutOff, string wouldBe, string whose, string mend)
    {
        foreach (ReturnPoint point in curve.Points.Where(point => point.Seconds is > 0 and < Way.NoneSeconds))
        {
            int inside = point.At.Seconds + (int)Math.Ceiling(point.Seconds);
            if (inside <= cutOff.At.Seconds) continue;
            yield return Broken(given, point.At, [curve.Person ?? cutOff.Person],
                $"{wouldBe} at {Pet.FromSeconds(inside)} at the earliest, and {(whose.Length > 0 ? whose : "the")} {cutOff.Binds} is {(cutOff.Binds.StartsWith("reserve", StringComparison.Ordinal) ? "reached at " : "")}{cutOff.At}.",
                mend, point.Activity) with
            {
                Measured = $"PET {Pet.FromSeconds(inside)}",
                Limit = $"PET {cutOff.At}",
                Margin = Duration.FromSeconds(cutOff.At.Seconds - inside).ToString(),
                Source = cutOff.Source,
            };
            yield break;
        }
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
            if (given.Trace.Returns.FirstOrDefault(one => one.Kind == ReturnKind.One && one.Person == cutOff.Person) is { } curve)
                foreach (Finding finding in AgainstCutOff(given, curve, cutOff, $"{cutOff.Person} could be in", "", $"Bring {cutOff.Person} home earlier.")) yield return finding;
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

/// <summary>Somebody who cannot come in alone, brought in by somebody else: held against a limit, and against what the suits still hold.</summary>
internal abstract class BroughtIn(ReturnKind kind) : ReturnRule(kind)
{
    private readonly ReturnKind kind = kind;

    public override string? Missing(Scenario scenario) => base.Missing(scenario) ?? (scenario.Help is null ? "the scenario does not say what helping takes" : null);

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (Finding finding in base.Find(given)) yield return finding;
        foreach (ReturnCurve curve in given.Trace.Returns.Where(curve => curve.Kind == kind))
            // Who the helper is may change from moment to moment: with more than two outside, everybody's cut-off counts.
            foreach (CutOff cutOff in given.Trace.CutOffs)
                foreach (Finding finding in AgainstCutOff(given, curve, cutOff, $"{Takes(curve.Person)} would be ended", $"{cutOff.Person}'s", Mend(curve.Person))) yield return finding;
    }

    protected override string Mend(PersonId? person) => $"Keep somebody nearer to {person}, or let {person} work nearer to the hatch, or earlier.";
}

/// <summary>Nobody is beyond help.</summary>
internal sealed class ReturnHelp() : BroughtIn(ReturnKind.Help)
{
    public override RuleCard Card { get; } = new(new("return.help"),
        "a person who cannot come in alone, and whom nobody brings in in time",
        "the best helper's way: breaking off, out of the restraint, off the arm, back along the own line and out along the other one's with each change of reels; then getting that "
            + "person clear of the step, the restraint and the arm, ready to be moved, home at the slower one's pace times what helping costs, waiting for what is closed on the way, in, and the hatch closed; "
            + "at every moment at which somebody else is outside, against the limit and against the earliest cut-off of everybody's suits",
        "the scenario's limit; the figures under 'help'; the cut-off of each suit, and the limit of suit.reserve",
        Guard.Decoder("reckoned for every two people over the decoded plan, a walk as if one stood at the worse of its ends; what is closed on the way and the cut-offs of suits are left to the proof"));

    protected override string Takes(PersonId? person) => $"Bringing in {person}, who cannot come in alone,";
}

/// <summary>Nobody is beyond help when the arm has stopped as well.</summary>
internal sealed class HelpArmless() : BroughtIn(ReturnKind.HelpArmless)
{
    public override RuleCard Card { get; } = new(new("help.armless"),
        "a rider who cannot climb down alone, or whose partner cannot come in while the only helper sits on an arm that has failed",
        "as return.help, while one of the two is on an arm that has stopped where it is (during a move, at the worse of its two poses): down from the pose, to the hatch, out along the other one's line or to below the "
            + "arm by the shortest way with each change of reels, and up the time of the climb; both climb down, one after the other, slower by what helping costs, and go home by the shortest way with the changes of both",
        "the scenario's limit; the figures under 'help' and the climbs of the poses; the cut-off of each suit",
        Guard.Proof("where two people are at one moment, only the whole plan tells"));

    // Nobody rides where there is no arm: then no limit is asked for.
    public override string? Missing(Scenario scenario) => scenario.Arms.IsEmpty ? null : base.Missing(scenario);

    public override IEnumerable<Finding> Find(Case given) => given.Scenario.Arms.IsEmpty ? [] : base.Find(given);

    protected override string Takes(PersonId? person) => $"With the arm stopped, bringing in {person}, who cannot come in alone,";
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
