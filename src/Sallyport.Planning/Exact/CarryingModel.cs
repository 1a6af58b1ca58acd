using Google.OrTools.Sat;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>
/// A walk with episodes of carrying, near to what search decodes, for parts of a plan to be ordered anew: each thing that is carried comes into somebody's hands before a leg
/// needs it, where it starts, where it was put down at a stow point, or from other hands, and leaves them after a leg that used it, or is kept.
/// </summary>
/// <remarks>
/// <para>Added to <see cref="WalkModel"/>: one round trip a person from leg to leg and to each taking, putting down and handing over, with the ways that search takes, slower under
/// a load that slows; one chain a thing from use to use, in which where it was put down is where it is next taken; at a hand-over both are there at one moment; nobody carries more than
/// hangs on the suit's carry points. Every episode is used: nobody carries a thing only for another to have it.</para>
/// <para>Left to search, which decodes what comes out: restraints, what legs pick up, where moorings differ, zones on the way, shutdowns, return times, pauses and voices.
/// So this is no ground for any claim, neither that a plan is good nor that there is none.</para>
/// </remarks>
internal sealed class CarryingModel : WalkModel
{
    private readonly LeastWays[] byLoad;
    private readonly KnownWalk known;
    private readonly FreePart part;
    private readonly bool[] free;
    private readonly List<Use> uses = [];
    private readonly List<Visit>[] visits;
    private readonly Dictionary<(int Use, Carried What, int Person, int Place), Visit> visitOf = [];
    private readonly List<(int Person, int From, int To, BoolVar Taken)> arcs = [];
    private readonly int[] rank, ranks, firsts, lasts;
    private readonly IntVar end;
    private readonly int take, put, give;

    /// <summary>How many of one's own legs that stay in order gear may be taken along before the leg that needs it, and kept after it.</summary>
    private const int MostAhead = 3;

    /// <summary>Builds it.</summary>
    /// <param name="all">The scenario.</param>
    /// <param name="byLoad">By load class, the ways of search.</param>
    /// <param name="known">The plan of which a part is ordered anew.</param>
    /// <param name="part">What is free; all else is kept, but for its times.</param>
    public CarryingModel(SearchCase all, LeastWays[] byLoad, KnownWalk known, FreePart part) : base(all, byLoad[0], part.MayAdd ? all.PetLimit : known.End)
    {
        bool mayAdd = part.MayAdd;
        (this.byLoad, this.known, this.part, free) = (byLoad, known, part, [.. part.Units]);
        Handling times = all.Scenario.Handling;
        (take, put, give) = (times.Take.Time.Seconds, times.Put.Time.Seconds, times.Give.Time.Seconds);
        visits = [.. all.People.Select(_ => new List<Visit>())];
        for (int j = 0; j < jobIn.Length; j++)
        {
            bool isIn = known.Legs[all.Units.First(unit => unit.Job == j).Legs[0]] is not null;
            model.Suggest(jobIn[j], isIn ? 1 : 0);
            if (isIn || !mayAdd) model.Holds(jobIn[j] == (isIn ? 1 : 0));
        }
        for (int u = 0; u < all.Units.Length; u++)
            if (known.Legs[all.Units[u].Legs[0]] is null) free[u] = true;
        (rank, ranks) = (new int[legs], new int[people]);
        foreach ((int l, (int p, int from)) in Enumerable.Range(0, legs).Where(l => known.Legs[l] is not null).Select(l => (l, known.Legs[l]!.Value)).OrderBy(one => one.Item2.Start))
        {
            model.Suggest(start[l], from);
            for (int q = 0; q < people; q++)
                if (does[l][q] is { } one)
                {
                    model.Suggest(one, p == q ? 1 : 0);
                    if (!IsFree(l)) model.Holds(one == (p == q ? 1 : 0));
                }
            rank[l] = ranks[p];
            if (!IsFree(l)) ranks[p]++;
        }
        firsts = [.. Enumerable.Range(0, people).Select(p => Staying(p, part.From))];
        lasts = [.. Enumerable.Range(0, people).Select(p => Staying(p, part.To))];
        for (int p = 0; p < people; p++)
            for (int l = 0; l < legs; l++)
                if (does[l][p] is { } one && (IsFree(l) || known.Legs[l]!.Value.Person == p))
                    visits[p].Add(new(Stop.Of(all.Data[l]), start[l], ends[l], one, l, -1, Carried.Used, IsFree(l) ? firsts[p] : rank[l], IsFree(l) ? lasts[p] : rank[l]));
        for (int k = 0; k < all.Parcels.Length; k++) AddThing(k);
        AddPoints();
        for (int p = 0; p < people; p++) AddRoundTrip(p);
        AddArms();
        end = AddEnd();
        Suggest();
    }

