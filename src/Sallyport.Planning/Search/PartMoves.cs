using Sallyport.Physics;

namespace Sallyport.Planning;

/// <summary>Parts of a plan ordered anew by the constraint solver, the rest kept.</summary>
internal sealed class PartMoves(SearchCase all, StationGraph graph, UnitPins[] pins)
{
    private readonly Lazy<LeastWays[]> byLoad = new(() =>
    {
        LeastWays least = new(all, graph);
        return [.. all.Slower.Select((_, load) => least.AsSearched(load))];
    });

    /// <summary>What is done in a candidate and what happens to gear in it.</summary>
    public KnownWalk Known(Candidate candidate)
    {
        List<Deed> deeds = [];
        PlanScore score = new Decoder(all).Decode(candidate, pins, deeds);
        (int, int)?[] legs = new (int, int)?[all.Legs.Length];
        foreach (Deed deed in deeds)
            if (deed.What == Did.Leg) legs[deed.For] = (deed.Person, deed.Start);
        List<CarriedDeed> carried = [];
        for (int k = 0; k < all.Parcels.Length; k++)
        {
            int used = -1;
            CarriedDeed? got = null;
            foreach (Deed deed in deeds.OrderBy(deed => deed.Start))
            {
                if (deed.What == Did.Leg && (all.Data[deed.For].With >> k & 1) != 0)
                {
                    if (got is not null) carried.Add(got with { Leg = deed.For });
                    (used, got) = (deed.For, null);
                }
                if (deed.Parcel != k || deed.What is not (Did.Take or Did.Put or Did.Give)) continue;
                int place = all.PlaceOfMooring[deed.Person][deed.Mooring];
                if (deed.What == Did.Take || (deed.What == Did.Give && deed.Other < 0)) got = new(deed.What == Did.Take ? CarryingModel.Carried.Taken : CarryingModel.Carried.Received, deed.Person, k, place, -1, deed.Start);
                else if (used >= 0) carried.Add(new(deed.What == Did.Put ? CarryingModel.Carried.Put : CarryingModel.Carried.Given, deed.Person, k, place, used, deed.Start));
            }
        }
        return new(legs, carried, score.Value, score.End);
    }

    /// <summary>The parts that are tried: how all gear comes, and what begins within stretches of time that overlap by half, with what is left out where something is.</summary>
    public IEnumerable<FreePart> Parts(KnownWalk known)
    {
        yield return new(new bool[all.Units.Length], AllGear: true, MayAdd: false, 0, int.MaxValue);
        bool mayAdd = known.Legs.Contains(null);
        for (int from = 0; from + Stretch / 2 < known.End; from += Stretch / 2)
        {
            bool[] free = [.. all.Units.Select((unit, u) => IsUnpinned(u) && unit.Legs.Any(l => known.Legs[l] is { } told && told.Start >= from && told.Start < from + Stretch))];
            if (free.Contains(true)) yield return new(free, AllGear: false, mayAdd, from, from + Stretch);
        }
    }

    private bool IsUnpinned(int u) => pins.Length == 0 || pins[u] is { KeepsWho: false, NotBefore: int.MinValue, NotAfter: int.MaxValue };

    /// <summary>How long a stretch of time is that is ordered anew, s.</summary>
    private const int Stretch = 3600;

    /// <summary>How much the solver thinks on each part, in its own count; so that the same comes out on every machine.</summary>
    private const double Work = 0.1;

    /// <summary>Candidates annealed round what the solver found.</summary>
    private const int Decodes = 1000;

    /// <summary>How it is annealed round what the solver found: cold.</summary>
    private static LaneSetting Round { get; } = new(60, 2, 15, 4000);

