using Google.OrTools.Sat;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>
/// A scenario with fewer conditions than the proof asks for, so that every plan which plays clean and in which everybody goes out is a
/// solution of it, at its own value and its own end or an earlier one. So what is impossible here is impossible, and what is best here no plan passes.
/// </summary>
/// <remarks>
/// <para>Kept: who may do what, legs done together, what comes after what and how soon, light, links and zones at the sites, latest starts, the least
/// ways of <see cref="LeastWays"/> as one round trip a person, one rider an arm, the end limit; of bags and other gear: that each is taken up
/// once where it starts, is in one pair of hands at a time, and takes time to come into other hands or off a full suit; windows in which something is shut down.</para>
/// <para>Left out: lines and reels, zones and loads on the way, where gear is put down, what must come home, restraints to be plugged, what bleeds down,
/// which rides and commands a window has to cover or wait for, voices, pauses, fluids, sweeps, clocks, and all return times.</para>
/// </remarks>
internal sealed partial class Relaxation : WalkModel
{
    private readonly List<LinearExpr>[] handling;
    private readonly List<Parcel> parcels = [];
    private readonly IntVar end;

    /// <summary>Relaxes a scenario.</summary>
    /// <param name="all">The scenario.</param>
    /// <param name="ways">Its least ways.</param>
    /// <param name="latest">No plan that ends later than this is asked for, s of PET.</param>
    public Relaxation(SearchCase all, LeastWays ways, int latest) : base(all, ways, latest)
    {
        handling = [.. all.People.Select(_ => new List<LinearExpr>())];
        dead = new IntVar[]?[all.Shutdowns.Length];
        AddParcels();
        for (int p = 0; p < people; p++) AddRoundTrip(p);
        AddArms();
        AddPower();
        end = AddEnd();
    }

    /// <summary>Nothing is worth more than the bound of the answer.</summary>
    public SolverAnswer MostValue(SolverLimits limits, Action<long>? bounded = null)
    {
        if (!CanEnd) return new(SolverWord.Impossible, null, long.MinValue, null);
        model.Most(Value);
        return model.Solve(limits, bounded);
    }

    /// <summary>Nothing that is worth so much ends before the bound of the answer, s of PET.</summary>
    public SolverAnswer LeastEnd(int worth, SolverLimits limits, Action<long>? bounded = null)
    {
        if (!CanEnd) return new(SolverWord.Impossible, null, long.MaxValue, null);
        model.Holds(Value >= worth);
        model.Least(end);
        return model.Solve(limits with { PushesBound = true }, bounded);
    }

    /// <summary>Gear that every use has to be carried to: it starts where it can be taken, and no step moves it but the one that leaves it behind.</summary>
    private void AddParcels()
    {
        Handling times = all.Scenario.Handling;
        int give = times.Give.Time.Seconds, take = times.Take.Time.Seconds, put = times.Put.Time.Seconds;
        for (int k = 0; k < all.Parcels.Length; k++)
        {
            Gear gear = all.Parcels[k].Gear;
            int[] users = [.. Enumerable.Range(0, legs).Where(l => (all.Data[l].With >> k & 1) != 0)];
            bool inside = gear.Start.Kind == LocationKind.Inside;
            if (users.Length == 0 || (inside ? all.Scenario.Station.Airlocks.Length > 1 : gear.Start.Kind != LocationKind.Grip)) continue;
            if (all.Data.Any(leg => leg.Restraint == k || (leg.PicksUp >> k & 1) != 0 || ((leg.LeavesBehind >> k & 1) == 0 && Moves(leg, gear)))) continue;
            int place = inside ? rootPlace[0] : all.PlaceIndex[new(gear.Start.Name)];
            parcels.Add(new(this, k, users, place, all.Data.Any(leg => (leg.LeavesBehind >> k & 1) != 0)));
        }
        foreach (Parcel parcel in parcels)
        {
            BoolVar[] users = [.. all.People.Select((_, p) => model.Choice(""))];
            for (int p = 0; p < people; p++)
            {
                foreach (int l in parcel.Legs)
                    if (does[l][p] is { } one) model.Brings(one, users[p]);
                model.AtLeastOne([users[p].Not(), parcel.Takes[p], parcel.Gets[p]]);
                model.AtLeastOne([parcel.Gives[p].Not(), parcel.Takes[p], parcel.Gets[p]]);
                model.AtLeastOne([parcel.Gets[p].Not(), .. parcel.Takes.Where((_, q) => q != p)]);
                handling[p].Add(parcel.Gets[p] * Math.Min(give, take));
                handling[p].Add(parcel.Gives[p] * Math.Min(give, put));
            }
            model.Holds(LinearExpr.Sum(parcel.Takes) <= 1);
            // All who had it but the last one let it go.
            model.Holds(LinearExpr.Sum(parcel.Gives) >= LinearExpr.Sum(parcel.Gets));
            AddUses(parcel, Math.Min(give, put + take));
        }
        for (int p = 0; p < people; p++)
        {
            // What was on a suit with so many carry points and is not left behind at a site was let go again, save as much as fits.
            Parcel[] kept = [.. parcels.Where(parcel => !parcel.IsLeft)];
            int points = all.People[p].CarryPoints.Length;
            if (kept.Length > points)
                model.Holds(LinearExpr.Sum(kept.Select(parcel => parcel.Gives[p])) >= LinearExpr.Sum(kept.SelectMany(parcel => (BoolVar[])[parcel.Takes[p], parcel.Gets[p]])) - points);
        }
    }

