using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;
using Sallyport.Proof;

namespace Sallyport.Tests.Damage;

/// <summary>Bodies that burn more, suits that hold less, the hours before the hatch.</summary>
internal static class SuitDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("work too hard", "The world as played allows a watt less than somebody's hardest quarter of an hour.", "work.rate",
            "That quarter of an hour is a watt too hard.",
            plan => Suits(plan).SelectMany(walk => Limited(plan, "work.rate", Dimension.Power, RollingMean.Greatest(walk.Use.Metabolic(Level.High), SuitWalk.ShortWindow).Mean - 1))),
        new("hard for an hour", "The world as played allows a watt less than somebody's hardest hour.", "work.rate",
            "That hour is a watt too hard.",
            plan => Suits(plan).SelectMany(walk => Limits(plan, "work.rate").Select(limit => plan.InWorld(scenario => scenario with
            {
                Limits = CleanPlan.Each(scenario.Limits, one => one == limit, one => one with { Hour = new(Dimension.Power, RollingMean.Greatest(walk.Use.Metabolic(Level.High), SuitWalk.LongWindow).Mean - 1, "damage") }),
            })))),
        new("suit not filled", "A suit holds, of one supply, a thousandth less than the walk and the reserve take at the high rates.", "suit.reserve",
            "The reserve is not whole when repress starts.",
            plan => Suits(plan).SelectMany(walk => walk.Use.Curves.Select(curve => Holding(plan, walk, curve.Kind, (curve.UsedAt(walk.RepressStart).High + curve.Reserve) * 0.999)))),
        new("helmet badly washed", "The world as played allows a pascal less than somebody's worst hour in what is breathed in.", "carbon.dioxide",
            "That hour is a pascal too much.",
            plan => Suits(plan).Where(walk => walk.Told.Helmet is not null).SelectMany(walk => Limited(plan, "carbon.dioxide", Dimension.Pressure,
                Ventilation.Of(walk.Told.Helmet!).MeansOver(walk.Use, SuitWalk.LongWindow, Level.High).Means.Max(point => point.Mean) - 1))),
        new("water on too early", "Feedwater is on a second before the airlock is in vacuum.", "water.pressure",
            "It finds no vacuum to evaporate into.",
            plan => plan.Scenario.Suits.Select(use => plan.InWorld(scenario => scenario with { Suits = CleanPlan.Each(scenario.Suits, one => one == use, one => one with { WaterOn = TimeDamage.Plus(one.Vacuum, -1) }) }))),
        new("air instead of oxygen", "Air is breathed in the last part of the prebreathe.", "prebreathe.ratio",
            "Inert gas comes back instead of going out.",
            plan => Told(plan, "prebreathe.ratio", prebreathe => prebreathe with { Parts = [.. prebreathe.Parts[..^1], prebreathe.Parts[^1] with { OxygenShare = 0.21 }] })),
        new("break not paid back", "Ten minutes of air break the prebreathe before its last part, which is no longer for it.", "prebreathe.break",
            "What came back in the break is not breathed out again.",
            plan => Told(plan, "prebreathe.break", prebreathe => prebreathe with
            {
                WithoutBreaks = Duration.FromSeconds((int)Math.Ceiling(prebreathe.Parts.Sum(part => part.Minutes) * 60)),
                Parts = [.. prebreathe.Parts[..^1], new(101_325, 0.21, 10, IsBreak: true), prebreathe.Parts[^1]],
            })),
        new("woken too early", "Somebody wakes a second earlier than the longest day allows.", "crew.day",
            "The day is a second too long.",
            plan => Limits(plan, "crew.day").SelectMany(limit => plan.Scenario.Days.Select(day => plan.InWorld(scenario => scenario with
            {
                Days = CleanPlan.Each(scenario.Days, one => one == day, one => one with
                {
                    Waking = Pet.FromSeconds(day.People.Max(person => SuitWalk.RepressStartOf(plan.Timeline, plan.Trace, person).Seconds) + day.SuitOff.Seconds - (int)Math.Floor(limit.Value.Value) - 1),
                }),
            })))),
    ];

    private static IEnumerable<SuitWalk> Suits(CleanPlan plan) => SuitWalk.Of(plan.Scenario, plan.Timeline, plan.Trace);

    private static IEnumerable<Limit> Limits(CleanPlan plan, string rule) => plan.Scenario.LimitOf(rule) is { } limit ? [limit] : [];

    private static IEnumerable<Damaged> Limited(CleanPlan plan, string rule, Dimension dimension, double value) => Limits(plan, rule).Select(limit => plan.InWorld(scenario => scenario with
    {
        Limits = CleanPlan.Each(scenario.Limits, one => one == limit, one => one with { Value = new(dimension, value, "damage") }),
    }));

    private static Damaged Holding(CleanPlan plan, SuitWalk walk, Consumable kind, double amount) => plan.WithPerson(walk.Profile.Person, person => person with
    {
        Suit = kind switch
        {
            Consumable.Oxygen => person.Suit! with { PrimaryOxygen = amount },
            Consumable.CarbonDioxide => person.Suit! with { CarbonDioxide = amount },
            Consumable.Feedwater => person.Suit! with { Feedwater = amount },
            _ => person.Suit! with { Battery = amount },
        },
    });

    private static IEnumerable<Damaged> Told(CleanPlan plan, string rule, Func<PrebreathePlan, PrebreathePlan> change) => plan.Scenario.Prebreathe is { } prebreathe && plan.Scenario.LimitOf(rule) is not null
        ? [plan.InWorld(scenario => scenario with { Prebreathe = change(prebreathe) })]
        : [];
}
