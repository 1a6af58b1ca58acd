using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>A rule about what bodies burn and suits use, reckoned from the trace.</summary>
internal abstract class SuitRule : Rule
{
    public override string? Missing(Scenario scenario) =>
        scenario.Suits.IsEmpty || scenario.Body is null ? "the scenario does not say what bodies burn and how suits are used (body, suits)" : null;

    public override IEnumerable<string> Unseen(Scenario scenario) =>
        scenario.Outside.Where(person => SuitProfile.Of(scenario, person.Id) is null).Select(person => $"{person.Id}'s suit is not described");

    /// <summary>One finding where a figure is over its limit, or near it; none elsewhere.</summary>
    /// <param name="limit">The limit, and what near is.</param>
    /// <param name="most">The figure that it is held against, in the limit's canonical unit.</param>
    /// <param name="figure">What was measured, in the same unit.</param>
    /// <param name="finding">What is said of it.</param>
    protected static Finding? Over(Limit limit, double most, double figure, Finding finding)
    {
        double near = limit.NearMargin;
        // The last bits of a mean are no break.
        if (figure - most > 1e-9 * most) return finding;
        return Math.Max(0, most - figure) < near ? finding with { Severity = Severity.Near } : null;
    }

    /// <summary>The same of a mean over a window: what a person does on average, up to where it is greatest.</summary>
    /// <param name="given">The plan.</param>
    /// <param name="person">Who.</param>
    /// <param name="limit">The limit, and what near is.</param>
    /// <param name="most">The figure that the mean is held against.</param>
    /// <param name="worst">The greatest mean.</param>
    /// <param name="window">Over what.</param>
    /// <param name="words">A figure in words, rounded up or down.</param>
    /// <param name="does">What the person does, around the mean in words.</param>
    protected Finding? Over(Case given, PersonId person, Limit limit, double most, MeanPoint worst, Duration window, Func<double, bool, string> words, Func<string, string> does) =>
        Over(limit, most, worst.Mean, Broken(given, worst.To, [person],
            $"{person} {does(words(worst.Mean, true))} on average over the {window} up to here; the limit is {words(most, false)}.",
            $"Let {person} rest in between, or share the hard work.") with
        {
            Measured = words(worst.Mean, true),
            Limit = words(most, false),
            Margin = words(most - worst.Mean, false),
            Source = SourceOf(limit),
        });
}

/// <summary>Nobody works harder than a body and a suit bear for long.</summary>
internal sealed class WorkRate : SuitRule
{
    public override RuleCard Card { get; } = new(new("work.rate"),
        "exhaustion, and more heat and carbon dioxide than the suit carries off",
        "the metabolic rate of each class of work at its high figure, times the person's factor at its high figure; its mean over every 15 min, and over every hour",
        "the scenario's limit, and its 'hour' for the mean over an hour",
        Guard.Proof("what a body burns in any quarter of an hour only the whole plan tells"));

    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Power) ?? base.Missing(scenario);

    public override IEnumerable<string> Unseen(Scenario scenario) =>
    [
        .. base.Unseen(scenario),
        .. scenario.LimitOf(Card.Id.Value)?.Hour is null ? ["no limit of the mean over an hour is given"] : Array.Empty<string>(),
        "what is carried makes no work harder here",
    ];

    public override IEnumerable<Finding> Find(Case given)
    {
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        foreach (SuitWalk walk in given.Suits)
        {
            ImmutableArray<RateStretch> rates = walk.Use.Metabolic(Level.High);
            foreach ((Duration window, double most) in Windows(limit))
            {
                if (Over(given, walk.Profile.Person, limit, most, RollingMean.Greatest(rates, window), window, Words, mean => $"burns {mean}") is { } found) yield return found;
            }
        }
    }

    private static IEnumerable<(Duration Window, double Most)> Windows(Limit limit)
    {
        yield return (SuitWalk.ShortWindow, limit.Value.Value);
        if (limit.Hour is { } hour) yield return (SuitWalk.LongWindow, hour.Value);
    }

    private static string Words(double watts, bool up)
    {
        double Whole(double figure) => up ? Math.Ceiling(figure - 1e-9) : Math.Floor(figure + 1e-9);
        return string.Create(CultureInfo.InvariantCulture, $"{Whole(watts):0} W ({Whole(watts / Units.FactorOf("Btu/h")):0} Btu/h)");
    }
}