    /// <summary>When gear is used: after it was taken up and brought there, and not in two places at once.</summary>
    private void AddUses(Parcel parcel, int change)
    {
        for (int p = 0; p < people; p++)
            foreach (int l in parcel.Legs)
            {
                if (does[l][p] is not { } one) continue;
                Stop stop = Stop.Of(all.Data[l]);
                int least = ways.Between(p, new(parcel.Place), stop);
                // Who takes it up and uses it, and nobody else in between, has carried it all the way, as slowly as it lets go.
                int slower = stop.Arm < 0 ? ways.SlowedBy(p, LoadOf(parcel.Index), parcel.Place, stop.Place) : 0;
                if (parcel.Legs.Length == 1 && slower > 0)
                {
                    BoolVar alone = model.Choice("");
                    model.AtLeastOne([alone, one.Not(), parcel.Takes[p].Not(), parcel.Gives[p]]);
                    handling[p].Add(alone * slower);
                    model.Holds(start[l] >= parcel.TakenFrom[p] + parcel.TakeSeconds + least + slower).OnlyEnforceIf(alone);
                }
                model.Holds(start[l] >= parcel.TakenFrom[p] + parcel.TakeSeconds + least).OnlyEnforceIf([one, parcel.Takes[p]]);
                for (int q = 0; q < people; q++)
                    if (q != p) model.Holds(start[l] >= parcel.TakenFrom[q] + parcel.TakeSeconds + change + Carried(new(parcel.Place), stop)).OnlyEnforceIf([one, parcel.Takes[q]]);
            }
        for (int i = 0; i < parcel.Legs.Length; i++)
            for (int j = 0; j < i; j++)
            {
                int a = parcel.Legs[i], b = parcel.Legs[j];
                if (all.UnitOfLeg[a] == all.UnitOfLeg[b]) continue;
                BoolVar first = model.Choice("");
                foreach ((int earlier, int later, ILiteral order) in (ReadOnlySpan<(int, int, ILiteral)>)[(a, b, first), (b, a, first.Not())])
                    for (int p = 0; p < people; p++)
                        for (int q = 0; q < people; q++)
                            if (p != q && does[earlier][p] is { } one && does[later][q] is { } two)
                                model.Holds(start[later] >= ends[earlier] + change + Carried(Stop.Of(all.Data[earlier]), Stop.Of(all.Data[later]))).OnlyEnforceIf([order, one, two]);
            }
    }

    /// <summary>The least time in which anything comes from one stop to another, whoever carries it.</summary>
    private int Carried(Stop from, Stop to) =>
        from.Arm >= 0 || to.Arm >= 0 ? 0 : ways.Carried(from.Place, to.Place);

    private static bool Moves(LegData leg, Gear gear) => leg.Leg.Steps.SelectMany(step => step.Makes).OfType<MoveGear>().Any(move => move.Gear == gear.Id);

