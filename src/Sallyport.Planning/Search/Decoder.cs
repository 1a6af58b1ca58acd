using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>
/// Turns an order of units, who does each and which jobs are in, into a plan with every bag move, meeting and arm session in it, and its times.
/// One decoder serves one thread of search; decoding allocates nothing.
/// </summary>
internal sealed partial class Decoder
{
    /// <summary>What one impossible thing counts as, in seconds.</summary>
    private const int Impossible = 1_000_000;

    private readonly SearchCase all;
    private readonly int people, parcels;
    private readonly PlaceWays[] ways;

    // One person.
    private readonly int[] time, mooring, load, socketIn, armOn, pointsUsed;
    private readonly ulong[] held;
    private readonly int[] inEach, sharing, outEnd, inAfter, rootPlace, isOut, isIn;
    private readonly int closeMost;

    // One person: what the work took above rest, J of factor one.
    private readonly double[] burnt;

    // One parcel.
    private readonly int[] startPlace, startSocket, endPlace;
    private readonly int[] place, holder, pluggedIn, pluggedBy, readyAt, pointOf;
    private readonly string?[] setting;
    private readonly ulong[] loadMask;
    private readonly int[][] pointMask;
    private readonly int[][] pointOrder;

    // One socket: who took the last restraint out of it, and which.
    private readonly int[] clearedBy, clearedOf;

    // One arm.
    private readonly int[] armPose, armFree, armRider, armMount;

    private readonly int[] legStart, legEnd, legDoer, legBefore, lastLeg;

    // From the ride to a leg's pose until the ride away from it; the leg's own times for legs done elsewhere.
    private readonly int[] rideStart, rideEnd;
    private readonly bool[] legIn;
    private readonly (int From, int To, int First, int Last)[] runs;
    private readonly (int From, int To)[] cut;
    private int cuts;
    private readonly ulong homeMask;

    /// <summary>By person, what must come in through that person's airlock before anybody, and so cannot come in hanging on somebody.</summary>
    private readonly ulong[] beforePeople;

    /// <summary>What is meant to stay outside.</summary>
    private readonly ulong staysMask;

    private readonly BagLoads bags;
    private readonly ulong[] parcelLegs;

    private bool[] jobIn = [];

    // How the gear of the unit under way is brought, and whether that of any unit is taken along before.
    private Bringing chosen;
    private bool anyAhead;

    // One parcel: the leg for which it was taken along before.
    private readonly int[] aheadFor;
    private int at;
    private long broken;
    private int walked, leastMargin;
    private List<Deed>? journal;

