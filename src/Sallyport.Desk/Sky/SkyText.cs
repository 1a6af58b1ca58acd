using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>The sky of a sortie as text.</summary>
internal static class SkyText
{
    public static string Of(SkyReport report)
    {
        Scenario scenario = report.Scenario;
        Sky sky = scenario.Sky;
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"{scenario.Sortie.Title}: the sky, PET {report.Span.From} to {report.Span.To}\n{Caution.Text}\n\n");
        foreach (string fact in Facts(report)) text.Append(fact).Append(".\n");
        if (report is { Orbit: { } orbit, Times: { } times } && times.ElementAge > orbit.NoteAfter)
            text.Append(CultureInfo.InvariantCulture, $"OLD ELEMENTS: more than {orbit.NoteAfter:0.#} days; every time below may be minutes off.\n");

        text.Append(CultureInfo.InvariantCulture, $"\n{"night",-22}  {"PET from",9}  {"PET to",9}  {"UTC from",14}  {"UTC to",14}  {"lasts",-13}  fully dark, PET\n");
        foreach (PetInterval night in report.Shown(sky.Night))
        {
            PetInterval[] dark = [.. sky.FullNight.Where(one => night.From <= one.From && one.To <= night.To)];
            Row(text, scenario, "not full day", night, dark.Length == 0 ? "never" : string.Join(", ", dark.Select(one => $"{one.From} to {one.To}")));
        }
        if (report.Times is { } known)
        {
            Section(text, "in sight");
            foreach (NamedPassages one in known.Stations.Concat(known.Relays))
            {
                ImmutableArray<PetInterval> passes = known.Surely(one.Passages);
                foreach (PetInterval pass in passes) Row(text, scenario, one.Name, pass);
                if (passes.IsEmpty) text.Append(CultureInfo.InvariantCulture, $"{one.Name,-22}  never\n");
            }
        }
        Section(text, "loss of signal");
        foreach (PetInterval gap in report.Shown(sky.NoLink)) Row(text, scenario, "no link", gap);
        if (!sky.NoVoice.IsEmpty)
        {
            Section(text, "no voice outside");
            foreach (PetInterval gap in report.Shown(sky.NoVoice)) Row(text, scenario, "no voice", gap);
        }
        Section(text, "high radiation");
        if (sky.Radiation is not { } radiation) text.Append("not given: no plan here is checked for it\n");
        else
        {
            ImmutableArray<PetInterval> passes = report.Shown(radiation);
            foreach (PetInterval pass in passes) Row(text, scenario, "high radiation", pass);
            if (passes.IsEmpty) text.Append("none\n");
        }
        text.Append("\nTimes are as plans take them: day, darkness and links rounded inward, all else outward.\n");
        return text.ToString();
    }

    /// <summary>Where the times come from, in short sentences without their full stop.</summary>
    public static IEnumerable<string> Facts(SkyReport report)
    {
        yield return string.Create(CultureInfo.InvariantCulture, $"PET 0:00 is {report.Scenario.Sortie.PetZero:yyyy-MM-dd HH:mm:ss} UTC");
        if (report is { Orbit: { } orbit, Times: { } times })
        {
            yield return string.Create(CultureInfo.InvariantCulture,
                $"Elements of {orbit.Elements.Name}, epoch {orbit.Elements.Epoch:yyyy-MM-dd HH:mm:ss} UTC, {RoundedUp(times.ElementAge):0.0} days from the far end of this (note after {orbit.NoteAfter:0.#}, refused after {orbit.RefuseAfter:0.#})");
            yield return string.Create(CultureInfo.InvariantCulture, $"Beta {times.Beta:0.0} deg at the middle");
        }
        else
            yield return "Given by hand, not computed from an orbit";
        yield return $"Source: {report.Scenario.Sky.Source}";
    }

    private static double RoundedUp(double days) => Math.Ceiling(days * 10) / 10;

    private static void Section(StringBuilder text, string title) =>
        text.Append(CultureInfo.InvariantCulture, $"\n{title,-22}  {"PET from",9}  {"PET to",9}  {"UTC from",14}  {"UTC to",14}  lasts\n");

    private static void Row(StringBuilder text, Scenario scenario, string what, PetInterval stretch, string more = "")
    {
        string Utc(Pet pet) => scenario.Sortie.PetZero.AddSeconds(pet.Seconds).ToString("MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
        string lasts = stretch.To.Since(stretch.From).ToString();
        text.Append(CultureInfo.InvariantCulture, $"{what,-22}  {stretch.From,9}  {stretch.To,9}  {Utc(stretch.From),14}  {Utc(stretch.To),14}  {(more.Length > 0 ? $"{lasts,-13}  {more}" : lasts)}\n");
    }
}
