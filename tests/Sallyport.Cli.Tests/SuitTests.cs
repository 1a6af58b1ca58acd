using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary><c>suit</c>, as a user runs it.</summary>
public sealed class SuitTests : IDisposable
{
    private readonly Workplace place = new("skerry-short");

    public void Dispose() => place.Dispose();

    // One rate for everything and everybody: 300 W, RQ 0.85, no leak, water at 0.01 degC, so that the card's figures are the program's.
    private const string Plain = """
        body:
          rates: {rest: 300 / 300 / 300 W, translate: 300 / 300 / 300 W, light: 300 / 300 / 300 W, moderate: 300 / 300 / 300 W, heavy: 300 / 300 / 300 W}
          quotient: 0.85 / 0.85 / 0.85
          factors: [{person: EV1, factor: 1 / 1 / 1}, {person: EV2, factor: 1 / 1 / 1}]
          source: a test
        suits:
        - people: [EV1, EV2]
          oxygen_leak: 0 / 0 / 0 g/h
          heat_leak: -50 / -50 / -50 W
          feedwater_at: 0.01 degC
          power: {lights_off: 50 / 50 / 50 W, lights_on: 50 / 50 / 50 W}
          reserve_work: moderate
          purge: "-1:00"
          own_oxygen: "-0:10"
          own_power: "0:00"
          vacuum: "-0:05"
          water_on: "0:05"
          water_off: 0 s
          source: a test

        """;

    private JsonNode Suits()
    {
        place.Write("scenarios/skerry-short/suit.yaml", Plain);
        return JsonNode.Parse(place.Run("suit", "scenarios/skerry-short", "--json").Ended(0).Out)!;
    }

    // 75.439 g/h of oxygen and 88.194 g/h of carbon dioxide at 300 W and RQ 0.85; 0.43184 kg/h of water carry off 300 W at 0.01 degC; each from its own moment on.
    [Fact, Reference("energetics"), Reference("water")]
    public void Suit_AtOneRate_UsesWhatTheCardSays()
    {
        JsonNode suits = Suits();
        Assert.Equal(Caution.Text, (string)suits["caution"]!);
        foreach (JsonNode? person in suits["people"]!.AsArray())
        {
            Assert.True(Pet.TryParse((string)person!["repressStart"]!, out Pet end));
            double Hours(string from) => Pet.TryParse(from, out Pet pet) ? end.Since(pet).Seconds / 3600.0 : throw new ArgumentException(from);
            (string Starts, double AnHour, double Error)[] expected =
                [("-0:10", 0.075439, 0.0000005), ("-1:00", 0.088194, 0.000002), ("0:05", 0.43184, 0.000005), ("0:00", 50 * 3600.0, 1e-6)];
            for (int i = 0; i < expected.Length; i++)
            {
                JsonNode one = person["consumables"]![i]!;
                Assert.Equal(expected[i].Starts, (string)one["starts"]!);
                foreach (string level in new[] { "low", "likely", "high" })
                    Assert.Equal(expected[i].AnHour * Hours(expected[i].Starts), (double)one["usedAtRepress"]![level]!, expected[i].Error * 2);
            }
            Assert.Equal(300, (double)person["greatestMeanWatts"]!["over15Min"]!, 1e-9);
        }
        Assert.Contains(suits["notReckoned"]!.AsArray(), words => ((string)words!).StartsWith("EV1: heat: nothing is told to carry it off from 0:00 to 0:05", StringComparison.Ordinal));
    }

    [Fact]
    public void Suit_Written_GivesTextAndCurves()
    {
        place.Write("scenarios/skerry-short/suit.yaml", Plain);
        Result shown = place.Run("suit", "scenarios/skerry-short", "--write").Ended(0);
        Assert.Contains(Caution.Text, shown.Out);
        Assert.Contains("First reserve reached: PET ", shown.Out);
        Assert.Contains("\nEV1 · ", shown.Out);
        Assert.Contains("Not reckoned, so not proven", shown.Out);
        Assert.Equal(shown.Out, place.Read("out/skerry-short/by-hand/suit.txt"));
        string svg = place.Read("out/skerry-short/by-hand/suit.svg");
        Assert.All(["primary oxygen", "feedwater", "battery", "metabolic rate", Caution.Text], words => Assert.Contains(words, svg));
        Assert.Equal([0x89, 0x50, 0x4E, 0x47], place.Bytes("out/skerry-short/by-hand/suit.png")[..4]);
    }

    [Fact]
    public void Suit_OfAScenarioWithoutSuits_SaysWhatIsMissing() =>
        Assert.Contains("suits.none", place.Run("suit", "scenarios/skerry-short").Ended(2).Err);

    [Fact]
    public void Suit_WithoutAnything_IsRefused() => Assert.Contains("name a scenario", place.Run("suit").Ended(2).Err);