    /// <summary>How many legs that somebody keeps begin before a moment.</summary>
    private int Staying(int p, int before) => Enumerable.Range(0, legs).Count(l => known.Legs[l] is { } told && told.Person == p && told.Start < before && !IsFree(l));

    /// <summary>Whether it is free how a thing comes to a leg and leaves it: that of all legs, or of free ones and the uses next to them.</summary>
    private bool IsGearFree(int k, int l)
    {
        if (part.AllGear || IsFree(l)) return true;
        int[] chain = [.. Enumerable.Range(0, legs).Where(other => (all.Data[other].With >> k & 1) != 0 && known.Legs[other] is not null).OrderBy(other => known.Legs[other]!.Value.Start)];
        int at = Array.IndexOf(chain, l);
        return (at > 0 && IsFree(chain[at - 1])) || (at + 1 < chain.Length && IsFree(chain[at + 1]));
    }

    private bool IsFree(int l) => free[all.UnitOfLeg[l]];

    /// <summary>Looks for what is worth more, or ends sooner; null when the plan itself cannot be said in this model, or nothing at all was found in time.</summary>
    public CarriedWalk? Solve(SolverLimits limits)
    {
        if (!CanEnd) return null;
        model.Least(end - 100_000 * Value);
        if (model.Complete() is not { } asKnown) return null;
        SolverAnswer answer = model.Solve(limits);
        if (answer.Valuation is not { } of) return null;
        (int Person, int Start)?[] found = [.. Enumerable.Range(0, legs).Select(l => Enumerable.Range(0, people).Where(p => does[l][p] is { } one && of(one) == 1).Select(p => ((int, int)?)(p, (int)of(start[l]))).FirstOrDefault())];
        List<CarriedDeed> deeds = [];
        foreach (((int u, Carried what, int p, int place), Visit visit) in visitOf)
            if (of(visit.Taken) == 1) deeds.Add(new(what, p, uses[u].Thing, place, uses[u].Leg, (int)of(what is Carried.Put or Carried.Given ? uses[u].Released : uses[u].Acquired)));
        return new(found, deeds, Enumerable.Range(0, jobIn.Length).Where(j => of(jobIn[j]) == 1).Sum(j => all.Scenario.Jobs[j].Value), (int)of(end), answer.Best < asKnown, answer.Word == SolverWord.Closed);
    }

    /// <summary>What happens to a thing where people come for it.</summary>
    internal enum Carried
    {
        /// <summary>It is used: a leg.</summary>
        Used,
        Taken, Received, Put, Given,
    }

    /// <summary>A leg, or where a thing changes hands, as one person may come to it.</summary>
    private sealed record Visit(Stop Stop, LinearExpr Start, LinearExpr End, BoolVar Taken, int Leg, int Use, Carried What, int First, int Last);

    /// <summary>A leg that needs a thing.</summary>
    private sealed record Use(int Thing, int Leg, IntVar Acquired, IntVar Released, IntVar From, IntVar Until);

    /// <summary>
    /// How one thing goes from leg to leg, by the numbers of its legs among its own: with which it begins, after which it is kept, which are left out, and how it comes from one to the next:
    /// in the same hands, put down between them, or handed over.
    /// </summary>
    private sealed class Chain(int thing, int[] legs, int firstUse, bool inside, int startPlace, int[] meetings)
    {
        public int Thing => thing;
        public int[] Legs => legs;
        public int FirstUse => firstUse;

        /// <summary>Whether it is inside at first, and comes out with whoever takes it.</summary>
        public bool Inside => inside;

        /// <summary>Where it is at first, unless inside.</summary>
        public int StartPlace => startPlace;

        /// <summary>Where it can change hands.</summary>
        public int[] Meetings => meetings;

