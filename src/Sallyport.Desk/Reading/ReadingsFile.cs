using System.Collections.Immutable;
using System.Globalization;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>What was read of one suit during a walk.</summary>
/// <param name="Person">Whose.</param>
/// <param name="Oxygen">Primary oxygen left, reading by reading, rising in time.</param>
internal sealed record SuitReading(PersonId Person, ImmutableArray<OxygenReading> Oxygen);

/// <summary>The readings of a walk.</summary>
/// <param name="People">One entry a person.</param>
internal sealed record SuitReadings(ImmutableArray<SuitReading> People);

/// <summary>A file of readings: the list <c>readings</c>, an entry a person, with the pressures of the primary oxygen as they were called.</summary>
internal static class ReadingsFile
{
    private const double Psi = 6894.757293168;

    private sealed record Called(Place Place, Pet At, double Pascals);

    /// <summary>Reads a file against the scenario. What a tank holds by the kilogram follows from what its suit holds between a full tank and the least pressure.</summary>
    public static ReadResult<SuitReadings> Read(string path, Scenario scenario)
    {
        Binding binding = new();
        byte[]? bytes = SourceText.Bytes(path, path, binding.Report);
        SourceText? source = bytes is null ? null : SourceText.From(bytes, path, binding.Report);
        Node? root = source is null ? null : YamlReader.Read(source, binding.Report);
        if (root is null) return binding.Failed<SuitReadings>();
        SuitReadings? readings = binding.Map(root, "a file of readings", reader => new SuitReadings(reader.FilledList("readings", "the readings of a person", inner => Person(inner, scenario))));
        foreach (SuitReading again in readings?.People.GroupBy(one => one.Person).SelectMany(same => same.Skip(1)) ?? [])
            binding.Report(ValueProblems.ListedTwice(binding.PlaceOf(again), again.Person.Value));
        return readings is null || binding.Any ? binding.Failed<SuitReadings>() : binding.Result(readings);
    }

    private static SuitReading? Person(MapReader r, Scenario scenario)
    {
        TextNode? name = r.RequiredText("person", "EV1");
        double kelvin = r.Within("temperature", Dimension.Temperature, 273.15, 300, "0 to 26.85 degC, where the density of oxygen is known here");
        double full = r.Within("full", Dimension.Pressure, Psi, 6000 * Psi, "1 to 6000 psi"), least = r.Within("least", Dimension.Pressure, 0, 6000 * Psi, "0 to 6000 psi");
        double error = r.Measure("error", Dimension.Pressure);
        ImmutableArray<Called> called = r.FilledList("oxygen", "a reading", inner => new Called(inner.Place, inner.Pet("at"), inner.Within("pressure", Dimension.Pressure, 0, 6000 * Psi, "0 to 6000 psi")));
        if (name is null) return null;
        Binding binding = r.Binding;
        PersonId person = new(name.Text);
        if (SuitProfile.Of(scenario, person) is not { } profile)
        {
            binding.Report(NameProblems.Unknown(name.Place, "person outside whose body and suit are described", name.Text,
                scenario.Outside.Where(one => SuitProfile.Of(scenario, one.Id) is not null).Select(one => one.Id.Value)));
            return null;
        }
        if (least >= full) binding.Report(ReadingProblems.Least(r.Place, least / Psi, full / Psi));
        if (called.Length < 2) binding.Report(ReadingProblems.Few(r.Place, person, called.Length));
        for (int i = 0; i < called.Length; i++)
        {
            if (called[i].Pascals > full) binding.Report(ReadingProblems.AboveTank(called[i].Place, called[i].Pascals / Psi, full / Psi));
            if (i > 0 && called[i].At <= called[i - 1].At) binding.Report(ReadingProblems.Order(called[i].Place, called[i].At, called[i - 1].At));
        }
        if (binding.Any) return new(person, []);
        double Density(double pascals) => OxygenGas.KilogramsPerCubicMetre(pascals, kelvin).Likely;
        double volume = profile.Aboard.Oxygen / (Density(full) - Density(least));
        double Left(double pascals) => volume * Math.Max(0, Density(pascals) - Density(least));
        double errorKilograms = volume * (Density(full) - Density(Math.Max(0, full - error)));
        return new(person, [.. called.Select(one => new OxygenReading(one.At, Left(one.Pascals), errorKilograms))]);
    }
}

/// <summary>The texts of problems with readings.</summary>
internal static class ReadingProblems
{
    public static Problem Least(Place place, double least, double full) => FileProblems.At(
        place, "reading.tank", string.Create(CultureInfo.InvariantCulture, $"a least pressure of {least:0.#} psi for a tank that is full at {full:0.#} psi"), "'least' below 'full'", "check both figures and their units.");

    public static Problem Few(Place place, PersonId person, int found) =>
        FileProblems.At(place, "reading.few", $"{found} reading{(found == 1 ? "" : "s")} of {person}", "two at least: what was used lies between them", "add a reading, or take this person out.");

    public static Problem AboveTank(Place place, double pressure, double full) => FileProblems.At(
        place, "reading.above", string.Create(CultureInfo.InvariantCulture, $"{pressure:0.#} psi in a tank that is full at {full:0.#} psi"), "no more than a full tank", "check the figure and its unit, or 'full'.");

    public static Problem Order(Place place, Pet at, Pet before) =>
        FileProblems.At(place, "reading.order", $"a reading at {at} after one at {before}", "readings in the order of time, each later than the one before", "put them in order, or mend the moment.");

    public static Problem Unfit(string path, string why) =>
        FileProblems.Whole(path, "reading.unfit", why, "readings that the plan as walked can have brought about", "check the readings, and that the outline is the one that was walked.");
}
