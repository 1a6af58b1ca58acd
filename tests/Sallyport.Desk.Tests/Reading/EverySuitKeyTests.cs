using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Bodies, suits, the prebreathe and the day, as the files say them and as they are refused.</summary>
public sealed class EverySuitKeyTests
{
    private const string Every = "every-key";

    private static Scenario Scenario => Folders.EveryKeyScenario;

    [Fact]
    public void Body_Everything_IsAsWritten()
    {
        Body body = Scenario.Body!;
        Assert.Equal(new Estimate(90, 110, 130), body.Rates.Rest);
        Assert.Equal(new Estimate(190, 230, 270), body.Rates.Translate);
        // 1 Btu/h = 1055.05585262 / 3600 W.
        Assert.Equal((146.53553508611, 205.14974912056), (Math.Round(body.Rates.Light.Low, 11), Math.Round(body.Rates.Light.High, 11)));
        Assert.Equal(new Estimate(205, 250, 290), body.Rates.Moderate);
        Assert.Equal((new Estimate(280, 340, 395), "invented for the test"), (body.Rates.Heavy, body.Rates.Source));
        Assert.Equal(new Estimate(0.8, 0.87, 0.95), body.RespiratoryQuotient);
        Assert.Equal([new(new("EV1"), new(0.9, 1, 1.1)), new BodyFactor(new("EV2"), new(1, 1.05, 1.2))], body.Factors);
    }

    [Fact]
    public void Suits_Everything_IsAsWritten()
    {
        SuitInUse one = Scenario.Suits[0], two = Scenario.Suits[1];
        Assert.Equal("EV1", Assert.Single(one.People).Value);
        Assert.Equal(0, one.OxygenLeak.Low);
        Assert.Equal(0.004 / 3600, one.OxygenLeak.High, 1e-15);
        Assert.Equal(new Estimate(-20, 0, 20), one.HeatLeak);
        Assert.Equal((277.15, new Estimate(42, 46, 52), new Estimate(50, 55, 63)), (one.FeedwaterKelvin, one.LightsOff, one.LightsOn));
        // 1 ft3 = 0.028316846592 m3.
        Assert.Equal((0.0028316846592, 293.15, 0.6), (Math.Round(one.Helmet!.CubicMetresPerSecond, 15), Math.Round(one.Helmet.Kelvin, 9), one.Helmet.Mixing));
        Assert.Equal(0.2 * 133.322387415, one.Helmet.OutletPascals, 1e-9);
        Assert.Equal((Exertion.Moderate, "-1:05", "-0:12", "0:00", "-0:04", "0:03", 120, "invented for the test"),
            (one.ReserveWork, $"{one.Purge}", $"{one.OwnOxygen}", $"{one.OwnPower}", $"{one.Vacuum}", $"{one.WaterOn}", one.WaterOff.Seconds, one.Source));
        Assert.Equal((283.15, (HelmetFlow?)null, Exertion.Heavy, 0), (Math.Round(two.FeedwaterKelvin, 9), two.Helmet, two.ReserveWork, two.WaterOff.Seconds));
        Assert.Equal("1600 Btu/h", Scenario.LimitOf("work.rate")!.Hour!.Value.Text);
    }

    [Fact]
    public void Prebreathe_Everything_IsAsWritten()
    {
        PrebreathePlan plan = Scenario.Prebreathe!;
        Assert.Equal((360, "0.79 of 14.7 psi, dry", 0, 240 * 60), (plan.HalfTimeMinutes, plan.StartIs, plan.WaterVapourPascals, plan.WithoutBreaks!.Value.Seconds));
        Assert.Equal((11.6 * 6894.757293168, 4.3 * 6894.757293168), (plan.StartPascals, plan.SuitPascals!.Value));
        double cabin = 14.7 * 6894.757293168;
        Assert.Equal([new(cabin, 1, 60, Exercise: true), new(cabin, 0.21, 10, IsBreak: true), new PrebreathePart(cabin, 1, 200)], plan.Parts);
        WorkDay day = Assert.Single(Scenario.Days);
        Assert.Equal((2, "-5:30", 3000, "invented for the test"), (day.People.Length, $"{day.Waking}", day.SuitOff.Seconds, day.Source));
    }