        public BoolVar[] Begins { get; } = new BoolVar[legs.Length];
        public BoolVar[] Keeps { get; } = new BoolVar[legs.Length];
        public BoolVar[] Absent { get; } = new BoolVar[legs.Length];
        public BoolVar[,] GoesOn { get; } = new BoolVar[legs.Length, legs.Length];
        public BoolVar[,] Via { get; } = new BoolVar[legs.Length, legs.Length];
        public BoolVar[,] Hands { get; } = new BoolVar[legs.Length, legs.Length];

        public static BoolVar[] Into(BoolVar[,] of, int i) => [.. Enumerable.Range(0, of.GetLength(0)).Select(j => of[j, i]).Where(one => one is not null)];

        public static BoolVar[] From(BoolVar[,] of, int i) => [.. Enumerable.Range(0, of.GetLength(0)).Select(j => of[i, j]).Where(one => one is not null)];
    }

    private void AddThing(int k)
    {
        Gear gear = all.Parcels[k].Gear;
        int[] users = [.. Enumerable.Range(0, legs).Where(l => (all.Data[l].With >> k & 1) != 0)];
        bool inside = gear.Start.Kind == LocationKind.Inside;
        if (users.Length == 0 || all.Data.Any(leg => leg.Restraint == k || (leg.PicksUp >> k & 1) != 0) || !(inside || gear.Start.Kind == LocationKind.Grip)) return;
        Chain chain = new(k, users, uses.Count, inside, inside ? -1 : all.PlaceIndex[new(gear.Start.Name)], [.. users.Select(MeetingPlace).Concat(all.Stows).Distinct()]);
        foreach (int l in users)
        {
            IntVar Moment(string what) => model.Number(0, horizon, $"{what} {gear.Id} for {all.Legs[l].Id}");
            uses.Add(new(k, l, Moment("takes"), Moment("leaves"), Moment("has"), Moment("had")));
        }
        List<(int, int, ILiteral)> order = [];
        AddEnds(chain, order);
        AddNexts(chain, order);
        model.RoundTrip(order);
        for (int i = 0; i < users.Length; i++) AddChanges(chain, i);
        AddPlaces(chain);
    }

    /// <summary>With which leg a thing begins, after which it is kept, and that it is had as long as it is used.</summary>
    private void AddEnds(Chain chain, List<(int, int, ILiteral)> order)
    {
        (int k, int[] users) = (chain.Thing, chain.Legs);
        bool home = all.Parcels[k].Gear.End is { Kind: LocationKind.Inside or LocationKind.Grip };
        BoolVar unused = model.Choice("");
        order.Add((0, 0, unused));
        for (int i = 0; i < users.Length; i++)
        {
            int l = users[i];
            Use use = uses[chain.FirstUse + i];
            BoolVar isIn = jobIn[all.JobOfLeg[l]], begins = chain.Begins[i] = model.Choice(""), keeps = chain.Keeps[i] = model.Choice(""), absent = chain.Absent[i] = model.Choice(""), last = model.Choice("");
            model.Holds(absent + isIn == 1);
            order.AddRange([(0, i + 1, begins), (i + 1, 0, last), (i + 1, i + 1, absent)]);
            model.Brings(isIn, unused.Not());
            model.Holds(use.From <= start[l]).OnlyEnforceIf(isIn);
            model.Holds(use.Until >= ends[l]).OnlyEnforceIf(isIn);
            // Left behind, or kept until the way home is over.
            if ((all.Data[l].LeavesBehind >> k & 1) != 0) model.Brings(isIn, keeps);
            else
                for (int p = 0; p < people; p++)
                    if (does[l][p] is { } one) model.Holds(use.Until >= back[p]).OnlyEnforceIf([keeps, one]);
            model.Brings(keeps, last);
            if (home) model.Holds(last <= keeps);
        }
    }

