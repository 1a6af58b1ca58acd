using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The shapes of the sections about bodies and suits: body, suits, prebreathe, days.</summary>
internal static class SuitShapes
{
    public static JsonNode Body() => new MapShape("What bodies burn.")
        .Must("rates", new MapShape("The metabolic rate of each class of work, for a person of factor one.")
            .Must("rest", Rate("Waiting, watching, riding.", "90 / 110 / 140 W"))
            .Must("translate", Rate("Hand over hand.", "190 / 230 / 300 W"))
            .Must("light", Rate("Small tools, photographs.", "150 / 185 / 240 W"))
            .Must("moderate", Rate("Bolts, connectors.", "200 / 250 / 320 W"))
            .Must("heavy", Rate("Large masses, forcing.", "270 / 340 / 440 W")))
        .Must("quotient", Shapes.Numbers("Carbon dioxide given over oxygen taken, by moles.", 0.7, 1.2, "0.8 / 0.87 / 0.95"))
        .Must("factors", Shapes.List("What the rate of each person outside is over that of factor one.", new MapShape("A person's factor.")
            .Must("person", Shapes.Text("Who; somebody outside.", "EV1"))
            .Must("factor", Shapes.Numbers("The factor.", 0.2, 5, "0.9 / 1 / 1.1")), filled: true))
        .Must("source", WalkShapes.Source());

    public static JsonNode Suit() => new MapShape("How the suits of some people use what is aboard, and from when on.")
        .Must("people", Shapes.Texts("Whose; each person outside in one entry.", "EV1", filled: true))
        .Must("oxygen_leak", Shapes.Estimate("Oxygen lost on the suit's own oxygen. Zero or more.", Dimension.Leak, "1 / 2 / 4 g/h", sign: 0))
        .Must("heat_leak", Shapes.Estimate("Heat that comes in from outside; below zero where the suit loses heat.", Dimension.Power, "-20 / 0 / 20 W", sign: -1))
        .Must("feedwater_at", Shapes.Figure("The temperature at which water evaporates, 0.01 to 20 degC.", Dimension.Temperature, "4 degC"))
        .Must("power", new MapShape("What is drawn.")
            .Must("lights_off", Rate("By day.", "40 / 45 / 50 W"))
            .Must("lights_on", Rate("In the station's night, and while the reserve is used.", "50 / 56 / 64 W")))
        .May("helmet", new MapShape("The gas that washes carbon dioxide out of a helmet. carbon.dioxide is not checked without it.")
            .Must("flow", Shapes.PositiveFigure("What flows through it, at the suit's pressure and temperature.", Dimension.Flow, "170 L/min"))
            .Must("at", Shapes.Figure("Its temperature.", Dimension.Temperature, "20 degC"))
            .Must("mixing", Shapes.Number("The share of what is given off that is breathed in again; 1 is full mixing.", 0.01, 1, 0.5))
            .Must("outlet", Shapes.FigureFromZero("Carbon dioxide in what the cartridge gives back.", Dimension.Pressure, "0.1 mmHg")))
        .Must("reserve_work", Shapes.Choice("The class of work that the reserve is reckoned with, at its high rate.", "moderate", "rest", "translate", "light", "heavy"))
        .Must("purge", Shapes.Pet("From here on the cartridge takes up carbon dioxide.", "-0:50"))
        .Must("own_oxygen", Shapes.Pet("From here on the suit's own oxygen is breathed; not before 'purge'.", "-0:10"))
        .Must("own_power", Shapes.Pet("From here on the suit is on its battery.", "0:00"))
        .Must("vacuum", Shapes.Pet("From here on the airlock is in vacuum.", "-0:05"))
        .Must("water_on", Shapes.Pet("From here on feedwater evaporates.", "0:05"))
        .Must("water_off", Shapes.Time("So long before the start of repress it is shut off.", "2 min", 0))
        .Must("source", WalkShapes.Source());

    public static JsonNode Prebreathe() => new MapShape("The prebreathe, part after part. The flight surgeon decides.")
        .Must("half_time", Shapes.PositiveFigure("Half-time of the compartment that stands for the body.", Dimension.Time, "360 min"))
        .Must("start", Shapes.FigureFromZero("Inert-gas tension at the start.", Dimension.Pressure, "11.6 psi"))
        .Must("start_is", Shapes.Text("What that stands for.", "0.79 of 14.7 psi, dry"))
        .May("water_vapour", Shapes.FigureFromZero("Water vapour taken off the pressure breathed; dry gas when missing.", Dimension.Pressure, "47 mmHg"))
        .May("suit_pressure", Shapes.PositiveFigure("Lowest regulated suit pressure; the lowest of the people's suits when missing.", Dimension.Pressure, "4.3 psi"))
        .May("without_breaks", Shapes.Time("How long all of it takes when nothing breaks it; asked for with a break.", "4 h"))
        .Must("parts", Shapes.List("In the order in which they are breathed; a change of pressure is told at its higher pressure.", new MapShape("A part, at one pressure with one gas.")
            .Must("pressure", Shapes.PositiveFigure("Absolute pressure.", Dimension.Pressure, "14.7 psi"))
            .Must("oxygen", Shapes.Number("Share of oxygen in the dry gas.", 0, 1, 1))
            .Must("time", Shapes.PositiveFigure("How long.", Dimension.Time, "240 min"))
            .May("exercise", Shapes.Flag("Part of an exercise protocol: the ratio then is for information only.", false))
            .May("break", Shapes.Flag("A break in breathing oxygen, which has to be paid back.", false)), filled: true))
        .Must("source", WalkShapes.Source());

    public static JsonNode Day() => new MapShape("The day of some people, from waking to the suit being off.")
        .Must("people", Shapes.Texts("Whose.", "EV1", filled: true))
        .Must("waking", Shapes.Pet("When they wake, before the walk.", "-5:30"))
        .Must("suit_off", Shapes.Time("From the start of repress until their suits are off.", "50 min", 0))
        .Must("source", WalkShapes.Source());

    private static JsonObject Rate(string about, string example) => Shapes.Estimate($"{about} Above zero.", Dimension.Power, example);
}