    private void AddRoundTrip(int p)
    {
        List<(Stop Stop, LinearExpr Start, LinearExpr End, BoolVar Taken, int Leg)> stops = [];
        List<LinearExpr> work = [];
        for (int l = 0; l < legs; l++)
            if (does[l][p] is { } one)
            {
                stops.Add((Stop.Of(all.Data[l]), start[l], ends[l], one, l));
                work.Add(one * all.Data[l].Length);
            }
        foreach (Parcel parcel in parcels) work.Add(parcel.Takes[p] * parcel.TakeSeconds);
        // Every trip is at its hatch anyway, so what is taken up there is no stop of its own; elsewhere one stands for the first time that anything is taken up at a place.
        // Each stop less makes the linear relaxation smaller, which proves more in the same time.
        foreach (IGrouping<int, Parcel> there in parcels.Where(parcel => parcel.Place != rootPlace[p]).GroupBy(parcel => parcel.Place))
        {
            Parcel one = there.First();
            (BoolVar comes, IntVar from) = (one.Takes[p], one.TakenFrom[p]);
            if (there.Count() > 1)
            {
                (comes, from) = (model.Choice(""), model.Number(outEnd[p], horizon, ""));
                model.AtLeastOne([comes.Not(), .. there.Select(parcel => parcel.Takes[p])]);
                foreach (Parcel parcel in there)
                {
                    model.Brings(parcel.Takes[p], comes);
                    model.Holds(parcel.TakenFrom[p] >= from).OnlyEnforceIf(parcel.Takes[p]);
                }
            }
            stops.Add((new(there.Key), from, from + one.TakeSeconds, comes, -1));
        }
        Stop hatch = new(rootPlace[p]);
        List<(int, int, ILiteral)> arcs = [];
        List<BoolVar>[] mounts = [.. all.ArmData.Select(_ => new List<BoolVar>())];
        BoolVar stays = model.Choice("");
        arcs.Add((0, 0, stays));
        for (int a = 0; a < stops.Count; a++)
        {
            arcs.Add((a + 1, a + 1, stops[a].Taken.Not()));
            model.Brings(stops[a].Taken, stays.Not());
            BoolVar first = model.Choice(""), last = model.Choice("");
            int there = ways.Between(p, hatch, stops[a].Stop), home = ways.Between(p, stops[a].Stop, hatch);
            if (there >= SearchCase.Never || home >= SearchCase.Never)
            {
                model.Holds(stops[a].Taken == 0);
                continue;
            }
            arcs.Add((0, a + 1, first));
            arcs.Add((a + 1, 0, last));
            work.Add(first * there);
            if (stops[a].Stop.Arm is >= 0 and var mounted) mounts[mounted].Add(first);
            work.Add(last * home);
            model.Holds(stops[a].Start >= outEnd[p] + there).OnlyEnforceIf(stops[a].Taken);
            model.Holds(back[p] >= stops[a].End + home).OnlyEnforceIf(stops[a].Taken);
            for (int b = 0; b < stops.Count; b++)
            {
                if (a == b || Precedes(stops[b].Leg, stops[a].Leg)) continue;
                int way = ways.Between(p, stops[a].Stop, stops[b].Stop);
                if (way >= SearchCase.Never) continue;
                BoolVar next = model.Choice("");
                arcs.Add((a + 1, b + 1, next));
                if (stops[b].Stop.Arm is >= 0 and var arm && arm != stops[a].Stop.Arm) mounts[arm].Add(next);
                if (way > 0) work.Add(next * way);
                model.Holds(stops[b].Start >= stops[a].End + way).OnlyEnforceIf(next);
            }
        }
        model.RoundTrip(arcs);
        // Who does anything from an arm gets onto it: follows from the trip, but said in one row with one choice it is what the solver best begins to decide by.
        for (int arm = 0; arm < mounts.Length; arm++)
        {
            BoolVar rides = model.Choice("");
            foreach ((Stop stop, _, _, BoolVar taken, _) in stops)
                if (stop.Arm == arm) model.Brings(taken, rides);
            model.Holds(LinearExpr.Sum(mounts[arm]) >= rides);
        }
        // All that a person does takes its time, in whatever order: the row that the solver's own reasoning needs most.
        model.Holds(back[p] >= outEnd[p] + LinearExpr.Sum([.. work, .. handling[p]]));
    }

    /// <summary>A thing that is carried: who takes it up first, who gets it later, who lets it go.</summary>
    private sealed class Parcel
    {
        public Parcel(Relaxation owner, int index, int[] legs, int place, bool isLeft)
        {
            (Index, Legs, Place, IsLeft) = (index, legs, place, isLeft);
            string name = owner.all.Parcels[index].Gear.Id.Value;
            BoolVar[] Choices(string what) => [.. owner.all.People.Select(person => owner.model.Choice($"{person.Id} {what} {name}"))];
            (Takes, Gets, Gives) = (Choices("takes"), Choices("gets"), Choices("gives"));
            TakenFrom = [.. owner.all.People.Select((person, p) => owner.model.Number(owner.outEnd[p], owner.horizon, $"{person.Id} at {name}"))];
            TakeSeconds = owner.all.Scenario.Handling.Take.Time.Seconds;
        }

        public int Index { get; }
        public int[] Legs { get; }
        public int Place { get; }

        /// <summary>Whether some leg leaves it at its site, which takes no time of its own.</summary>
        public bool IsLeft { get; }

        public BoolVar[] Takes { get; }
        public BoolVar[] Gets { get; }
        public BoolVar[] Gives { get; }
        public IntVar[] TakenFrom { get; }
        public int TakeSeconds { get; }
    }
}