    /// <summary>Which leg has a thing after which, and how it comes from the one to the other.</summary>
    private void AddNexts(Chain chain, List<(int, int, ILiteral)> order)
    {
        (int k, int[] users) = (chain.Thing, chain.Legs);
        for (int i = 0; i < users.Length; i++)
            for (int j = 0; j < users.Length; j++)
            {
                if (i == j || all.UnitOfLeg[users[i]] == all.UnitOfLeg[users[j]] || Precedes(users[j], users[i]) || (all.Data[users[i]].LeavesBehind >> k & 1) != 0 || (Fixed(users[i], users[j]) && rank[users[j]] < rank[users[i]])) continue;
                Use one = uses[chain.FirstUse + i], two = uses[chain.FirstUse + j];
                BoolVar goesOn = chain.GoesOn[i, j] = model.Choice(""), via = chain.Via[i, j] = model.Choice(""), hands = chain.Hands[i, j] = model.Choice(""), next = model.Choice("");
                order.Add((i + 1, j + 1, next));
                model.Holds(goesOn + via + hands == next);
                for (int p = 0; p < people; p++)
                {
                    if (does[users[i]][p] is not { } mine) continue;
                    if (does[users[j]][p] is { } also)
                    {
                        model.Holds(also >= 1).OnlyEnforceIf([goesOn, mine]);
                        model.Holds(hands + mine + also <= 2);
                    }
                    else model.Holds(goesOn + mine <= 1);
                }
                model.Holds(start[users[j]] >= ends[users[i]]).OnlyEnforceIf(next);
                model.Holds(two.From == one.Until).OnlyEnforceIf(goesOn);
                model.Holds(two.Acquired >= one.Released + put).OnlyEnforceIf(via);
                model.Holds(two.Acquired == one.Released).OnlyEnforceIf(hands);
            }
    }

    /// <summary>How a thing comes into the hands that use it for one leg, and out of them.</summary>
    private void AddChanges(Chain chain, int i)
    {
        int k = chain.Thing, l = chain.Legs[i], u = chain.FirstUse + i;
        Use use = uses[u];
        bool gearFree = IsGearFree(k, l);
        List<BoolVar> taken = [], received = [], down = [], given = [];
        for (int p = 0; p < people; p++)
        {
            if (does[l][p] is not { } one || (!IsFree(l) && known.Legs[l]!.Value.Person != p)) continue;
            foreach (int place in all.Stows.Append(chain.Inside ? rootPlace[p] : chain.StartPlace).Distinct()) Add(taken, Carried.Taken, p, one, place, take);
            foreach (int place in all.Stows) Add(down, Carried.Put, p, one, place, put);
            if (chain.Legs.Length == 1) continue;
            foreach (int place in chain.Meetings)
            {
                Add(received, Carried.Received, p, one, place, give);
                Add(given, Carried.Given, p, one, place, give);
            }
        }
        model.ExactlyOne([.. Chain.Into(chain.GoesOn, i), .. taken, .. received, chain.Absent[i]]);
        model.ExactlyOne([.. Chain.From(chain.GoesOn, i), .. down, .. given, chain.Keeps[i], chain.Absent[i]]);
        foreach ((List<BoolVar> comes, int seconds) in new[] { (taken, take), (received, give) })
            foreach (BoolVar one in comes)
            {
                model.Holds(use.From <= use.Acquired).OnlyEnforceIf(one);
                model.Holds(start[l] >= use.Acquired + seconds).OnlyEnforceIf(one);
            }
        // Who gives has it until the other takes hold of it.
        foreach ((List<BoolVar> goes, int seconds) in new[] { (down, put), (given, 0) })
            foreach (BoolVar one in goes)
            {
                model.Holds(use.Until >= use.Released + seconds).OnlyEnforceIf(one);
                model.Holds(use.Released >= ends[l]).OnlyEnforceIf(one);
            }
        model.Holds(LinearExpr.Sum(taken) == LinearExpr.Sum([chain.Begins[i], .. Chain.Into(chain.Via, i)]));
        model.Holds(LinearExpr.Sum(received) == LinearExpr.Sum(Chain.Into(chain.Hands, i)));
        model.Holds(LinearExpr.Sum(given) == LinearExpr.Sum(Chain.From(chain.Hands, i)));
        model.Holds(LinearExpr.Sum(down) >= LinearExpr.Sum(Chain.From(chain.Via, i)));
        foreach (Visit visit in visitOf.Values)
            if (visit.Use == u && visit.What == Carried.Taken && !(chain.Inside ? rootPlace.Contains(visit.Stop.Place) : visit.Stop.Place == chain.StartPlace)) model.Holds(chain.Begins[i] + visit.Taken <= 1);

        void Add(List<BoolVar> to, Carried what, int p, BoolVar doesIt, int place, int seconds)
        {
            if (!gearFree && !known.Deeds.Exists(deed => deed.What == what && deed.Person == p && deed.Thing == k && deed.Place == place && deed.Leg == l)) return;
            BoolVar here = model.Choice("");
            model.Brings(here, doesIt);
            bool before = what is Carried.Taken or Carried.Received;
            IntVar at = before ? use.Acquired : use.Released;
            (int earliest, int latest) = IsFree(l) ? before ? (Math.Max(0, firsts[p] - MostAhead), lasts[p]) : (firsts[p], ranks[p]) : before ? (Math.Max(0, rank[l] - MostAhead), rank[l]) : (rank[l] + 1, ranks[p]);
            Visit visit = new(new(place), at, at + seconds, here, -1, u, what, earliest, latest);
            visits[p].Add(visit);
            visitOf[(u, what, p, place)] = visit;
            to.Add(here);
        }
    }