    public Decoder(SearchCase all)
    {
        this.all = all;
        people = all.People.Length;
        parcels = all.Parcels.Length;
        ways = all.Ways;
        (time, mooring, load, socketIn, armOn, pointsUsed) = (new int[people], new int[people], new int[people], new int[people], new int[people], new int[people]);
        held = new ulong[people];
        burnt = new double[people];
        (place, holder, pluggedIn, pluggedBy, readyAt, pointOf) = (new int[parcels], new int[parcels], new int[parcels], new int[parcels], new int[parcels], new int[parcels]);
        setting = new string?[parcels];
        aheadFor = new int[parcels];
        int sockets = all.Scenario.Station.Sockets.Length;
        (clearedBy, clearedOf) = (new int[sockets], new int[sockets]);
        int arms = all.ArmData.Length;
        (armPose, armFree, armRider, armMount) = (new int[arms], new int[arms], new int[arms], new int[arms]);
        (legStart, legEnd, legDoer, legBefore, lastLeg) = (new int[all.Legs.Length], new int[all.Legs.Length], new int[all.Legs.Length], new int[all.Legs.Length], new int[people]);
        (rideStart, rideEnd, notedTo, rides) = (new int[all.Legs.Length], new int[all.Legs.Length], new int[people], new LastRide[people]);
        legIn = new bool[all.Legs.Length];
        runs = new (int, int, int, int)[all.Legs.Length];
        cut = new (int, int)[all.Legs.Length * Math.Max(1, all.Shutdowns.Length)];
        window = new (int, int, int)[cut.Length];
        go = new (GoCase, int, int)[all.Data.Sum(leg => leg.Gos.Length)];
        sending = new Sending[2 * cut.Length + go.Length];
        turn = new (int, ulong, bool)[all.Clocks.Select(clock => clock.LightTurns.Length + clock.Changes.Count + 2 * clock.Shutdowns.Count * window.Length).DefaultIfEmpty(0).Max()];
        talks = [.. Enumerable.Range(0, all.Conversations).Select(_ => new (int, int, int)[all.Units.Length])];
        (talking, ledFrom) = (new int[all.Conversations], new int[all.Legs.Length]);

        Airlock[] airlocks = [.. all.Airlocks.Select(index => all.Scenario.Station.Airlocks[index])];
        inEach = [.. airlocks.Select(airlock => airlock.InEach.Seconds)];
        rootPlace = [.. airlocks.Select(airlock => all.PlaceIndex[airlock.Grip])];
        sharing = [.. all.Airlocks.Select(airlock => all.Airlocks.Count(index => index == airlock))];
        outEnd = [.. airlocks.Select((airlock, p) => airlock.OutEach.Seconds * sharing[p] + airlock.OutBags.Seconds + airlock.OutCheck.Seconds)];
        isOut = [.. airlocks.Select((airlock, p) => airlock.OutEach.Seconds * (1 + all.Turn[p]) + (all.Turn[p] > 0 ? airlock.OutBags.Seconds : 0))];
        // Who went out last comes in first.
        isIn = [.. airlocks.Select((airlock, p) => airlock.Inventory.Seconds + airlock.InBags.Seconds + airlock.InEach.Seconds * (sharing[p] - all.Turn[p]))];
        helperAt = new int[people];
        helpStands = [.. all.People.Select(_ => new List<HelpStand>())];
        (checkedAt, restedAt, since, leaves) = (new int[people], new int[people], new int[people], new int[people]);
        (rough, calledOut, walksFrom, walkEnded) = (new bool[people], new bool[people], new int[people], new int[people]);
        arrived = new int[people];
        closeMost = airlocks.Select(airlock => airlock.Close.Seconds).DefaultIfEmpty(0).Max();
        inAfter = [.. airlocks.Select((airlock, p) => airlock.Inventory.Seconds + airlock.InBags.Seconds + airlock.InEach.Seconds * sharing[p])];

        loadMask = new ulong[all.Slower.Length];
        pointMask = [.. all.People.Select(person => all.Parcels.Select(parcel =>
            person.CarryPoints.Select((point, i) => parcel.Fits(point) ? 1 << i : 0).Sum()).ToArray())];
        // The least flexible point first, so that points which take more stay free for what needs them.
        pointOrder = [.. all.People.Select(person => Enumerable.Range(0, person.CarryPoints.Length)
            .OrderBy(i => person.CarryPoints[i].Sizes.Length).ThenBy(i => person.CarryPoints[i].MaxMass).ToArray())];
        for (int k = 0; k < parcels; k++)
        {
            double slower = all.Scenario.Sizes.First(size => size.Id == all.Parcels[k].Gear.Size).Slower;
            for (int c = 0; c < all.Slower.Length; c++)
                if (slower >= all.Slower[c]) loadMask[c] |= 1UL << k;
            if (all.Parcels[k].Gear.End is { Kind: LocationKind.Inside or LocationKind.Grip }) homeMask |= 1UL << k;
            if (all.Parcels[k].Gear.Stays is not null) staysMask |= 1UL << k;
        }
        beforePeople = [.. airlocks.Select(airlock => all.Parcels.Select((parcel, k) => airlock.Room?.BeforePeople.Contains(parcel.Gear.Size) == true ? 1UL << k : 0)
            .Aggregate(0UL, (mask, one) => mask | one))];
        bags = new(all);
        startPlace = [.. all.Parcels.Select(parcel => StartPlace(parcel.Gear))];
        endPlace = [.. all.Parcels.Select(parcel => parcel.Gear.End is { Kind: LocationKind.Grip } end ? all.PlaceIndex[new(end.Name)] : -1)];
        startSocket = [.. all.Parcels.Select(parcel => parcel.Gear.Start.Kind == LocationKind.Socket
            ? all.Scenario.Station.Sockets.IndexOf(all.Scenario.Station.Sockets.First(socket => socket.Id.Value == parcel.Gear.Start.Name)) : -1)];
        (soiledSince, personSoiledSince) = (new int[parcels], new int[people]);
        spillsUntil = new int[all.Places.Length];
        for (int k = 0; k < parcels; k++)
        {
            if (all.Parcels[k].Gear.End is { Kind: LocationKind.Inside }) insideMask |= 1UL << k;
            if (all.Parcels[k].Gear.Kind == GearKind.Bag) bagMask |= 1UL << k;
        }
        (order, before, heldJobs) = (new Placed[all.Units.Length], new Placed[all.Units.Length], new bool[all.Scenario.Jobs.Length]);
        checkpoints = new Checkpoint?[all.Units.Length / Stride + 1];
        ints =
        [
            time, mooring, load, socketIn, armOn, pointsUsed, checkedAt, restedAt, since, leaves, walksFrom, walkEnded, arrived, lastLeg, notedTo, personSoiledSince,
            place, holder, pluggedIn, pluggedBy, readyAt, pointOf, soiledSince, clearedBy, clearedOf, spillsUntil, armPose, armFree, armRider, armMount,
            legStart, legEnd, legDoer, legBefore, rideStart, rideEnd, ledFrom, talking, bags.Now,
        ];
        (toCome, nextPlace) = (new int[(all.Units.Length + 1) * people], new int[(all.Units.Length + 1) * people]);
        leastOf = [.. all.Data.Select(leg => leg.Pieces.Sum())];
        placeOf = [.. all.Data.Select(leg => leg.Arm < 0 ? leg.Place : all.ArmData[leg.Arm].MountPlaces.Distinct().Count() == 1 ? all.ArmData[leg.Arm].MountPlaces[0] : -1)];
        homeTakes = inAfter.DefaultIfEmpty(0).Max() + closeMost;
        parcelLegs = [.. all.Data.Select(leg => leg.With | (leg.Restraint >= 0 ? 1UL << leg.Restraint : 0))];
    }

