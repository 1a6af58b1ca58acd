using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What search must know of the fluid net: when a disconnect that can spill is opened, and what shuts and opens lines of liquid.</summary>
internal sealed class FluidCase
{
    public FluidCase(SearchCase all)
    {
        Station station = all.Scenario.Station;
        (Nights, FullNights) = (all.Scenario.Sky.Night, all.Scenario.Sky.FullNight);
        BakeOut = station.BakeOut;
        LeastBudget = all.Scenario.LimitOf("bakeout.budget") is { Value.Dimension: Dimension.Time } limit ? (int)Math.Ceiling(limit.Value.Value) : 0;
        HashSet<FeatureId> spilling =
            [.. station.Disconnects.Select(one => one.Feature).Where(end => station.FluidLines.Any(line => !line.Harmless && line.Ends.Contains(end)))];
        bool Spills(Step step) => step.Fluid is { Opens: true } touch ? station.FluidLines.Any(line => line.Name == touch.Line && !line.Harmless)
            : step.Fluid is null && step.Makes.OfType<MakeFeature>().Any(make => spilling.Contains(make.State.Feature));
        Openings = [.. all.Legs.Select(leg => Ends(leg, Spills))];
        Spilling = [.. all.Legs.Select(leg => Reach.Of(all, leg.Steps.Where(Spills), step => step.Fluid?.Spills ?? Everything))];
        Testing = [.. all.Legs.Select(leg => Reach.Of(all, leg.Steps.Where(step => step.Fluid is { Tests.IsEmpty: false }), step => step.Fluid!.Tests))];
        Clocks = [.. station.FluidLines.Where(line => line.Trapped is not null).Select(line => Clock(all, line)).DistinctBy(clock => clock.Key)];
    }

    /// <summary>What counts as night where sunlight is wanted.</summary>
    public ImmutableArray<PetInterval> Nights { get; }

    /// <summary>What counts as night where sunlight does harm.</summary>
    public ImmutableArray<PetInterval> FullNights { get; }

    public BakeOut? BakeOut { get; }

    /// <summary>The least time wanted for a bake-out and its test, s.</summary>
    public int LeastBudget { get; }

    /// <summary>By leg, when its steps that open a disconnect end, s after its start; the end of all for a leg that may wait in between.</summary>
    public int[][] Openings { get; }

    /// <summary>By leg, who and what it soils; null when it does not.</summary>
    public Reach?[] Spilling { get; }

    /// <summary>By leg, who and what it tests after a bake-out; null when it does not.</summary>
    public Reach?[] Testing { get; }

    public ImmutableArray<LineClock> Clocks { get; }

    private static ImmutableArray<Soiled> Everything { get; } = [Soiled.Person, Soiled.Tool, Soiled.Bag];

    private static LineClock Clock(SearchCase all, FluidLine line)
    {
        Station station = all.Scenario.Station;
        Dictionary<FeatureId, Valve> valves = station.Valves.ToDictionary(valve => valve.Feature);
        // Everything that a disconnect joins to the line is shut off with it.
        List<FluidLine> joined = [line];
        for (int i = 0; i < joined.Count; i++)
            joined.AddRange(station.FluidLines.Where(other => !joined.Contains(other) && other.Ends.Any(end => !valves.ContainsKey(end) && joined[i].Ends.Contains(end))));
        HashSet<FeatureId> own = [.. joined.SelectMany(one => one.Ends).Where(valves.ContainsKey)];
        bool Turns(Step step, bool shut) => step.Makes.OfType<MakeFeature>().Any(make => own.Contains(make.State.Feature) && valves[make.State.Feature].Shut.Contains(make.State.State) == shut);
        (int, int)[] shutting = [.. Moments(all, step => Turns(step, true), last: true)], opening = [.. Moments(all, step => Turns(step, false), last: false)];
        bool vents = all.Legs.SelectMany(leg => leg.Steps).Any(step => step.Fluid is { Vents: true } touch && joined.Any(one => one.Name == touch.Line));
        return new(string.Join(' ', own.Select(end => end.Value).Order(StringComparer.Ordinal)) + $" {line.Trapped!.Value} {line.ShadedAtNight}",
            vents ? [] : shutting, opening, line.Trapped.Value.Seconds, line.ShadedAtNight);
    }

    /// <summary>The legs with such steps, and when the first or last of those ends, s after the start of the leg; the worse where the leg may wait.</summary>
    private static IEnumerable<(int Leg, int After)> Moments(SearchCase all, Func<Step, bool> which, bool last)
    {
        for (int l = 0; l < all.Legs.Length; l++)
        {
            int[] ends = Ends(all.Legs[l], which);
            if (ends.Length == 0) continue;
            yield return (l, all.Legs[l].MayWait ? last ? 0 : -1 : last ? ends[^1] : ends[0]);
        }
    }

    private static int[] Ends(Leg leg, Func<Step, bool> which)
    {
        List<int> ends = [];
        int at = 0;
        foreach (Step step in leg.Steps)
        {
            at += step.Time.Likely.Seconds;
            if (which(step)) ends.Add(at);
        }
        return [.. ends];
    }
}

/// <summary>Who and what a spill reaches in a leg, or a test is made on.</summary>
/// <param name="Person">Whether whoever does the leg.</param>
/// <param name="Bags">Whether the bags at hand.</param>
/// <param name="Things">Whether what is carried, in bags or not.</param>
/// <param name="Needed">What the steps need, as parcels; that in which it lies where it begins in a bag.</param>
internal sealed record Reach(bool Person, bool Bags, bool Things, ulong Needed)
{
    public static Reach? Of(SearchCase all, IEnumerable<Step> steps, Func<Step, ImmutableArray<Soiled>> who)
    {
        Reach? reach = null;
        foreach (Step step in steps)
        {
            ImmutableArray<Soiled> these = who(step);
            reach ??= new(false, false, false, 0);
            reach = new(reach.Person || these.Contains(Soiled.Person), reach.Bags || these.Contains(Soiled.Bag), reach.Things || these.Contains(Soiled.Tool),
                reach.Needed | (these.Contains(Soiled.Tool) ? step.Needs.OfType<NeedGear>().Aggregate(0UL, (mask, need) => mask | ParcelOf(all, need.Gear)) : 0));
        }
        return reach;
    }

    private static ulong ParcelOf(SearchCase all, GearId gear)
    {
        for (int depth = 0; depth <= all.Scenario.Gear.Length; depth++)
        {
            if (all.GearIndex.TryGetValue(gear, out int parcel)) return 1UL << parcel;
            if (all.Scenario.Gear.First(one => one.Id == gear).Start is not { Kind: LocationKind.Bag } bag) return 0;
            gear = new(bag.Name);
        }
        return 0;
    }
}

/// <summary>A line of liquid with the legs that shut it off and those that open it again.</summary>
/// <param name="Key">The same for lines that are shut and opened together and take as much.</param>
/// <param name="Shutting">By leg, when it is shut, s after the start of the leg; none where the line is let off.</param>
/// <param name="Opening">By leg, when it is opened; -1 for the end of the leg.</param>
/// <param name="Longest">The longest in the sun, s.</param>
/// <param name="ShadedAtNight">Whether nights do not count.</param>
internal sealed record LineClock(string Key, (int Leg, int After)[] Shutting, (int Leg, int After)[] Opening, int Longest, bool ShadedAtNight);
