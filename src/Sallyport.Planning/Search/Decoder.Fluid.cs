using System.Numerics;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>The fluid net: time kept for a bake-out, nothing soiled brought in, and lines of liquid that are not left shut off in the sun.</summary>
internal sealed partial class Decoder
{
    // Parcels and people that a spill has soiled, as bits, and since when.
    private ulong soiledParcels;
    private int soiledPeople;
    private readonly int[] soiledSince, personSoiledSince;

    /// <summary>Bags taken from where they hung, and when: a spill decoded later may have come before.</summary>
    private readonly List<(int Bag, int Place, int Until)> hung = [];

    /// <summary>By place, until when something may be spilled there on bags; what hangs there before then is soiled, whenever it is decoded.</summary>
    private readonly int[] spillsUntil;

    // What must not lie in a spill: it comes in at the end.
    private readonly ulong insideMask, bagMask;

    private void DoFluid(int p, int l, int start, int end)
    {
        if (all.Fluid.Openings[l].Length > 0) CheckBakeOut(l, start, end);
        if (all.Fluid.Spilling[l] is { } spill)
        {
            soiledParcels |= ReachedBy(p, l, spill);
            for (ulong rest = ReachedBy(p, l, spill); rest != 0; rest &= rest - 1) soiledSince[BitOperations.TrailingZeroCount(rest)] = end;
            foreach ((int bag, int at, int until) in hung)
                if (spill.Bags && at == all.Data[l].Place && until > start)
                {
                    soiledParcels |= 1UL << bag;
                    soiledSince[bag] = end;
                }
            if (spill.Bags && all.Data[l].Place >= 0) spillsUntil[all.Data[l].Place] = Math.Max(spillsUntil[all.Data[l].Place], end);
            if (spill.Person) (soiledPeople, personSoiledSince[p]) = (soiledPeople | 1 << p, end);
        }
        if (all.Fluid.Testing[l] is { } test && all.Fluid.BakeOut is { } bakeOut) TestSoiled(p, test, bakeOut, start);
        Touch(p);
    }

    private void TestSoiled(int p, Reach test, BakeOut bakeOut, int start)
    {
        // What hangs beside the person is not counted as tested: what is in it may not be reached, or it may come there later.
        ulong tested = CarriedIn(p, test) & soiledParcels;
        int since = int.MinValue;
        for (ulong rest = tested; rest != 0; rest &= rest - 1) since = Math.Max(since, soiledSince[BitOperations.TrailingZeroCount(rest)]);
        if (test.Person && (soiledPeople >> p & 1) != 0)
        {
            since = Math.Max(since, personSoiledSince[p]);
            soiledPeople &= ~(1 << p);
        }
        soiledParcels &= ~tested;
        if (since == int.MinValue) return;
        // The wait for the sun is written at the leg that tests; what it lacks counts.
        broken += Math.Max(0, bakeOut.Sunlit.Seconds - Sunlight.Seconds(all.Fluid.Nights, Pet.FromSeconds(since), Pet.FromSeconds(Math.Max(since, start))));
    }

    /// <summary>A person, what hangs on that person and what more is touched: where one is soiled, all are, as lately as the newest.</summary>
    private void Touch(int p, ulong more = 0)
    {
        if (soiledPeople == 0 && soiledParcels == 0) return;
        ulong near = held[p] | more;
        int since = (soiledPeople >> p & 1) != 0 ? personSoiledSince[p] : int.MinValue;
        for (ulong rest = near & soiledParcels; rest != 0; rest &= rest - 1) since = Math.Max(since, soiledSince[BitOperations.TrailingZeroCount(rest)]);
        if (since == int.MinValue) return;
        (soiledPeople, personSoiledSince[p], soiledParcels) = (soiledPeople | 1 << p, since, soiledParcels | near);
        for (ulong rest = near; rest != 0; rest &= rest - 1) soiledSince[BitOperations.TrailingZeroCount(rest)] = since;
    }

    private void TakenFrom(int k, int from, int takenAt)
    {
        if ((bagMask >> k & 1) != 0) hung.Add((k, from, takenAt));
    }