    /// <summary>Where a thing was put down it is taken, and who gives meets who gets.</summary>
    private void AddPlaces(Chain chain)
    {
        for (int i = 0; i < chain.Legs.Length; i++)
            for (int j = 0; j < chain.Legs.Length; j++)
            {
                if (chain.Via[i, j] is not { } via) continue;
                (int one, int two) = (chain.FirstUse + i, chain.FirstUse + j);
                foreach (int place in chain.Meetings)
                {
                    if (all.Stows.Contains(place)) Same(via, Here(one, Carried.Put, place), Here(two, Carried.Taken, place));
                    Same(chain.Hands[i, j], Here(one, Carried.Given, place), Here(two, Carried.Received, place));
                }
                // Where it was at first nobody can have put it down, unless things are put down there.
                foreach (int place in chain.Inside ? rootPlace.Distinct() : [chain.StartPlace])
                    if (!all.Stows.Contains(place)) model.Holds(via + LinearExpr.Sum(Here(two, Carried.Taken, place)) <= 1);
            }

        BoolVar[] Here(int u, Carried what, int place) => [.. Enumerable.Range(0, people).Select(p => visitOf.GetValueOrDefault((u, what, p, place))?.Taken!).Where(one => one is not null)];
        void Same(BoolVar when, BoolVar[] one, BoolVar[] other) => model.Holds(LinearExpr.Sum(one) == LinearExpr.Sum(other)).OnlyEnforceIf(when);
    }

    private bool Fixed(int a, int b) => !IsFree(a) && !IsFree(b) && known.Legs[a]!.Value.Person == known.Legs[b]!.Value.Person;

    /// <summary>Where somebody who does a leg can be met.</summary>
    private int MeetingPlace(int l) => all.Data[l].Arm >= 0 ? all.ArmData[all.Data[l].Arm].MountPlaces[0] : all.Data[l].Place;

    /// <summary>Nobody carries more than hangs on the suit.</summary>
    private void AddPoints()
    {
        for (int p = 0; p < people; p++)
        {
            int PointsOf(int k) => all.People[p].CarryPoints.Select((point, i) => all.Parcels[k].Fits(point) ? 1 << i : 0).Sum();
            int[] sets = [.. uses.Select(use => PointsOf(use.Thing)).Append((1 << all.People[p].CarryPoints.Length) - 1).Distinct()];
            foreach (int set in sets)
            {
                Use[] within = [.. uses.Where(use => does[use.Leg][p] is not null && (PointsOf(use.Thing) & ~set) == 0)];
                if (within.Select(use => use.Thing).Distinct().Count() <= int.PopCount(set)) continue;
                model.Shares(within.Select(use => ((LinearExpr)use.From, (LinearExpr)use.Until, (ILiteral)does[use.Leg][p]!)), int.PopCount(set), horizon);
            }
        }
    }

