using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>A thermal clock by index: its conditions as bits, and what the steps of legs make of them.</summary>
internal sealed class ClockCase
{
    public ClockCase(SearchCase all, HeatClock clock)
    {
        List<WorldCondition> conditions = [];
        ulong Bits(IEnumerable<WorldCondition> some) => some.Aggregate(0UL, (bits, condition) => bits | 1UL << Index(conditions, condition));
        While = Bits(clock.While);
        Rates = [.. clock.Lasts.Select(rate => (Bits(rate.When), rate.Time.Seconds))];
        if (conditions.Count > 63) throw new NotSupportedException($"the clock {clock.Id} has {conditions.Count} conditions; search holds at most 63");
        MayRunOn = clock.MayRunOn;
        for (int bit = 0; bit < conditions.Count; bit++)
        {
            ulong one = 1UL << bit;
            switch (conditions[bit])
            {
                case FeatureIs feature:
                    if (feature.Condition.States.Contains(all.Scenario.Station.Features.First(known => known.Id == feature.Condition.Feature).Start)) Start |= one;
                    break;
                case GearIsIn gear:
                    if (all.Scenario.Gear.First(known => known.Id == gear.Gear).Start == gear.Place) Start |= one;
                    break;
                case LightIs { Light: LightCondition.Night }:
                    Night |= one;
                    break;
                case LightIs:
                    Day |= one;
                    break;
                case IsShutDown shutdown:
                    Shutdowns.Add((Array.FindIndex(all.Shutdowns, known => known.Shutdown.Id == shutdown.Shutdown), one));
                    break;
            }
        }
        if ((Day | Night) != 0) LightTurns = [.. LightOf(all.Scenario.Sky)];
        for (int l = 0; l < all.Legs.Length; l++)
            for (int s = 0; s < all.Legs[l].Steps.Length; s++)
                foreach (Effect effect in all.Legs[l].Steps[s].Makes)
                    for (int bit = 0; bit < conditions.Count; bit++)
                        if (Makes(all.Legs[l], effect, conditions[bit]) is { } holds) Changes.Add((l, s, 1UL << bit, holds));
    }

    /// <summary>It runs while all of these hold.</summary>
    public ulong While { get; }

    /// <summary>How long it lasts from fresh, s, by the first whose conditions all hold.</summary>
    public (ulong When, int Lasts)[] Rates { get; }

    public bool MayRunOn { get; }

    /// <summary>What holds at the start, light aside.</summary>
    public ulong Start { get; }

    public ulong Day { get; }

    public ulong Night { get; }

    /// <summary>The bit that says that it is twilight, and no condition of any clock.</summary>
    public const ulong Twilight = 1UL << 63;

    /// <summary>What day, twilight and night change, in order; empty when light does not matter to it.</summary>
    public (int At, ulong Bits, bool Holds)[] LightTurns { get; } = [];

    /// <summary>The shutdowns that it looks at, each with its bit.</summary>
    public List<(int Shutdown, ulong Bit)> Shutdowns { get; } = [];

    /// <summary>What the ends of steps change: the leg, the step, the bit, and whether it holds then.</summary>
    public List<(int Leg, int Step, ulong Bit, bool Holds)> Changes { get; } = [];

    private IEnumerable<(int At, ulong Bits, bool Holds)> LightOf(Sky sky)
    {
        ulong now = Day;
        foreach (Pet at in sky.Night.Concat(sky.FullNight).SelectMany(night => new[] { night.From, night.To }).Distinct().Order())
        {
            bool In(IEnumerable<PetInterval> nights) => nights.Any(night => night.From <= at && at < night.To);
            ulong next = In(sky.FullNight) ? Night : In(sky.Night) ? Twilight : Day;
            if (next == now) continue;
            yield return (at.Seconds, now, false);
            yield return (at.Seconds, next, true);
            now = next;
        }
    }

    private static int Index(List<WorldCondition> conditions, WorldCondition condition)
    {
        int known = conditions.IndexOf(condition);
        if (known >= 0) return known;
        conditions.Add(condition);
        return conditions.Count - 1;
    }

    /// <summary>Whether an effect makes a condition hold or not; null when it leaves it.</summary>
    private static bool? Makes(Leg leg, Effect effect, WorldCondition condition) => (effect, condition) switch
    {
        (MakeFeature make, FeatureIs feature) when make.State.Feature == feature.Condition.Feature => feature.Condition.States.Contains(make.State.State),
        (MoveGear move, GearIsIn gear) when move.Gear == gear.Gear =>
            gear.Place == (move.To is { Kind: LocationKind.Site, Name.Length: 0 } ? new Location(LocationKind.Site, leg.Site.Value) : move.To),
        _ => null,
    };
}