    private void HungInSpill(int k, int stow, int hungAt)
    {
        if (spillsUntil[stow] < hungAt || (bagMask >> k & 1) == 0) return;
        soiledParcels |= 1UL << k;
        soiledSince[k] = spillsUntil[stow];
    }

    private ulong CarriedIn(int p, Reach reach) => (reach.Bags ? held[p] & bagMask : 0) | (reach.Things ? held[p] : 0);

    private ulong ReachedBy(int p, int l, Reach reach)
    {
        ulong reached = reach.Needed | CarriedIn(p, reach);
        if (!reach.Bags || all.Data[l].Place < 0) return reached;
        for (int k = 0; k < parcels; k++)
            if (place[k] == all.Data[l].Place && (bagMask >> k & 1) != 0) reached |= 1UL << k;
        return reached;
    }

    /// <summary>Counts whoever and whatever comes in soiled.</summary>
    private void CheckSoiled() => broken += (long)Impossible * (BitOperations.PopCount((uint)soiledPeople) + BitOperations.PopCount(soiledParcels & insideMask));

    /// <summary>Hangs outside what is soiled and carried.</summary>
    private void LeaveSoiledOutside()
    {
        if (soiledParcels == 0) return;
        for (int p = 0; p < people; p++)
            for (ulong rest = held[p] & soiledParcels & ~insideMask & ~homeMask; rest != 0; rest &= rest - 1)
            {
                int stow = -1, least = int.MaxValue;
                foreach (int candidate in all.Stows)
                {
                    int far = Distance(p, candidate);
                    if (far < least) (stow, least) = (candidate, far);
                }
                if (stow < 0) broken += Impossible;
                else PutDown(p, BitOperations.TrailingZeroCount(rest), stow, -1);
            }
    }

    /// <summary>The budget rule where a leg opens disconnects. Everybody's way in is taken as long as the return rules allow, which is never too short.</summary>
    private void CheckBakeOut(int l, int start, int end)
    {
        FluidCase fluid = all.Fluid;
        if (fluid.BakeOut is not { } bakeOut) return;
        foreach (int after in fluid.Openings[l])
        {
            Pet opened = Pet.FromSeconds(all.Legs[l].MayWait ? end : start + after);
            int clean = Sunlight.After(fluid.Nights, opened, bakeOut.Sunlit.Seconds).Seconds + bakeOut.Test.Seconds;
            int done = Math.Max(clean, opened.Seconds + fluid.LeastBudget);
            if (all.PetLimit < SearchCase.Never && all.ReturnBoth < SearchCase.Never) broken += Math.Max(0, done + all.ReturnBoth - all.PetLimit);
            for (int p = 0; p < people && all.ReturnOne < SearchCase.Never; p++) broken += Math.Max(0, done + all.ReturnOne - all.CutOff[p]);
        }
    }

    /// <summary>Counts how long lines of liquid are shut off in the sun beyond what they take.</summary>
    private void CheckTrapped()
    {
        foreach (LineClock clock in all.Fluid.Clocks)
            if (ShutOff(clock) is var (shut, opened, _)) broken += InSunTooLong(clock, shut, opened);
    }

    /// <summary>When a line is shut off, when it is opened again and by which leg; null when either does not happen.</summary>
    private (int Shut, int Opened, int Opens)? ShutOff(LineClock clock)
    {
        int shut = int.MaxValue, opened = int.MaxValue, opens = -1;
        foreach ((int leg, int after) in clock.Shutting)
            if (legIn[leg]) shut = Math.Min(shut, legStart[leg] + after);
        foreach ((int leg, int after) in clock.Opening)
            if (legIn[leg] && legEnd[leg] > shut && (after < 0 ? legEnd[leg] : legStart[leg] + after) is var at && at < opened) (opened, opens) = (at, leg);
        return shut == int.MaxValue || opens < 0 ? null : (shut, opened, opens);
    }

    private int InSunTooLong(LineClock clock, int shut, int until) => until - shut <= clock.Longest ? 0
        : Math.Max(0, Sunlight.Seconds(clock.ShadedAtNight ? all.Fluid.FullNights : [], Pet.FromSeconds(shut), Pet.FromSeconds(until)) - clock.Longest);
}