    /// <summary>The best of what comes of ordering each part of a plan anew, with a little annealing round it; null when nothing is better.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="score">How good it is.</param>
    /// <param name="refused">The keys of what the proof refused.</param>
    /// <param name="threads">How many threads; what comes out does not depend on it.</param>
    /// <param name="cancel">Ends it; then nothing comes of it.</param>
    public Kept? Improve(Candidate plan, PlanScore score, HashSet<ulong> refused, int threads, CancellationToken cancel)
    {
        KnownWalk known = Known(plan);
        FreePart[] parts = [.. Parts(known)];
        Kept?[] found = new Kept?[parts.Length];
        Parallel.For(0, parts.Length, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, threads) }, i =>
        {
            if (Solve(known, parts[i], Work, cancel) is not { IsBetter: true } walk) return;
            Annealer round = new(all, Round, i, Read(walk, plan), pins, refused);
            round.Run(Decodes, 1);
            found[i] = round.Best.FirstOrDefault();
        });
        return cancel.IsCancellationRequested ? null : found.OfType<Kept>().Where(one => one.Score.CompareTo(score) < 0).MinBy(one => one.Score);
    }

    /// <summary>The solver's walk with a part free; null when it found none.</summary>
    public CarriedWalk? Solve(KnownWalk known, FreePart part, double work, CancellationToken cancel) =>
        new CarryingModel(all, byLoad.Value, known, part).Solve(new(double.PositiveInfinity, work, 1, cancel) { IsSmall = true });

    /// <summary>The candidate nearest to a walk: of those that keep the order of the plan as far as they can or take the solver's, and bring gear as the plan does or as near to the solver as
    /// search can say it, the best.</summary>
    public Candidate Read(CarriedWalk walk, Candidate from)
    {
        Candidate best = from;
        PlanScore score = PlanScore.Worst;
        Decoder own = new(all);
        foreach (bool byStart in (ReadOnlySpan<bool>)[false, true])
            foreach (bool brings in (ReadOnlySpan<bool>)[false, true])
            {
                Candidate candidate = Give(walk, from);
                Order(walk, candidate, byStart);
                if (brings) Bring(walk, candidate);
                PlanScore one = own.Decode(candidate, pins);
                if (one.CompareTo(score) < 0) (best, score) = (candidate, one);
            }
        return best;
    }

    /// <summary>Who does what, and which jobs are in.</summary>
    private Candidate Give(CarriedWalk walk, Candidate from)
    {
        Candidate candidate = from.Copy();
        for (int u = 0; u < all.Units.Length; u++)
        {
            SearchCase.Unit unit = all.Units[u];
            candidate.JobIn[unit.Job] = walk.Legs[unit.Legs[0]] is not null;
            int option = Array.FindIndex(unit.Options, who => who.Zip(unit.Legs).All(one => walk.Legs[one.Second]?.Person == one.First));
            if (option >= 0) candidate.Options[u] = option;
        }
        return candidate;
    }

    /// <summary>Puts units in order: by their starts, or as they stood with only that changed in which a person's list or the way of a thing asks for it.</summary>
    private void Order(CarriedWalk walk, Candidate candidate, bool byStart)
    {
        int[] was = [.. candidate.Order];
        List<int> left = [.. was];
        if (byStart)
        {
            // What is left out stays behind what it stood behind.
            Dictionary<int, int> rank = [];
            int last = 0;
            foreach (int u in was) rank[u] = StartOf(u) is < SearchCase.Never and var start ? last = Math.Min(start, MeetsFor(u)) : last;
            left = [.. was.OrderBy(u => rank[u])];
        }
        for (int i = 0; i < was.Length; i++)
        {
            int next = left.FindIndex(u => !left.Exists(other => all.Before[other][u] || (StartOf(other) < StartOf(u) && StartOf(u) < SearchCase.Never && Share(other, u))));
            if (next < 0) next = left.FindIndex(u => !left.Exists(other => all.Before[other][u]));
            candidate.Order[i] = left[next];
            left.RemoveAt(next);
        }

        int StartOf(int u) => walk.Legs[all.Units[u].Legs[0]]?.Start ?? SearchCase.Never;

        // Who gives goes on only after that.
        int MeetsFor(int u) => walk.Deeds.Where(deed => deed.What == CarryingModel.Carried.Received && all.UnitOfLeg[deed.Leg] == u).Select(deed => deed.Start).DefaultIfEmpty(SearchCase.Never).Min();
        bool Share(int a, int b) => all.Units[a].Legs.Any(l => all.Units[b].Legs.Any(m => walk.Legs[l]!.Value.Person == walk.Legs[m]!.Value.Person || (all.Data[l].With & all.Data[m].With) != 0));
    }

    /// <summary>How gear is brought, as far as <see cref="Bringing"/> can say it.</summary>
    private void Bring(CarriedWalk walk, Candidate candidate)
    {
        foreach (CarriedDeed deed in walk.Deeds.OrderBy(deed => deed.Start))
        {
            if (deed.What is CarryingModel.Carried.Put or CarryingModel.Carried.Given) continue;
            ref Bringing way = ref candidate.Bringing[all.UnitOfLeg[deed.Leg]];
            if (deed.What == CarryingModel.Carried.Received)
            {
                LegData leg = all.Data[deed.Leg];
                int at = leg.Arm >= 0 ? all.ArmData[leg.Arm].MountPlaces[0] : leg.Place;
                way = way with { HandOver = all.Stows.Contains(deed.Place) ? Bringing.AtStow : deed.Place == at ? Bringing.AtLeg : (byte)0 };
                continue;
            }
            int until = walk.Legs[deed.Leg]!.Value.Start;
            int ahead = walk.Legs.Count(one => one is { } told && told.Person == deed.Person && told.Start > deed.Start && told.Start < until);
            way = way with { Ahead = (byte)Math.Min(ahead, Bringing.MostAhead) };
            if (walk.Deeds.Exists(other => other.What == CarryingModel.Carried.Put && other.Thing == deed.Thing && other.Place == deed.Place && other.Person != deed.Person && other.Start < deed.Start))
                way = way with { HandOver = Bringing.PutDown };
        }
    }
}