    private void AddRoundTrip(int p)
    {
        List<Visit> own = visits[p];
        List<LinearExpr> work = [.. own.Select(visit => visit.Taken * (visit.Leg >= 0 ? all.Data[visit.Leg].Length : visit.What switch { Carried.Taken => take, Carried.Put => put, _ => give }))];
        List<(int, int, ILiteral)> trip = [];
        Stop hatch = new(rootPlace[p]);
        BoolVar stays = model.Choice("");
        trip.Add((0, 0, stays));
        // By heavy thing, whether it is carried from each stop on.
        int[] heavy = [.. uses.Select(use => use.Thing).Distinct().Where(k => LoadOf(k) > 0)];
        BoolVar[][] loaded = [.. heavy.Select(k => own.Select(visit => visit.What != Carried.Used && uses[visit.Use].Thing == k ? null! : model.Choice("")).ToArray())];
        for (int a = 0; a < own.Count; a++)
        {
            trip.Add((a + 1, a + 1, own[a].Taken.Not()));
            model.Brings(own[a].Taken, stays.Not());
            int there = ways.Between(p, hatch, own[a].Stop), home = ways.Between(p, own[a].Stop, hatch);
            if (there >= SearchCase.Never || home >= SearchCase.Never)
            {
                model.Holds(own[a].Taken == 0);
                continue;
            }
            model.Holds(own[a].Start >= outEnd[p] + there).OnlyEnforceIf(own[a].Taken);
            model.Holds(back[p] >= own[a].End + home).OnlyEnforceIf(own[a].Taken);
            if (own[a].First == 0 && !(own[a].What is Carried.Put or Carried.Given)) Arc(-1, a, there);
            if (own[a].Last == ranks[p] || (own[a].Leg >= 0 && own[a].Last == ranks[p] - 1)) Arc(a, -1, home);
            for (int b = 0; b < own.Count; b++)
                if (a != b && MayFollow(own[a], own[b]) && ways.Between(p, own[a].Stop, own[b].Stop) is < SearchCase.Never and var way) Arc(a, b, way);
        }
        model.RoundTrip(trip);
        model.Holds(back[p] >= outEnd[p] + LinearExpr.Sum(work));

        void Arc(int a, int b, int way)
        {
            BoolVar next = model.Choice("");
            trip.Add((a + 1, b + 1, next));
            arcs.Add((p, a, b, next));
            if (way > 0) work.Add(next * way);
            if (a >= 0 && b >= 0) model.Holds(own[b].Start >= own[a].End + way).OnlyEnforceIf(next);
            for (int h = 0; h < heavy.Length; h++)
            {
                BoolVar? before = a < 0 ? null : Loaded(h, a), after = b < 0 ? null : Loaded(h, b);
                bool always = a >= 0 && IsOn(own[a], heavy[h]);
                if (!always && before is null)
                {
                    // Nothing of it is carried on from here.
                    if (after is not null) model.Holds(after == 0).OnlyEnforceIf(next);
                    continue;
                }
                if (after is not null && !(own[b].Leg >= 0 && (all.Data[own[b].Leg].LeavesBehind >> heavy[h] & 1) != 0))
                    model.Holds(after == (always ? LinearExpr.Constant(1) : before!)).OnlyEnforceIf(next);
                int slow = byLoad[LoadOf(heavy[h])].Between(p, a < 0 ? hatch : own[a].Stop, b < 0 ? hatch : own[b].Stop);
                if (slow <= way || slow >= SearchCase.Never) continue;
                ILiteral[] when = always ? [next] : [next, before!];
                if (b < 0) model.Holds(back[p] >= own[a].End + slow).OnlyEnforceIf(when);
                else model.Holds(own[b].Start >= own[a].End + slow).OnlyEnforceIf(when);
            }
        }

        // A leg that leaves it behind goes on without it; so does who put it down or gave it.
        BoolVar? Loaded(int h, int a) =>
            own[a].Leg >= 0 && (all.Data[own[a].Leg].LeavesBehind >> heavy[h] & 1) != 0 ? null : loaded[h][a];

        bool IsOn(Visit visit, int k) => visit.What is Carried.Taken or Carried.Received && uses[visit.Use].Thing == k;
    }

    private bool MayFollow(Visit a, Visit b)
    {
        // The order that stays leaves each a stretch of it: legs in their place, gear round them.
        bool fixedA = a.Leg >= 0 && !IsFree(a.Leg), fixedB = b.Leg >= 0 && !IsFree(b.Leg);
        if (fixedA && fixedB ? b.First != a.First + 1 : fixedA ? b.First > a.First + 1 || b.Last < a.First + 1 : fixedB ? a.Last < b.First || a.First > b.First : a.First > b.Last || b.First > a.Last) return false;
        if (a.Leg >= 0 && b.Leg >= 0) return !Precedes(b.Leg, a.Leg);
        int one = a.Leg >= 0 ? a.Leg : uses[a.Use].Leg, other = b.Leg >= 0 ? b.Leg : uses[b.Use].Leg;
        bool before = b.What is Carried.Taken or Carried.Received, after = a.What is Carried.Put or Carried.Given;
        if (one == other) return a.Leg >= 0 ? !before : b.Leg >= 0 ? !after : a.Use != b.Use && !(after && before);
        return !(Precedes(other, one) && (a.Leg >= 0 || after) && (b.Leg >= 0 || before));
    }