    private static string Sequence(string start, string parts, string more = "") => $$"""
        prebreathe:
          half_time: 360 min
          start: {{start}}
          start_is: as the case says, dry
          suit_pressure: 4.3 psi
        {{more}}  parts:
        {{parts}}
          source: a test
        limits:
        - {rule: prebreathe.ratio, limit: 1.65 ratio, source: a test}
        - {rule: prebreathe.break, limit: 2 min, source: a test}

        """;

    private JsonNode Prebreathe(int ends, string text)
    {
        place.Write("air.yaml", text);
        return JsonNode.Parse(place.Run("suit", "--prebreathe", "air.yaml", "--json").Ended(ends).Out)!;
    }

    // The figures of the card, with both of its starts: 0.79 of 14.7 psi taken as 11.6, and 0.7808 x 14.7.
    [Theory, Reference("inert-gas")]
    [InlineData("11.6 psi", 60, 2.40335, 1)]
    [InlineData("11.6 psi", 120, 2.14115, 1)]
    [InlineData("11.6 psi", 240, 1.69943, 1)]
    [InlineData("11.47776 psi", 240, 1.68152, 1)]
    [InlineData("11.6 psi", 360, 1.34884, 0)]
    public void Prebreathe_OnOxygen_HasTheRatioOfTheCard(string start, int minutes, double ratio, int ends) =>
        Assert.Equal(ratio, (double)Prebreathe(ends, Sequence(start, $"  - {{pressure: 14.7 psi, oxygen: 1, time: {minutes} min}}"))["ratio"]!, 0.00001);

    [Fact, Reference("inert-gas")]
    public void Prebreathe_Staged_HasTheTensionsOfTheCard()
    {
        JsonNode shown = Prebreathe(1, Sequence("11.6 psi", """
              - {pressure: 14.7 psi, oxygen: 1, time: 60 min}
              - {pressure: 10.2 psi, oxygen: 0.265, time: 12 h}
              - {pressure: 14.7 psi, oxygen: 1, time: 75 min}
            """));
        double[] psi = [.. shown["steps"]!.AsArray().Select(step => (double)step!["tensionPascals"]! / 6894.757293168)];
        Assert.Equal(10.33443, psi[0], 0.00001);
        Assert.Equal(8.20636, psi[1], 0.00001);
        Assert.Equal(7.10290, psi[2], 0.00001);
        Assert.Equal(1.65184, (double)shown["ratio"]!, 0.00001);
        Assert.True((bool)shown["overALimit"]!);
    }

    [Fact]
    public void Prebreathe_WithExercise_IsForInformationOnly()
    {
        place.Write("air.yaml", Sequence("11.6 psi", "  - {pressure: 14.7 psi, oxygen: 1, time: 100 min, exercise: true}"));
        Result shown = place.Run("suit", "--prebreathe", "air.yaml").Ended(0);
        Assert.Contains("is ABOVE the limit of 1.65", shown.Out);
        Assert.Contains("for information only", shown.Out);
        Assert.Contains("The flight surgeon decides.", shown.Out);
        Assert.Contains(Caution.Text, shown.Out);
    }

    [Theory]
    [InlineData(200, 0, "which is enough")]
    [InlineData(199, 1, "which is NOT enough")]
    public void Prebreathe_WithABreak_HasToPayItBack(int after, int ends, string says)
    {
        place.Write("air.yaml", Sequence("11.6 psi", $$"""
              - {pressure: 14.7 psi, oxygen: 1, time: 120 min}
              - {pressure: 14.7 psi, oxygen: 0.21, time: 10 min, break: true}
              - {pressure: 14.7 psi, oxygen: 1, time: {{after}} min}
            """, "  without_breaks: 300 min\n"));
        Assert.Contains(says, place.Run("suit", "--prebreathe", "air.yaml").Ended(ends).Out);
    }

    [Fact]
    public void Prebreathe_BadFile_IsToldWithItsPlaces()
    {
        place.Write("air.yaml", Sequence("11.6 psi", "  - {pressure: 14.7 psi, oxygen: 1.05, time: -5 min}"));
        Result shown = place.Run("suit", "--prebreathe", "air.yaml").Ended(2);
        Assert.Contains("air.yaml:7:34: value.range", shown.Err);
        Assert.Contains("air.yaml:7:46: value.range", shown.Err);
        Assert.Empty(shown.Out);
        Assert.Contains("file.unreadable", place.Run("suit", "--prebreathe", "none.yaml").Ended(2).Err);
    }

    [Fact]
    public void Prebreathe_WithoutSuitPressure_TakesTheScenarios()
    {
        place.Write("air.yaml", Sequence("11.6 psi", "  - {pressure: 14.7 psi, oxygen: 1, time: 360 min}").Replace("  suit_pressure: 4.3 psi\n", ""));
        Assert.Contains("prebreathe.alone", place.Run("suit", "--prebreathe", "air.yaml").Ended(2).Err);
        Assert.Contains("suit at 29.647 kPa (4.300 psi)", place.Run("suit", "scenarios/skerry-short", "--prebreathe", "air.yaml").Ended(0).Out);
    }
}