/// <summary>Enough is left of everything when repress starts.</summary>
internal sealed class SuitReserve : SuitRule
{
    public override RuleCard Card { get; } = new(new("suit.reserve"),
        "oxygen, cartridge, water or battery that ends before the person is on the station's supply",
        "for each primary supply what the full suit holds less what is used at the high rates, each from its own moment on, and how long that lasts at the high rate of the reserve's work with the "
            + "lights on; when repress starts, the end of closing the hatch. Secondary oxygen is never counted",
        "the scenario's limit; what suits hold and how they use it, the scenario's 'people' and 'suits'",
        Guard.Decoder("a walk that lasts longer than the least of the supplies would, with the work that is in it, counts against a plan"));

    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Time) ?? base.Missing(scenario);

    public override IEnumerable<string> Unseen(Scenario scenario) =>
    [
        .. base.Unseen(scenario),
        .. scenario.Suits.Where(suit => suit.OwnPower < suit.WaterOn || suit.WaterOff.Seconds > 0).Select(suit =>
            $"heat that the bodies of {string.Join(" and ", suit.People)} store while the suit is on its own power and the water is not on"),
    ];

    public override IEnumerable<Finding> Find(Case given)
    {
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        double near = limit.NearMargin;
        foreach (SuitWalk walk in given.Suits)
        {
            Finding? closest = null;
            int least = int.MaxValue;
            foreach (ConsumableCurve curve in walk.Use.Curves)
            {
                if (curve.LastsFrom(walk.RepressStart) is not { } lasts) continue;
                int margin = (int)Math.Floor(lasts.Seconds - limit.Value.Value);
                PersonId person = walk.Profile.Person;
                Duration most = Duration.FromSeconds((int)Math.Ceiling(limit.Value.Value));
                Finding finding = Broken(given, walk.RepressStart, [person],
                    $"When repress starts, {person}'s {curve.Kind.InWords()} lasts {lasts} more at the high rate; the limit is {most}.",
                    $"Give {person} less hard work, or end the walk earlier: the reserve is whole until {curve.ReserveReached(Level.High)}.") with
                {
                    Measured = lasts.ToString(),
                    Limit = most.ToString(),
                    Margin = Duration.FromSeconds(margin).ToString(),
                    Source = SourceOf(limit),
                };
                if (margin < 0) yield return finding;
                else if (margin < near && margin < least) (least, closest) = (margin, finding with { Severity = Severity.Near });
            }
            if (closest is not null) yield return closest;
        }
    }
}

/// <summary>Nobody breathes in too much carbon dioxide.</summary>
internal sealed class CarbonDioxide : SuitRule
{
    public override RuleCard Card { get; } = new(new("carbon.dioxide"),
        "headache, wrong decisions, and worse",
        "the partial pressure breathed in while the suit is closed: what the body gives at its high rate, carried by the helmet's flow, the share of it that is breathed in again, and what the cartridge "
            + "lets through; its mean over every hour. A cartridge that may be full is a break too",
        "the scenario's limit; the helmet's figures are the suit owner's",
        Guard.Proof("what a body gives in any hour only the whole plan tells"));

    public override string? Missing(Scenario scenario) => MissingLimit(scenario, Dimension.Pressure) ?? base.Missing(scenario);

    public override IEnumerable<string> Unseen(Scenario scenario) =>
        [.. base.Unseen(scenario), .. scenario.Suits.Where(suit => suit.Helmet is null).SelectMany(suit => suit.People).Select(person => $"what flows through {person}'s helmet is not described")];

    public override IEnumerable<Finding> Find(Case given)
    {
        Limit limit = given.Scenario.LimitOf(Card.Id.Value)!;
        foreach (SuitWalk walk in given.Suits)
        {
            PersonId person = walk.Profile.Person;
            if (walk.Told.Helmet is not { } helmet || walk.Use.Of(Consumable.CarbonDioxide).Starts is null) continue;
            InspiredMeans means = Ventilation.Of(helmet).MeansOver(walk.Use, SuitWalk.LongWindow, Level.High);
            MeanPoint worst = means.Means.MaxBy(point => point.Mean)!;
            if (Over(given, person, limit, limit.Value.Value, worst, SuitWalk.LongWindow, Words, mean => $"breathes in {mean} of carbon dioxide") is { } found) yield return found;
            if (means.HoldsUntil is { } full)
                yield return Broken(given, full, [person], $"{person}'s cartridge may be full from here on, and what is breathed in is not known.", $"Bring {person} in earlier, or give {person} less hard work.") with
                {
                    Source = walk.Told.Source,
                };
        }
    }

    private static string Words(double pascals, bool up)
    {
        double hundredths = pascals / Units.FactorOf("mmHg") * 100;
        return string.Create(CultureInfo.InvariantCulture, $"{(up ? Math.Ceiling(hundredths - 1e-9) : Math.Floor(hundredths + 1e-9)) / 100:0.00} mmHg");
    }
}

/// <summary>Feedwater evaporates in vacuum only.</summary>
internal sealed class WaterPressure : SuitRule
{
    public override RuleCard Card { get; } = new(new("water.pressure"),
        "water that finds no vacuum to evaporate into, and runs into the suit's loops and the helmet",
        "each moment at which the feedwater is on, from 'water_on' to 'water_off' before the start of repress, while the person is not in vacuum: before 'vacuum' and before the hatch opens, or after it is closed",
        RuleCard.NoFigure,
        Guard.Proof("the moments are the scenario's; no order of the work moves them"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (SuitWalk walk in given.Suits)
            foreach (PetInterval wet in Intervals.Without(walk.Water, walk.Vacuum))
                yield return Broken(given, wet.From, [walk.Profile.Person],
                    $"{walk.Profile.Person}'s cooling water is on outside vacuum from {wet.From} to {wet.To}.",
                    "Turn it on later, or off before the pressure comes back.") with
                {
                    Measured = $"on at {wet.From}",
                    Limit = "off outside vacuum",
                };
    }
}
