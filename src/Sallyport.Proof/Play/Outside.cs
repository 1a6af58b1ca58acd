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
        Set(world, world.Register.Light, Within(scenario.Sky.FullNight, now) ? "night" : Within(scenario.Sky.Night, now) ? "twilight" : "day");
        if (scenario.Sky.Radiation is { } radiation) Set(world, world.Register.Radiation, Within(radiation, now) ? "high" : "low");
        foreach (SiteLight site in scenario.Sky.Sites) Set(world, world.Register.SiteLights[site.Site], SunAt(site, now));
        // Lost from the end of the command that turns off to the end of the one that turns on.
        bool cut = scenario.Consoles.SelectMany(console => console.Shutdowns)
            .Any(shutdown => shutdown.CutsLink && world.State(world.Register.Shutdowns[shutdown.Id]) is "off" or "going on");
        Set(world, world.Register.Link, cut || Within(scenario.Sky.NoLink, now) ? "none" : "link");
        bool mute = Within(scenario.Sky.NoVoice, now) || scenario.Sky.VoiceLost.Any(condition => Holds(world, condition));
        Set(world, world.Register.Voice, mute ? "none" : "voice");
        if (world.State(world.Register.Link) == "none") world.SeenSoFar.Clear();
        Charge.Update(world, now);
        foreach (Zone zone in scenario.Station.Zones)
        {
            bool closed = Within(zone.Times, now)
                || (zone.Light is { } light && world.State(world.Register.Light) != (light == LightCondition.Day ? "night" : "day"))
                || zone.While.Any(condition => Holds(world, condition));
            Set(world, world.Register.Zones[zone.Id], closed ? "closed" : "open");
        }
        world.Fluid.Update();
    }

    private static string SunAt(SiteLight site, Pet now)
    {
        SunAtSite sun = SunAtSite.None;
        foreach ((Pet from, SunAtSite then) in site.Changes)
            if (from <= now) sun = then;
        return sun.ToString().ToLowerInvariant();
    }

    private static bool Holds(World world, FeatureCondition condition) => condition.States.Contains(world.State(world.Register.Features[condition.Feature]));

    private static void Set(World world, int variable, string state)
    {
        if (world.State(variable) != state) world.Become(variable, state);
    }

    private static bool Within(IEnumerable<PetInterval> intervals, Pet now)
    {
        foreach (PetInterval interval in intervals)
            if (interval.From <= now && now < interval.To) return true;
        return false;
    }
}
