using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the sections about bodies and suits: body, suits, prebreathe, days.</summary>
internal static class SuitSections
{
    private static readonly (string, Exertion)[] Classes =
        [("moderate", Exertion.Moderate), ("rest", Exertion.Rest), ("translate", Exertion.Translate), ("light", Exertion.Light), ("heavy", Exertion.Heavy)];

    public static Body? Body(MapReader r)
    {
        string source = r.Text("source");
        WorkRates? rates = r.Map("rates", "the rates of work", inner => new WorkRates(
            Rate(inner, "rest"), Rate(inner, "translate"), Rate(inner, "light"), Rate(inner, "moderate"), Rate(inner, "heavy"), source));
        Estimate quotient = r.Estimate("quotient", 0.7, 1.2, "0.8 / 0.85 / 0.95");
        ImmutableArray<BodyFactor> factors = r.FilledList("factors", "a person's factor", inner =>
            new BodyFactor(Whose(inner, "person", Kinds.Factor), inner.Estimate("factor", 0.2, 5, "0.9 / 1 / 1.15")));
        return rates is null ? null : new(rates, quotient, factors);
    }

    public static SuitInUse? Suit(MapReader r)
    {
        ImmutableArray<PersonId> people = People(r, Kinds.SuitInUse);
        Estimate leak = r.Estimate("oxygen_leak", Dimension.Leak, "1 / 2 / 4 g/h", sign: 0);
        Estimate heat = r.Estimate("heat_leak", Dimension.Power, "-20 / 0 / 20 W", sign: -1);
        double water = r.Quantity("feedwater_at", Dimension.Temperature, "4 degC")?.Value ?? 277.15;
        // Kelvins made of the bounds' own degrees may lie a last bit beside them.
        if (Math.Round(water, 9) is < 273.16 or > 293.15 && r.Find("feedwater_at") is TextNode node) r.Binding.Report(ValueProblems.Range(node, "feedwater_at", "a temperature from 0.01 to 20 degC, between which the heat of evaporation is known here"));
        SuitInUse? suit = r.Map("power", "what a suit draws", inner => new SuitInUse(
            people, leak, heat, water, inner.Estimate("lights_off", Dimension.Power, "40 / 45 / 50 W"), inner.Estimate("lights_on", Dimension.Power, "50 / 55 / 60 W"),
            null, default, default, default, default, default, default, default, ""));
        HelmetFlow? helmet = r.OptionalMap("helmet", "the gas that washes a helmet", inner => new HelmetFlow(
            inner.Measure("flow", Dimension.Flow), inner.Measure("at", Dimension.Temperature), inner.Number("mixing", 0.01, 1), inner.Measure("outlet", Dimension.Pressure, aboveZero: false)));
        Exertion reserve = r.Choice("reserve_work", Classes);
        Pet purge = r.Pet("purge"), oxygen = r.Pet("own_oxygen"), power = r.Pet("own_power"), vacuum = r.Pet("vacuum"), on = r.Pet("water_on");
        Duration off = r.Time("water_off", least: 0);
        string source = r.Text("source");
        return suit is null ? null : suit with
        {
            Helmet = helmet,
            ReserveWork = reserve,
            Purge = purge,
            OwnOxygen = oxygen,
            OwnPower = power,
            Vacuum = vacuum,
            WaterOn = on,
            WaterOff = off,
            Source = source,
        };
    }

    public static PrebreathePlan Prebreathe(MapReader r) => new(
        r.Measure("half_time", Dimension.Time) / 60, r.Measure("start", Dimension.Pressure, aboveZero: false), r.Text("start_is"),
        r.Has("water_vapour") ? r.Measure("water_vapour", Dimension.Pressure, aboveZero: false) : 0,
        r.Has("suit_pressure") ? r.Measure("suit_pressure", Dimension.Pressure) : null,
        r.Has("without_breaks") ? r.Time("without_breaks") : null,
        r.FilledList("parts", "a part of the prebreathe", Part), r.Text("source"));

    public static WorkDay Day(MapReader r) => new(People(r, Kinds.Day), r.Pet("waking"), r.Time("suit_off", least: 0), r.Text("source"));

    private static PrebreathePart Part(MapReader r) => new(
        r.Measure("pressure", Dimension.Pressure), r.Number("oxygen", 0, 1), r.Measure("time", Dimension.Time) / 60, r.Flag("exercise"), r.Flag("break"));

    private static Estimate Rate(MapReader r, string key) => r.Estimate(key, Dimension.Power, "180 / 220 / 280 W");

    // Each person outside stands in one of the lists only: a second figure for the same suit would be one too many.
    private static ImmutableArray<PersonId> People(MapReader r, string once)
    {
        foreach (TextNode node in r.Texts("people")) GiveOnce(r, node, once);
        return r.FilledRefs("people", Kinds.Outside, name => new PersonId(name));
    }

    private static PersonId Whose(MapReader r, string key, string once)
    {
        PersonId person = new(r.Ref(key, Kinds.Outside));
        if (r.Find(key) is TextNode node && person.Value.Length > 0) GiveOnce(r, node, once);
        return person;
    }

    private static void GiveOnce(MapReader r, TextNode node, string once)
    {
        if (!r.Binding.Names.Give(once, node.Text, node.Place, out Place first)) r.Binding.Report(NameProblems.Twice(node.Place, once, node.Text, first));
    }
}
