using System.Collections.Immutable;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>The sky of a sortie, for showing.</summary>
/// <param name="Scenario">The scenario, its sky as plans take it.</param>
/// <param name="Orbit">What the sky was computed from; null when it is given by hand.</param>
/// <param name="Times">What was computed; null with it.</param>
public sealed record SkyReport(Scenario Scenario, ScenarioOrbit? Orbit, SkyTimes? Times)
{
    /// <summary>The PET that is shown: what was computed, or the whole of what was given.</summary>
    public PetInterval Span
    {
        get
        {
            if (Times is { } times) return times.Span;
            PetInterval[] given = [.. Scenario.Sky.Night, .. Scenario.Sky.NoLink, .. Scenario.Sky.NoVoice, .. Scenario.Sky.Radiation ?? []];
            int last = Math.Max(ScenarioOrbit.LimitOf(Scenario), given.Select(one => one.To.Seconds).DefaultIfEmpty(0).Max());
            return new(Pet.FromSeconds(Math.Min(0, given.Select(one => one.From.Seconds).DefaultIfEmpty(0).Min())), Pet.FromSeconds(Math.Max(3600, last)));
        }
    }

    /// <summary>Those stretches of a list that lie in the span, cut to it: beyond it nothing is known, and plans are told so.</summary>
    public ImmutableArray<PetInterval> Shown(ImmutableArray<PetInterval> stretches)
    {
        PetInterval span = Span;
        return [.. stretches.Select(one => new PetInterval(one.From < span.From ? span.From : one.From, one.To > span.To ? span.To : one.To)).Where(one => one.From < one.To)];
    }

    /// <summary>The report as text.</summary>
    public string Text() => SkyText.Of(this);

    /// <summary>The report as JSON.</summary>
    public byte[] Json() => SkyJson.Of(this);

    /// <summary>The report as a strip along PET.</summary>
    public Picture Strip()
    {
        Sky sky = Scenario.Sky;
        List<SkyRow> rows = [new("light", SkyMark.Night, Shown(sky.Night), "night"), new("", SkyMark.FullNight, Shown(sky.FullNight), "")];
        if (Times is { } times)
            foreach (NamedPassages one in times.Stations.Concat(times.Relays)) rows.Add(new(one.Name, SkyMark.Sight, times.Surely(one.Passages), ""));
        rows.Add(new("loss of signal", SkyMark.NoLink, Shown(sky.NoLink), ""));
        if (sky.Radiation is { } radiation) rows.Add(new("high radiation", SkyMark.Radiation, Shown(radiation), ""));
        if (!sky.NoVoice.IsEmpty) rows.Add(new("no voice", SkyMark.NoLink, Shown(sky.NoVoice), ""));
        string facts = string.Join(" · ", SkyText.Facts(this));
        return SkyStrip.Draw(Scenario.Sortie.Title, facts, Scenario.Sortie.PetZero, Span, [.. rows]);
    }

    /// <summary>Writes the strip, as SVG or PNG by the end of the name.</summary>
    /// <returns>Null, or the problem, and then nothing was written.</returns>
    public Problem? WriteStrip(string path)
    {
        Picture strip = Strip();
        byte[] content = path.EndsWith(".png", StringComparison.OrdinalIgnoreCase) ? PngWriter.Write(strip) : Encoding.UTF8.GetBytes(SvgWriter.Write(strip));
        return PlanFiles.WriteAll(Path.GetDirectoryName(Path.GetFullPath(path))!, [(Path.GetFileName(path), content)]);
    }
}