    public static TheoryData<BadInput> Cases =>
    [
        new BadInput("oxygen above all of it", Every, "suit.yaml", "oxygen: 0.21", "oxygen: 1.05",
            "suit.yaml:58:34: value.range | '1.05' for 'oxygen' | a number from 0 to 1 | check the figure and its unit."),
        new BadInput("minutes below zero", Every, "suit.yaml", "time: 200 min", "time: -200 min",
            "suit.yaml:59:43: value.range | '-200 min' for 'time' | more than zero | check the figure and its unit."),
        new BadInput("suit without a battery", Every, "people.yaml", "    feedwater: 4 kg, battery: 500 Wh, carbon_dioxide: 0.75 kg}\n- id: EV2", "    feedwater: 4 kg, battery: 0 Wh, carbon_dioxide: 0.75 kg}\n- id: EV2",
            "people.yaml:12:31: value.range | '0 Wh' for 'battery' | more than zero | check the figure and its unit."),
        new BadInput("reserve above what is aboard", Every, "suit.yaml", "rule: suit.reserve, limit: 30 min", "rule: suit.reserve, limit: 270 min",
            "suit.yaml:35:3: suit.reserve | a reserve of 270 min of primary oxygen for EV2, 0.561 kg, in a suit that holds 0.55 kg | a reserve that is less than what is aboard | mend what the suit holds, the rates, or the limit of suit.reserve."),
        new BadInput("figures out of order", Every, "suit.yaml", "rest: 90 / 110 / 130 W", "rest: 90 / 140 / 130 W",
            "suit.yaml:9:11: estimate.order | '90 / 140 / 130 W' | low, likely, high, none below the one before | write the least first and the greatest last."),
        new BadInput("two figures for three", Every, "suit.yaml", "rest: 90 / 110 / 130 W", "rest: 90 / 110 W",
            "suit.yaml:9:11: value.form | '90 / 110 W' for 'rest' | three figures: low, likely, high, and their unit | write it like this: 180 / 220 / 280 W."),
        new BadInput("three figures without a unit", Every, "suit.yaml", "rest: 90 / 110 / 130 W", "rest: 90 / 110 / 130",
            "suit.yaml:9:11: unit.missing | '90 / 110 / 130' for 'rest', without a unit | a power with its unit | write the unit after the figure, such as '90 / 110 / 130 W'."),
        new BadInput("quotient that no body has", Every, "suit.yaml", "quotient: 0.8 / 0.87 / 0.95", "quotient: 0.8 / 0.87 / 1.4",
            "suit.yaml:14:13: value.range | '0.8 / 0.87 / 1.4' for 'quotient' | three numbers from 0.7 to 1.2: low / likely / high | check the figure and its unit."),
        new BadInput("person without a factor", Every, "suit.yaml", "  - {person: EV2, factor: 1 / 1.05 / 1.2}\n", "",
            "suit.yaml:8:3: body.factor | no factor for EV2, who goes outside | one for everybody outside | add '- {person: EV2, factor: 0.9 / 1 / 1.15}' to 'factors'."),
        new BadInput("suit told twice", Every, "suit.yaml", "- people: [EV2]", "- people: [EV1]",
            "suit.yaml:35:12: name.twice | the suit of a person 'EV1' again; the first stands at suit.yaml:21:12 | each suit of a person once | rename or delete one of the two."),
        new BadInput("suit of somebody inside", Every, "suit.yaml", "- people: [EV2]", "- people: [IV]",
            "suit.yaml:35:12: name.kind | 'IV', which is a known person but no person outside | a person outside | use one of: EV1, EV2."),
        new BadInput("own oxygen in an open suit", Every, "suit.yaml", "own_oxygen: \"-0:12\"", "own_oxygen: \"-1:12\"",
            "suit.yaml:21:3: suit.order | 'own_oxygen' at -1:12, before 'purge' at -1:05 | 'purge' no later than 'own_oxygen' | mend one of the two."),
        new BadInput("water too warm", Every, "suit.yaml", "feedwater_at: 4 degC", "feedwater_at: 40 degC",
            "suit.yaml:24:17: value.range | '40 degC' for 'feedwater_at' | a temperature from 0.01 to 20 degC, between which the heat of evaporation is known here | check the figure and its unit."),
        new BadInput("break before anything", Every, "suit.yaml", "time: 60 min, exercise: true", "time: 60 min, break: true",
            "suit.yaml:57:5: prebreathe.order | a break with nothing before it to break | the parts in the order in which they are breathed | put a part with oxygen before it, or take 'break: true' out."),
        new BadInput("break beside no plan without it", Every, "suit.yaml", "  without_breaks: 240 min\n", "",
            "suit.yaml:57:5: prebreathe.break | a break, and no 'without_breaks' | how long all of it takes when nothing breaks it | add 'without_breaks: 4 h' beside 'parts'."),
        new BadInput("break that costs nothing", Every, "suit.yaml", "rule: prebreathe.break, limit: 2 min", "rule: prebreathe.break, limit: 30 s",
            "suit.yaml:5:3: prebreathe.paid | '30 s' as the limit of prebreathe.break | the time that a minute of break costs: 1 min or more | write such as '2 min'."),
        new BadInput("more vapour than pressure", Every, "suit.yaml", "water_vapour: 0 mmHg", "water_vapour: 800 mmHg",
            "suit.yaml:57:5: prebreathe.vapour | a pressure that is not above the water vapour taken off it | more than 'water_vapour' | check both figures and their units.",
            "suit.yaml:58:5: prebreathe.vapour | a pressure that is not above the water vapour taken off it | more than 'water_vapour' | check both figures and their units.",
            "suit.yaml:59:5: prebreathe.vapour | a pressure that is not above the water vapour taken off it | more than 'water_vapour' | check both figures and their units."),
        new BadInput("waking after the hatch", Every, "suit.yaml", "waking: \"-5:30\"", "waking: \"5:30\"",
            "suit.yaml:63:3: day.order | waking at 5:30 | before the walk begins, at 0:00 | write it with a minus, such as \"-5:30\"."),
        new BadInput("mean over an hour of another rule", Every, "suit.yaml", "rule: suit.reserve, limit: 30 min", "rule: suit.reserve, limit: 30 min, hour: 20 min",
            "suit.yaml:3:45: key.clash | a limit with 'hour' | only the rule work.rate has a mean over an hour beside a shorter one | delete 'hour', or change what it clashes with."),
    ];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Scenario_BadSuit_IsToldWithPlaceAndFix(BadInput bad) => bad.Check();
}