    /// <summary>The known plan, as far as its episodes can be said here.</summary>
    private void Suggest()
    {
        HashSet<(int, Carried, int, int)> done = [];
        for (int u = 0; u < uses.Count; u++)
            foreach (CarriedDeed deed in known.Deeds.Where(deed => deed.Thing == uses[u].Thing && deed.Leg == uses[u].Leg))
            {
                if (!visitOf.ContainsKey((u, deed.What, deed.Person, deed.Place))) continue;
                done.Add((u, deed.What, deed.Person, deed.Place));
                model.Suggest(deed.What is Carried.Put or Carried.Given ? uses[u].Released : uses[u].Acquired, deed.Start);
            }
        foreach (((int, Carried, int, int) which, Visit visit) in visitOf) model.Suggest(visit.Taken, done.Contains(which) ? 1 : 0);
        for (int p = 0; p < people; p++)
        {
            int[] path = [-1, .. Enumerable.Range(0, visits[p].Count).Select(a => (a, at: visits[p][a].Leg >= 0
                    ? known.Legs[visits[p][a].Leg] is { } leg && leg.Person == p ? leg.Start : -1
                    : StartOf(p, visits[p][a]))).Where(one => one.at >= 0).OrderBy(one => one.at).Select(one => one.a), -1];
            HashSet<(int, int)> steps = [.. path.Zip(path.Skip(1))];
            foreach ((int person, int from, int to, BoolVar taken) in arcs)
                if (person == p) model.Suggest(taken, steps.Contains((from, to)) ? 1 : 0);
        }

        int StartOf(int p, Visit visit)
        {
            foreach (CarriedDeed deed in known.Deeds)
                if (deed.Person == p && deed.What == visit.What && deed.Place == visit.Stop.Place && deed.Thing == uses[visit.Use].Thing && deed.Leg == uses[visit.Use].Leg) return deed.Start;
            return -1;
        }
    }
}

/// <summary>What happens to a thing.</summary>
/// <param name="What">What.</param>
/// <param name="Person">By whom.</param>
/// <param name="Thing">Which parcel.</param>
/// <param name="Place">At which place.</param>
/// <param name="Leg">The leg before which it is taken, or after which it is let go.</param>
/// <param name="Start">When, s of PET.</param>
internal sealed record CarriedDeed(CarryingModel.Carried What, int Person, int Thing, int Place, int Leg, int Start);

/// <summary>A plan as it is known before a part of it is ordered anew.</summary>
/// <param name="Legs">By leg, who does it from when; null for one left out.</param>
/// <param name="Deeds">What happens to gear.</param>
/// <param name="Value">What its jobs are worth.</param>
/// <param name="End">When it ends, s of PET.</param>
internal sealed record KnownWalk((int Person, int Start)?[] Legs, List<CarriedDeed> Deeds, int Value, int End);

/// <summary>What the solver makes of it.</summary>
/// <param name="Legs">By leg, who does it from when; null for one left out.</param>
/// <param name="Deeds">What happens to gear.</param>
/// <param name="Value">What its jobs are worth.</param>
/// <param name="End">When it ends, s of PET.</param>
/// <param name="IsBetter">Whether it is better than the plan is in this model.</param>
/// <param name="IsBest">Whether nothing better can be, in these conditions.</param>
internal sealed record CarriedWalk((int Person, int Start)?[] Legs, List<CarriedDeed> Deeds, int Value, int End, bool IsBetter, bool IsBest);

/// <summary>What of a plan is free.</summary>
/// <param name="Units">By unit, whether who does it and when in the order is free; all others keep both.</param>
/// <param name="AllGear">Whether the gear of all legs may come another way, and not only that of what is free and of the uses next to it.</param>
/// <param name="MayAdd">Whether jobs that are left out may come in; their units are free then.</param>
/// <param name="From">No free unit stands before a leg that begins sooner and is kept, s of PET.</param>
/// <param name="To">Nor after one that begins at this or later.</param>
internal sealed record FreePart(bool[] Units, bool AllGear, bool MayAdd, int From, int To);