    /// <summary>Gets, by unit, which fields of its <see cref="Bringing"/> decoding looked at, as bits; null when nobody asks. What was not looked at makes no difference.</summary>
    public byte[]? Asked { get; set; }

    /// <summary>Decodes.</summary>
    /// <param name="candidate">What is decoded.</param>
    /// <param name="pins">What was pinned, by unit; empty for nothing.</param>
    /// <param name="deeds">Gets what is done; null when only the score matters.</param>
    /// <param name="brokenWeight">What a broken second counts against <paramref name="ceiling"/>.</param>
    /// <param name="ceiling">Decoding ends, with <see cref="PlanScore.Worst"/>, as soon as the end of the plan and what is broken, weighted, are
    /// sure to exceed this plus <paramref name="valueWeight"/> a point of value.</param>
    /// <param name="valueWeight">What a point of value counts.</param>
    public PlanScore Decode(Candidate candidate, UnitPins[] pins, List<Deed>? deeds = null,
        double brokenWeight = 0, double ceiling = double.PositiveInfinity, double valueWeight = 0)
    {
        jobIn = candidate.JobIn;
        count = List(candidate);
        chosen = default;
        anyAhead = Asked is not null || IsAhead(count);
        WentOnFrom = 0;
        int value = 0, from = 0, same = -1;
        if (deeds is null && Asked is null && heldCount >= 0)
        {
            same = Agreement(count, out bool isSame);
            // What differs only in what is left out comes to the same.
            if (isSame && heldScore.Broken < Impossible) return heldScore;
            journal = NeedsJournal ? ownJournal : null;
            WentOnFrom = from = GoBack(same);
        }
        else
        {
            journal = deeds ?? (NeedsJournal ? ownJournal : null);
            Begin();
        }
        for (int j = 0; j < jobIn.Length; j++)
            if (jobIn[j]) value += all.Scenario.Jobs[j].Value;
        ceiling += valueWeight * value;
        bool isLimited = !double.IsPositiveInfinity(ceiling);
        if (isLimited)
        {
            LookOut(from);
            if (IsBeyond(brokenWeight, EarliestEnd(from), ceiling)) return PlanScore.Worst;
        }
        for (at = from; at < count; at++)
        {
            Mark(at, same);
            Placed one = order[at];
            SearchCase.Unit unit = all.Units[one.Unit];
            looked = Math.Max(looked, at);
            if (unit.Options.Length == 0)
            {
                broken += Impossible;
                continue;
            }
            chosen = one.Bringing;
            DoUnit(unit, unit.Options[one.Option], pins.Length == 0 ? UnitPins.None : pins[one.Unit]);
            if (isLimited && IsBeyond(brokenWeight, EarliestEnd(at + 1), ceiling)) return PlanScore.Worst;
        }
        chosen = default;
        DrawCharges();
        int end = Finish(out int unbalance);
        if (isLimited && IsBeyond(brokenWeight, end, ceiling)) return PlanScore.Worst;
        broken += Swept();
        int dead = Shutdowns();
        if (all.Clocks.Length > 0) RunClocks(end);
        CheckTrapped();
        if (end > all.PetLimit) broken += end - all.PetLimit;
        foreach ((int[] legs, int latest) in all.LatestJobs) broken += TooLate(legs, latest);
        // What takes longer to reckon, only of what may be taken.
        if (journal is not null && brokenWeight * broken + end <= ceiling)
        {
            for (int p = 0; p < people; p++) StandsOf(p, journal, end);
            if (all.Help is not null) broken += BeyondHelp();
            broken += BeyondTroubles();
        }
        return new(broken, value, all.DecisionFrom < SearchCase.Never && !DecisionOpen() ? 1 : 0, end, dead, unbalance, walked, all.ReturnOne < SearchCase.Never ? Math.Max(0, all.ReturnOne - leastMargin) : 0,
            all.StayClose is null ? 0 : Apart(all.StayClose))
        { Objectives = all.Scenario.Sortie.Objectives };
    }

