using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What no activity does: light, link, the charge of capacitors, zones that follow from times, light and features, and lines that follow from valves.</summary>
internal static class Outside
{
    /// <summary>Every moment at which the clock alone changes something.</summary>
    public static IEnumerable<Pet> Moments(Scenario scenario) =>
        scenario.Sky.Night.Concat(scenario.Sky.FullNight).Concat(scenario.Sky.NoLink).Concat(scenario.Sky.NoVoice).Concat(scenario.Sky.Radiation ?? [])
            .Concat(scenario.Station.Zones.SelectMany(zone => zone.Times))
            .SelectMany(interval => new[] { interval.From, interval.To })
            .Concat(scenario.Sky.Sites.SelectMany(site => site.Changes).Select(change => change.From));

    /// <summary>Sets light, link, zones and lines as they are at this moment, features being what they are.</summary>
    public static void Update(World world, Pet now)
    {
        Scenario scenario = world.Scenario;
        Set(world, world.Register.Light, Intervals.Holds(world.Times.FullNight, now) ? "night" : Intervals.Holds(world.Times.Night, now) ? "twilight" : "day");
        if (world.Times.Radiation is { } radiation) Set(world, world.Register.Radiation, Intervals.Holds(radiation, now) ? "high" : "low");
        foreach ((SiteLight site, int sun) in world.Register.SiteLights) Set(world, sun, SunAt(site, now));
        // Lost from the end of the command that turns off to the end of the one that turns on.
        bool cut = false;
        foreach (ShutdownId shutdown in world.Lookup.LinkCuts) cut |= world.State(world.Register.Shutdowns[shutdown]) is "off" or "going on";
        Set(world, world.Register.Link, cut || Intervals.Holds(world.Times.NoLink, now) ? "none" : "link");
        bool mute = Intervals.Holds(world.Times.NoVoice, now) || scenario.Sky.VoiceLost.Any(condition => Holds(world, condition));
        Set(world, world.Register.Voice, mute ? "none" : "voice");
        if (world.State(world.Register.Link) == "none") world.SeenSoFar.Clear();
        Charge.Update(world, now);
        foreach ((Zone zone, int state) in world.Register.ZoneStates)
        {
            bool closed = Intervals.Holds(world.Times.Closed[zone.Id], now)
                || (zone.Light is { } light && world.State(world.Register.Light) != (light == LightCondition.Day ? "night" : "day"))
                || zone.While.Any(condition => Holds(world, condition));
            Set(world, state, closed ? "closed" : "open");
        }
        world.Fluid.Update();
    }

    /// <summary>By halving: a long walk sees the Sun move many times.</summary>
    private static string SunAt(SiteLight site, Pet now)
    {
        ReadOnlySpan<(Pet From, SunAtSite Sun)> changes = site.Changes.AsSpan();
        int before = 0, after = changes.Length;
        while (before < after)
        {
            int middle = (before + after) / 2;
            if (changes[middle].From <= now) before = middle + 1;
            else after = middle;
        }
        return Register.Suns[(int)(before == 0 ? SunAtSite.None : changes[before - 1].Sun)];
    }

    private static bool Holds(World world, FeatureCondition condition) => condition.States.Contains(world.State(world.Register.Features[condition.Feature]));

    private static void Set(World world, int variable, string state)
    {
        if (world.State(variable) != state) world.Become(variable, state);
    }
}

/// <summary>When the clock alone makes something so, in order and without overlap.</summary>
internal sealed class ClockTimes(Scenario scenario)
{
    public ImmutableArray<PetInterval> Night { get; } = Intervals.Join(scenario.Sky.Night);

    public ImmutableArray<PetInterval> FullNight { get; } = Intervals.Join(scenario.Sky.FullNight);

    /// <summary>Null when nobody has said.</summary>
    public ImmutableArray<PetInterval>? Radiation { get; } = scenario.Sky.Radiation is { } radiation ? Intervals.Join(radiation) : null;

    public ImmutableArray<PetInterval> NoLink { get; } = Intervals.Join(scenario.Sky.NoLink);

    public ImmutableArray<PetInterval> NoVoice { get; } = Intervals.Join(scenario.Sky.NoVoice);

    public Dictionary<ZoneId, ImmutableArray<PetInterval>> Closed { get; } = scenario.Station.Zones.ToDictionary(zone => zone.Id, zone => Intervals.Join(zone.Times));
}
