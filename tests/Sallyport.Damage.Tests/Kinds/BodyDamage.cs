using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>Gloves, rests, voices, latest starts, and jobs that are missing.</summary>
internal static class BodyDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("no check of gloves", "A person waits instead of every check of gloves, and the world as played gives no step that is one; it wants one in half an hour.", "glove.check",
            "Everybody is outside longer than that.",
            plan => Limited(plan, "glove.check").SelectMany(limit => plan.Outside.Select(person => WithoutChecks(plan, person, limit with { Value = HalfAnHour })))),
        new("check too late", "The world as played wants checks of gloves a second more often than the longest time without one.", "glove.check",
            "That time is a second too long.",
            plan => Limited(plan, "glove.check").SelectMany(limit => Longest(plan, "glove.check").Select(seconds => WithLimit(plan, limit, seconds - 1)))),
        new("rough gloves", "Every step of a leg is rough in the world as played, none is a check, and nobody checks before the next leg.", "glove.check",
            "The sortie wants a check between the two.",
            plan => plan.Scenario.Checks?.Gloves is { AfterRough: true } ? plan.Outside.SelectMany(person => Legs(plan, person).Zip(Legs(plan, person).Skip(1))).Select(pair => Rough(plan, pair.First, pair.Second)) : []),
        new("rest too late", "The world as played wants rests a second more often than the longest time without one.", "work.rest",
            "That time is a second too long.",
            plan => Limited(plan, "work.rest").Where(_ => plan.Scenario.Checks?.Rest is not null).SelectMany(limit => Longest(plan, "work.rest").Select(seconds => WithLimit(plan, limit, seconds - 1)))),
        new("rests too short", "Nothing is as long as a rest must be in the world as played, and one is due in half an hour.", "work.rest",
            "Everybody is outside longer than that.",
            plan => Limited(plan, "work.rest").Where(_ => plan.Scenario.Checks?.Rest is not null).Select(limit =>
            {
                Damaged harder = WithLimit(plan, limit, (int)HalfAnHour.Value);
                return harder with { Scenario = harder.Scenario with { Checks = harder.Scenario.Checks! with { Rest = new(Duration.FromMinutes(24 * 60), "damage") } } };
            })),
        new("slow to make ready", "Making somebody ready to be moved takes a second longer in the world as played than bringing that person in may.", "return.help",
            "Nobody is brought in in time from anywhere.",
            plan => Helped(plan, limit => help => help with { Secure = Duration.FromSeconds(limit + 1) })),
        new("slow to enter together", "Coming in together takes a second longer in the world as played than bringing somebody in may.", "return.help",
            "Nobody is brought in in time from anywhere.",
            plan => Helped(plan, limit => help => help with { Enter = Duration.FromSeconds(limit + 1) })),
        new("slow to make ready below an arm", "Making somebody ready to be moved takes a second longer in the world as played than bringing somebody in from an arm that has stopped may.", "help.armless",
            "Nobody is brought in in time while somebody is on the arm.",
            plan => plan.Trace.Returns.Any(curve => curve.Kind == ReturnKind.HelpArmless) && plan.Scenario.Help is { } help
                ? Limited(plan, "help.armless").Select(limit => plan.InWorld(scenario => scenario with { Help = help with { Secure = Duration.FromSeconds((int)limit.Value.Value + 1) } })) : []),
        new("helped in too late", "Everybody's suit is cut off in the world as played a second before somebody could be brought in.", "return.help",
            "The last second is one too late.",
            plan => Limited(plan, "return.help").Where(_ => plan.Scenario.Help is not null).SelectMany(_ => plan.Trace.Returns.Where(curve => curve.Kind == ReturnKind.Help)
                .SelectMany(curve => curve.Points).Where(point => point.Seconds is > 0 and < 86_400).Select(point => point.At.Seconds + (int)Math.Ceiling(point.Seconds)).OrderDescending().Take(1))
                .Select(last => plan.InWorld(scenario => scenario with
                {
                    People = [.. scenario.People.Select(person => person.Suit is { } suit ? person with { Suit = suit with { CutOff = Pet.FromSeconds(Math.Min(last - 1, suit.CutOff.Seconds)) } } : person)],
                }))),
        new("two led at once", "In the world as played two steps that go on at once are led from inside, and one may be.", "voice.crowded",
            "Nobody can read two lines at once.",
            plan => AtOnce(plan).Select(pair => OneVoice(LedToo(LedToo(new(plan.Scenario, plan.Timeline), pair.One), pair.Other)))),
        new("begun too late", "The latest start of a leg in the world as played is a second before its start.", "job.late",
            "The start is a second late.",
            plan => plan.Done.Select(leg => plan.WithLeg(leg, one => one with { Latest = TimeDamage.Plus(plan.StepsOf(leg)[0].Start, -1) }))),
        new("job begun too late", "The latest start of a job in the world as played is a second before its first leg.", "job.late",
            "The start is a second late.",
            plan => Jobs(plan).Select(job => plan.InWorld(scenario => scenario with
            {
                Jobs = CleanPlan.Each(scenario.Jobs, one => one.Id == job.Id, one => one with { Latest = TimeDamage.Plus(job.Legs.Min(leg => plan.StepsOf(leg.Id)[0].Start), -1) }),
            }))),
        new("job left out", "Everybody waits instead of all steps of a job that is a must in the world as played.", "job.missing",
            "The sortie is flown for it.",
            plan => Jobs(plan).Select(job => plan.Skip([.. job.Legs.SelectMany(leg => plan.StepsOf(leg.Id))]) with
            {
                Scenario = plan.Scenario with { Jobs = CleanPlan.Each(plan.Scenario.Jobs, one => one.Id == job.Id, one => one with { Worth = Worth.Must }) },
            })),
    ];

    private static Quantity HalfAnHour { get; } = new(Dimension.Time, 1800, "30 min");

    private static IEnumerable<Job> Jobs(CleanPlan plan) => plan.Scenario.Jobs.Where(job => job.Legs.All(leg => plan.Done.Contains(leg.Id)));

    private static IEnumerable<Limit> Limited(CleanPlan plan, string rule) => plan.Scenario.LimitOf(rule) is { Value.Dimension: Dimension.Time } limit ? [limit] : [];

    private static Damaged WithLimit(CleanPlan plan, Limit limit, int seconds) => plan.InWorld(scenario => scenario with
    {
        Limits = [.. scenario.Limits.Where(one => one.Rule != limit.Rule), limit with { Value = new(Dimension.Time, seconds, $"{seconds} s"), Near = null }],
    });

    /// <summary>The longest time that the rule measures, s: found by making the limit tighter until something is found.</summary>
    private static IEnumerable<int> Longest(CleanPlan plan, string rule)
    {
        int low = 0, high = (int)plan.Scenario.LimitOf(rule)!.Value.Value;
        bool Found(int seconds) => plan.Judge(WithLimit(plan, plan.Scenario.LimitOf(rule)!, seconds)).Findings.Any(finding => finding.Rule.Value == rule && finding.Severity == Severity.Broken);
        if (Found(high)) yield break;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (Found(middle)) low = middle + 1;
            else high = middle;
        }
        if (low > 0) yield return low;
    }

    private static Damaged WithoutChecks(CleanPlan plan, PersonId person, Limit limit)
    {
        Damaged skipped = plan.Skip([.. plan.All<CheckGloves>().Where(check => check.Person == person)]);
        return skipped with
        {
            Scenario = plan.Scenario with
            {
                Limits = [.. plan.Scenario.Limits.Where(one => one.Rule != limit.Rule), limit with { Near = null }],
                Jobs = [.. plan.Scenario.Jobs.Select(job => job with { Legs = [.. job.Legs.Select(leg => leg with { Steps = [.. leg.Steps.Select(step => step with { ChecksGloves = false })] })] })],
            },
        };
    }

    private static IEnumerable<Damaged> Helped(CleanPlan plan, Func<int, Func<HelpTimes, HelpTimes>> change) => plan.Scenario.Help is { } help
        ? Limited(plan, "return.help").Select(limit => plan.InWorld(scenario => scenario with { Help = change((int)limit.Value.Value)(help) })) : [];

    private static IEnumerable<LegId> Legs(CleanPlan plan, PersonId person) => plan.Done.Where(leg => plan.StepsOf(leg)[0].Person == person);

    private static Damaged Rough(CleanPlan plan, LegId leg, LegId next)
    {
        (DoStep last, DoStep first) = (plan.StepsOf(leg)[^1], plan.StepsOf(next)[0]);
        Damaged skipped = plan.Skip([.. plan.All<CheckGloves>().Where(check => check.Person == last.Person && check.Start >= last.End && check.End <= first.Start)]);
        Leg Bare(Leg one, bool rough) => one with { Steps = [.. one.Steps.Select(step => step with { ChecksGloves = false, Rough = rough })] };
        return skipped with { Scenario = plan.WithLeg(leg, one => Bare(one, true)).Scenario with { Jobs = [.. plan.WithLeg(leg, one => Bare(one, true)).Scenario.Jobs.Select(job => job with { Legs = CleanPlan.Each(job.Legs, one => one.Id == next, one => Bare(one, false)) })] } };
    }

    private static IEnumerable<(DoStep One, DoStep Other)> AtOnce(CleanPlan plan) => plan.All<DoStep>().SelectMany(one => plan.All<DoStep>()
        .Where(other => other.Person != one.Person && other.Start >= one.Start && other.Start < one.End && (plan.Legs[one.Leg].Together.Length == 0 || plan.Legs[one.Leg].Job != plan.Legs[other.Leg].Job))
        .Take(1).Select(other => (one, other)));

    private static Damaged LedToo(Damaged damaged, DoStep act) => damaged with
    {
        Scenario = damaged.Scenario with
        {
            Jobs = [.. damaged.Scenario.Jobs.Select(job => job with { Legs = CleanPlan.Each(job.Legs, leg => leg.Id == act.Leg, leg => leg with { Steps = CleanPlan.Each(leg.Steps, step => step.Id == act.Step, step => step with { Led = true }) }) })],
        },
    };

    private static Damaged OneVoice(Damaged damaged) => damaged with
    {
        Scenario = damaged.Scenario with
        {
            Limits = [.. damaged.Scenario.Limits.Where(limit => limit.Rule.Value != "voice.crowded"), new(new("voice.crowded"), new(Dimension.Count, 1, "1 pieces"), null, "damage", false)],
        },
    };
}