    /// <summary>Whether something is reckoned from what was done.</summary>
    private bool NeedsJournal => all.Help is not null || all.Troubles.Length > 0;

    /// <summary>Everything at the start, and what is past done again.</summary>
    private void Begin()
    {
        ownJournal.Clear();
        (broken, walked, leastMargin, looked) = (0, 0, SearchCase.Never, -1);
        Reset();
        if (all.SoFar is not null) Replay(all.SoFar);
    }

    /// <summary>Battery tools give what the jobs that are in draw from them together, in whichever order.</summary>
    private void DrawCharges()
    {
        foreach ((double most, double[] jobs) in all.Charges)
        {
            double drawn = 0;
            for (int j = 0; j < jobs.Length; j++)
                if (jobIn[j]) drawn += jobs[j];
            if (drawn > most + 1e-9) broken += Impossible;
        }
    }

    /// <summary>How much later than it may a job begins that is in, s.</summary>
    private int TooLate(int[] legs, int latest)
    {
        int first = SearchCase.Never;
        foreach (int l in legs)
            if (legIn[l]) first = Math.Min(first, legStart[l]);
        return first < SearchCase.Never ? Math.Max(0, first - latest) : 0;
    }

    /// <summary>How far a plan is from the one it is to stay close to, s of the end.</summary>
    private int Apart(StayClose close)
    {
        int apart = 0;
        for (int l = 0; l < legIn.Length; l++)
        {
            if (legIn[l] != close.Doer[l] >= 0) apart++;
            else if (legIn[l] && legBefore[l] != close.Before[l]) apart++;
            if (legIn[l] && close.Doer[l] >= 0 && legDoer[l] != close.Doer[l]) apart++;
        }
        return apart * close.Weight;
    }

    private void Reset()
    {
        for (int p = 0; p < people; p++)
        {
            time[p] = arrived[p] = outEnd[p];
            mooring[p] = all.Root[p];
            lastLeg[p] = -1;
            rides[p] = new(-1, -1, -1, 0, 0);
            burnt[p] = 0;
            (load[p], socketIn[p], armOn[p], pointsUsed[p], held[p]) = (0, -1, -1, 0, 0);
            ResetPauses(p);
        }
        for (int k = 0; k < parcels; k++)
        {
            (holder[k], pluggedBy[k], readyAt[k], pointOf[k], setting[k]) = (-1, -1, 0, -1, null);
            (place[k], pluggedIn[k]) = (startPlace[k], startSocket[k]);
        }
        (soiledParcels, soiledPeople) = (0, 0);
        Array.Fill(spillsUntil, int.MinValue);
        hung.Clear();
        Array.Fill(clearedBy, -1);
        bags.Reset();
        for (int a = 0; a < armPose.Length; a++) (armPose[a], armFree[a], armRider[a], armMount[a]) = (all.ArmData[a].Start, 0, -1, -1);
        Array.Clear(legIn);
        Array.Clear(notedTo);
        presences.Clear();
        sweeps.Clear();
        Array.Clear(talking);
        gos = 0;
    }

    /// <summary>Whether somebody's list ends with all of a job that may be left, begun late enough for a decision.</summary>
    private bool DecisionOpen()
    {
        for (int p = 0; p < people; p++)
        {
            int l = lastLeg[p];
            if (l < 0) continue;
            int job = all.JobOfLeg[l], count = 0;
            if (!all.Leavable[job]) continue;
            for (; l >= 0 && all.JobOfLeg[l] == job; l = legBefore[l]) count++;
            if (count == all.Scenario.Jobs[job].Legs.Length && l >= 0 && legEnd[l] >= all.DecisionFrom) return true;
        }
        return false;
    }

    private int StartPlace(Gear gear) => gear.Start.Kind switch
    {
        LocationKind.Inside => Anywhere,
        LocationKind.Grip => all.PlaceIndex[new(gear.Start.Name)],
        LocationKind.Socket => all.PlaceIndex[all.Scenario.Station.Sockets.First(socket => socket.Id.Value == gear.Start.Name).Grip],
        _ => Nowhere,
    };

    /// <summary>Inside: it can be had at any airlock.</summary>
    private const int Anywhere = -2;

    /// <summary>Not to be had: installed, in a bag, or not yet picked up.</summary>
    private const int Nowhere = -3;
}
