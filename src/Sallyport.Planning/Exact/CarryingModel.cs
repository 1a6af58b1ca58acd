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

    private void AddThing(int k)
    {
        Gear gear = all.Parcels[k].Gear;
        int[] users = [.. Enumerable.Range(0, legs).Where(l => (all.Data[l].With >> k & 1) != 0)];
        bool inside = gear.Start.Kind == LocationKind.Inside;
        if (users.Length == 0 || all.Data.Any(leg => leg.Restraint == k || (leg.PicksUp >> k & 1) != 0) || !(inside || gear.Start.Kind == LocationKind.Grip)) return;
        int first = uses.Count, n = users.Length;
        foreach (int l in users)
        {
            IntVar Moment(string what) => model.Number(0, horizon, $"{what} {gear.Id} for {all.Legs[l].Id}");
            uses.Add(new(k, l, Moment("takes"), Moment("leaves"), Moment("has"), Moment("had")));
        }
        bool home = gear.End is { Kind: LocationKind.Inside or LocationKind.Grip };
        List<(int, int, ILiteral)> chain = [];
        BoolVar unused = model.Choice("");
        chain.Add((0, 0, unused));
        BoolVar[] begins = new BoolVar[n], keeps = new BoolVar[n], absent = new BoolVar[n];
        BoolVar[,] goesOn = new BoolVar[n, n], via = new BoolVar[n, n], hands = new BoolVar[n, n];
        for (int i = 0; i < n; i++)
        {
            int l = users[i];
            Use use = uses[first + i];
            BoolVar isIn = jobIn[all.JobOfLeg[l]];
            (begins[i], keeps[i], absent[i]) = (model.Choice(""), model.Choice(""), model.Choice(""));
            BoolVar last = model.Choice("");
            model.Holds(absent[i] + isIn == 1);
            chain.AddRange([(0, i + 1, begins[i]), (i + 1, 0, last), (i + 1, i + 1, absent[i])]);
            model.Brings(isIn, unused.Not());
            model.Holds(use.From <= start[l]).OnlyEnforceIf(isIn);
            model.Holds(use.Until >= ends[l]).OnlyEnforceIf(isIn);
            // Left behind, or kept until the way home is over.
            if ((all.Data[l].LeavesBehind >> k & 1) != 0) model.Brings(isIn, keeps[i]);
            else
                for (int p = 0; p < people; p++)
                    if (does[l][p] is { } one) model.Holds(use.Until >= back[p]).OnlyEnforceIf([keeps[i], one]);
            model.Brings(keeps[i], last);
            if (home) model.Holds(last <= keeps[i]);
        }
        for (int i = 0; i < n; i++)
            for (int j = 0; j < n; j++)
            {
                if (i == j || all.UnitOfLeg[users[i]] == all.UnitOfLeg[users[j]] || Precedes(users[j], users[i]) || (all.Data[users[i]].LeavesBehind >> k & 1) != 0 || (Fixed(users[i], users[j]) && rank[users[j]] < rank[users[i]])) continue;
                Use one = uses[first + i], two = uses[first + j];
                (goesOn[i, j], via[i, j], hands[i, j]) = (model.Choice(""), model.Choice(""), model.Choice(""));
                BoolVar next = model.Choice("");
                chain.Add((i + 1, j + 1, next));
                model.Holds(goesOn[i, j] + via[i, j] + hands[i, j] == next);
                for (int p = 0; p < people; p++)
                {
                    if (does[users[i]][p] is not { } mine) continue;
                    if (does[users[j]][p] is { } also)
                    {
                        model.Holds(also >= 1).OnlyEnforceIf([goesOn[i, j], mine]);
                        model.Holds(hands[i, j] + mine + also <= 2);
                    }
                    else model.Holds(goesOn[i, j] + mine <= 1);
                }
                model.Holds(start[users[j]] >= ends[users[i]]).OnlyEnforceIf(next);
                model.Holds(two.From == one.Until).OnlyEnforceIf(goesOn[i, j]);
                model.Holds(two.Acquired >= one.Released + put).OnlyEnforceIf(via[i, j]);
                model.Holds(two.Acquired == one.Released).OnlyEnforceIf(hands[i, j]);
            }
        model.RoundTrip(chain);
        int startPlace = inside ? -1 : all.PlaceIndex[new(gear.Start.Name)];
        int[] meetings = [.. users.Select(MeetingPlace).Concat(all.Stows).Distinct()];
        List<BoolVar>[] taken = [.. users.Select(_ => new List<BoolVar>())], received = [.. users.Select(_ => new List<BoolVar>())], down = [.. users.Select(_ => new List<BoolVar>())], given = [.. users.Select(_ => new List<BoolVar>())];
        for (int i = 0; i < n; i++)
        {
            int l = users[i], u = first + i;
            Use use = uses[u];
            bool gearFree = IsGearFree(k, l);
            for (int p = 0; p < people; p++)
            {
                if (does[l][p] is not { } one || (!IsFree(l) && known.Legs[l]!.Value.Person != p)) continue;
                foreach (int place in all.Stows.Append(inside ? rootPlace[p] : startPlace).Distinct()) Add(taken[i], Carried.Taken, p, place, take);
                foreach (int place in all.Stows) Add(down[i], Carried.Put, p, place, put);
                if (n == 1) continue;
                foreach (int place in meetings)
                {
                    Add(received[i], Carried.Received, p, place, give);
                    Add(given[i], Carried.Given, p, place, give);
                }

                void Add(List<BoolVar> to, Carried what, int p, int place, int seconds)
                {
                    if (!gearFree && !known.Deeds.Exists(deed => deed.What == what && deed.Person == p && deed.Thing == k && deed.Place == place && deed.Leg == l)) return;
                    BoolVar here = model.Choice("");
                    model.Brings(here, one);
                    bool before = what is Carried.Taken or Carried.Received;
                    IntVar at = before ? use.Acquired : use.Released;
                    (int earliest, int latest) = IsFree(l) ? before ? (Math.Max(0, firsts[p] - MostAhead), lasts[p]) : (firsts[p], ranks[p]) : before ? (Math.Max(0, rank[l] - MostAhead), rank[l]) : (rank[l] + 1, ranks[p]);
                    Visit visit = new(new(place), at, at + seconds, here, -1, u, what, earliest, latest);
                    visits[p].Add(visit);
                    visitOf[(u, what, p, place)] = visit;
                    to.Add(here);
                }
            }
            // How it came into these hands.
            model.ExactlyOne([.. Into(goesOn, i), .. taken[i], .. received[i], absent[i]]);
            model.ExactlyOne([.. From(goesOn, i), .. down[i], .. given[i], keeps[i], absent[i]]);
            foreach (BoolVar one in taken[i])
            {
                model.Holds(use.From <= use.Acquired).OnlyEnforceIf(one);
                model.Holds(start[l] >= use.Acquired + take).OnlyEnforceIf(one);
            }
            foreach (BoolVar one in received[i])
            {
                model.Holds(use.From <= use.Acquired).OnlyEnforceIf(one);
                model.Holds(start[l] >= use.Acquired + give).OnlyEnforceIf(one);
            }
            foreach (BoolVar one in down[i])
            {
                model.Holds(use.Until >= use.Released + put).OnlyEnforceIf(one);
                model.Holds(use.Released >= ends[l]).OnlyEnforceIf(one);
            }
            foreach (BoolVar one in given[i])
            {
                model.Holds(use.Until >= use.Released).OnlyEnforceIf(one);
                model.Holds(use.Released >= ends[l]).OnlyEnforceIf(one);
            }
            model.Holds(LinearExpr.Sum(taken[i]) == LinearExpr.Sum([begins[i], .. Into(via, i)]));
            model.Holds(LinearExpr.Sum(received[i]) == LinearExpr.Sum(Into(hands, i)));
            model.Holds(LinearExpr.Sum(given[i]) == LinearExpr.Sum(From(hands, i)));
            model.Holds(LinearExpr.Sum(down[i]) >= LinearExpr.Sum(From(via, i)));
            foreach (Visit visit in visitOf.Values)
                if (visit.Use == u && visit.What == Carried.Taken && !(inside ? rootPlace.Contains(visit.Stop.Place) : visit.Stop.Place == startPlace)) model.Holds(begins[i] + visit.Taken <= 1);
        }
        // Where it was put down it is taken, and who gives meets who gets.
        for (int i = 0; i < n; i++)
            for (int j = 0; j < n; j++)
            {
                if (via[i, j] is null) continue;
                foreach (int place in meetings)
                {
                    if (all.Stows.Contains(place)) Same(via[i, j], Here(first + i, Carried.Put, place), Here(first + j, Carried.Taken, place));
                    Same(hands[i, j], Here(first + i, Carried.Given, place), Here(first + j, Carried.Received, place));
                }
                if (!inside && !all.Stows.Contains(startPlace)) model.Holds(via[i, j] + LinearExpr.Sum(Here(first + j, Carried.Taken, startPlace)) <= 1);
                if (inside)
                    foreach (int root in rootPlace.Distinct())
                        if (!all.Stows.Contains(root)) model.Holds(via[i, j] + LinearExpr.Sum(Here(first + j, Carried.Taken, root)) <= 1);
            }

        BoolVar[] Into(BoolVar[,] of, int i) => [.. Enumerable.Range(0, n).Select(j => of[j, i]).Where(one => one is not null)];
        BoolVar[] From(BoolVar[,] of, int i) => [.. Enumerable.Range(0, n).Select(j => of[i, j]).Where(one => one is not null)];
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
