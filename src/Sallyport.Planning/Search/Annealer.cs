using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>An order of units, who does each, how its gear is brought, and which jobs are in: what search changes.</summary>
internal sealed class Candidate(int[] order, int[] options, Bringing[] bringing, bool[] jobIn)
{
    public int[] Order { get; } = order;
    public int[] Options { get; } = options;

    /// <summary>By unit.</summary>
    public Bringing[] Bringing { get; } = bringing;
    public bool[] JobIn { get; } = jobIn;

    public Candidate Copy() => new([.. Order], [.. Options], [.. Bringing], [.. JobIn]);

    public void CopyFrom(Candidate other)
    {
        other.Order.CopyTo(Order, 0);
        other.Options.CopyTo(Options, 0);
        other.Bringing.CopyTo(Bringing, 0);
        other.JobIn.CopyTo(JobIn, 0);
    }
}

/// <summary>How one lane anneals. No single setting wins on all cases, so that lanes differ.</summary>
/// <param name="Hottest">The temperature an epoch may begin with, in seconds of plan.</param>
/// <param name="Coldest">The temperature it ends with.</param>
/// <param name="BrokenWeight">What a second by which a limit is broken counts.</param>
/// <param name="ValueWeight">What an optional job of middling value counts, in seconds of plan.</param>
internal sealed record LaneSetting(double Hottest, double Coldest, double BrokenWeight, double ValueWeight)
{
    /// <summary>The lanes: always these, whatever cores there are.</summary>
    public static IReadOnlyList<LaneSetting> Lanes { get; } =
    [
        new(1500, 4, 15, 4000), new(600, 4, 15, 4000), new(3000, 10, 15, 6000), new(1500, 2, 5, 2500),
        new(800, 2, 30, 8000), new(2500, 6, 8, 4000), new(400, 1, 15, 5000), new(5000, 20, 20, 8000),
    ];

    /// <summary>The lanes where there are many units: few, which cool long. Below a minute or so hardly anything gets better there any more.</summary>
    public static IReadOnlyList<LaneSetting> Few { get; } = [new(2550, 60, 15, 4000), new(1020, 60, 15, 4000)];
}

/// <summary>
/// One lane of simulated annealing over candidates. What it accepts is decided by a blended energy, which lets it pass through
/// plans that break something; what it keeps as best is compared in order and never blended. It keeps a few, since the proof may refuse some.
/// </summary>
internal sealed class Annealer
{
    /// <summary>How many candidates are kept, each with legs in another order or given to others.</summary>
    private const int MostKept = 6;

    /// <summary>Of the moves that are not about what is in or how gear comes, so many put a unit beside one near it, where there are many units.</summary>
    private const double NearShare = 0.3;

    /// <summary>Where there are many units, such a share of all moves takes one optional job out and another one in.</summary>
    private const double ExchangeShare = 0.06;

    /// <summary>Where there are many units, such a share of those that come in is put beside one near it.</summary>
    private const double InNearShare = 0.7;

    private readonly SearchCase all;
    private readonly LaneSetting setting;
    private readonly HashSet<ulong> refused;
    private readonly List<Kept> kept = [];
    private readonly ulong[] legsOf;
    private readonly Decoder decoder;
    private readonly Random random;
    private readonly UnitPins[] pins;
    private readonly bool[] optional;
    private readonly int[] optionalJobs;
    private readonly int[][] unitsOfJob;
    private readonly Bringing[] most;
    private readonly Candidate current, trial;
    private readonly double valueWeight;
    private readonly double[] weights;
    private double energy;

    /// <param name="all">The scenario by index.</param>
    /// <param name="setting">How it anneals.</param>
    /// <param name="seed">Its seed.</param>
    /// <param name="start">Where it begins.</param>
    /// <param name="pins">What was pinned.</param>
    /// <param name="refused">The keys of what the proof refused; it changes between epochs only.</param>
    public Annealer(SearchCase all, LaneSetting setting, int seed, Candidate start, UnitPins[] pins, HashSet<ulong> refused)
    {
        this.all = all;
        this.setting = setting;
        this.pins = pins;
        this.refused = refused;
        legsOf = new ulong[all.People.Length];
        most = [.. all.Units.Select(unit => Bringing.MostOf(all, unit))];
        decoder = new(all);
        random = new(seed);
        unitsOfJob = [.. all.Scenario.Jobs.Select((_, j) => Enumerable.Range(0, all.Units.Length).Where(u => all.Units[u].Job == j).ToArray())];
        optional = [.. all.Scenario.Jobs.Select((job, j) => job.Worth != Model.Worth.Must && !unitsOfJob[j].Any(u => pins.Length > 0 && pins[u].Keeps))];
        optionalJobs = [.. Enumerable.Range(0, optional.Length).Where(j => optional[j])];
        weights = Weights(all.Scenario.Sortie.Objectives);
        bool valueFirst = all.Scenario.Sortie.Objectives.IndexOf(Objective.Value) < all.Scenario.Sortie.Objectives.IndexOf(Objective.End);
        valueWeight = optionalJobs.Length == 0 ? 0 : setting.ValueWeight * (valueFirst ? 1 : 0.02) * optionalJobs.Length / Math.Max(1, optionalJobs.Sum(j => all.Scenario.Jobs[j].Value));
        current = start.Copy();
        trial = start.Copy();
        PlanScore score = decoder.Decode(current, pins);
        energy = Energy(score);
        decoder.Hold(current, score);
        Keep(current, score);
        Decodes = 1;
    }

    /// <summary>The best candidates so far that the proof has not refused, by order of aims; the best first.</summary>
    public IReadOnlyList<Kept> Best => kept;

    /// <summary>How good the best is; the worst there is with none.</summary>
    public PlanScore BestScore => kept.Count > 0 ? kept[0].Score : PlanScore.Worst;

    public long Decodes { get; private set; }

    /// <summary>Tries a stated number of candidates, cooling meanwhile.</summary>
    /// <param name="decodes">How many.</param>
    /// <param name="heat">What the hottest temperature is multiplied by, between 0 and 1.</param>
    /// <param name="from">How far it has cooled before: 0 for not at all, 1 for to the coldest.</param>
    /// <param name="to">How far it cools.</param>
    public void Run(int decodes, double heat, double from = 0, double to = 1)
    {
        double hottest = Math.Max(setting.Coldest, setting.Hottest * heat), cold = setting.Coldest / hottest;
        double cooling = Math.Pow(cold, (to - from) / decodes), temperature = hottest * Math.Pow(cold, from);
        for (int i = 0; i < decodes; i++, temperature *= cooling)
        {
            trial.CopyFrom(current);
            if (!Change(trial)) continue;
            // The draw comes first: a candidate that is sure to be refused need not be decoded to its end.
            double ceiling = energy - temperature * Math.Log(1 - random.NextDouble());
            PlanScore score = decoder.Decode(trial, pins, null, setting.BrokenWeight, ceiling, valueWeight);
            Decodes++;
            double next = Energy(score);
            if (next > ceiling) continue;
            current.CopyFrom(trial);
            decoder.Hold(current, score);
            energy = next;
            if (kept.Count < MostKept || score.CompareTo(kept[^1].Score) < 0) Keep(trial, score);
        }
    }

    /// <summary>Forgets what the proof has refused since.</summary>
    public void Forget() => kept.RemoveAll(one => refused.Contains(one.Key));

    private void Keep(Candidate candidate, PlanScore score)
    {
        ulong legs = Legs(candidate), key = legs * 31 + (ulong)score.End;
        if (refused.Contains(key)) return;
        int same = kept.FindIndex(one => one.Legs == legs);
        if (same >= 0)
        {
            if (score.CompareTo(kept[same].Score) >= 0) return;
            kept.RemoveAt(same);
        }
        else if (kept.Count == MostKept) kept.RemoveAt(MostKept - 1);
        int at = kept.FindIndex(one => score.CompareTo(one.Score) < 0);
        kept.Insert(at < 0 ? kept.Count : at, new(candidate.Copy(), score, legs, key));
    }

    /// <summary>Who does which legs in which order, as one number.</summary>
    private ulong Legs(Candidate candidate)
    {
        Array.Fill(legsOf, 14695981039346656037);
        foreach (int u in candidate.Order)
        {
            SearchCase.Unit unit = all.Units[u];
            if (!candidate.JobIn[unit.Job] || unit.Options.Length == 0) continue;
            int[] who = unit.Options[candidate.Options[u]];
            for (int r = 0; r < who.Length; r++) legsOf[who[r]] = (legsOf[who[r]] ^ (ulong)(unit.Legs[r] + 1)) * 1099511628211;
        }
        ulong legs = 0;
        foreach (ulong one in legsOf) legs = (legs ^ one) * 1099511628211;
        return legs;
    }

    /// <summary>Goes on from a candidate instead of from where the lane is.</summary>
    public void GoOnFrom(Candidate candidate, PlanScore score)
    {
        current.CopyFrom(candidate);
        decoder.Hold(current, score);
        energy = Energy(score);
    }

    /// <summary>The same, and keeps it among its best.</summary>
    public void Take(Candidate candidate, PlanScore score)
    {
        GoOnFrom(candidate, score);
        Keep(candidate, score);
    }

    /// <summary>Blended, so that a lane may pass through plans that break something.</summary>
    private double Energy(PlanScore score) =>
        setting.BrokenWeight * Math.Min(score.Broken, 100_000_000) - valueWeight * score.Value + 600 * score.Closed + weights[(int)Objective.End] * (score.End + score.Apart)
            + weights[(int)Objective.Dead] * score.Dead + weights[(int)Objective.Balance] * score.Unbalance + weights[(int)Objective.Walking] * score.Walked + weights[(int)Objective.Margin] * score.Narrow;

    /// <summary>By objective, what a second of it counts: more for what comes before the end of the plan, which counts one.</summary>
    private static double[] Weights(ImmutableArray<Objective> objectives)
    {
        double[] weights = new double[Enum.GetValues<Objective>().Length];
        foreach (Objective one in objectives)
            weights[(int)one] = one == Objective.End ? 1 : objectives.IndexOf(one) < objectives.IndexOf(Objective.End) ? 6 : one == Objective.Dead ? 0.25 : 0.02;
        return weights;
    }

    private bool Change(Candidate candidate)
    {
        int n = all.Units.Length;
        double draw = random.NextDouble();
        if (draw < 0.08 && optionalJobs.Length > 0)
        {
            int job = optionalJobs[random.Next(optionalJobs.Length)];
            candidate.JobIn[job] = !candidate.JobIn[job];
            if (candidate.JobIn[job])
                foreach (int unit in unitsOfJob[job]) PutIn(candidate, unit);
            return true;
        }
        if (all.HasMany && optionalJobs.Length > 1 && random.NextDouble() < ExchangeShare) return ExchangeJobs(candidate);
        if (draw < 0.16) return BringOtherwise(candidate);
        if (all.Near.Length > 0 && random.NextDouble() < NearShare) return PutBesideNear(candidate, random.Next(n));
        if (draw < 0.30) return Flip(candidate, candidate.Order[random.Next(n)]);
        if (draw < 0.42 && n > 2) return Swap(candidate, random.Next(n), random.Next(n));
        if (draw < 0.52 && n > 3) return MoveBlock(candidate);
        int at = random.Next(n);
        bool moved = Relocate(candidate, at);
        if (draw > 0.85) moved |= Flip(candidate, candidate.Order[at]);
        return moved;
    }

    /// <summary>Lets the gear of one unit come another way.</summary>
    private bool BringOtherwise(Candidate candidate)
    {
        int u = random.Next(all.Units.Length);
        Bringing was = candidate.Bringing[u];
        candidate.Bringing[u] = was.Otherwise(most[u], random.Next(4), random.NextDouble());
        return candidate.Bringing[u] != was;
    }

    private bool Flip(Candidate candidate, int unit)
    {
        int count = all.Units[unit].Options.Length;
        if (count < 2 || (pins.Length > 0 && pins[unit].KeepsWho)) return false;
        candidate.Options[unit] = (candidate.Options[unit] + 1 + random.Next(count - 1)) % count;
        return true;
    }

    /// <summary>Moves one unit to another place that precedence allows.</summary>
    private bool Relocate(Candidate candidate, int from)
    {
        (int low, int high) = Room(candidate.Order, from);
        if (low == high) return false;
        int to = low + random.Next(high - low);
        if (to >= from) to++;
        Shift(candidate.Order, from, 1, to);
        return true;
    }

    /// <summary>Puts one unit right before or after one that is done near it, as far as precedence allows, and gives it to the same person where that may be.</summary>
    private bool PutBesideNear(Candidate candidate, int unit)
    {
        int[] near = all.Near[unit], order = candidate.Order;
        if (near.Length == 0) return false;
        int other = near[random.Next(near.Length)];
        bool after = random.Next(2) == 0;
        if (!candidate.JobIn[all.Units[other].Job]) return false;
        return Give(candidate, unit, other) | PutBeside(order, unit, other, after);
    }

    /// <summary>Puts one unit right before or after another, as far as precedence allows.</summary>
    private bool PutBeside(int[] order, int unit, int other, bool after)
    {
        int from = Array.IndexOf(order, unit), beside = Array.IndexOf(order, other);
        (int low, int high) = Room(order, from);
        // Places behind the unit come one nearer when it is taken out.
        int to = Math.Clamp(beside - (beside > from ? 1 : 0) + (after ? 1 : 0), low, high);
        if (to == from) return false;
        Shift(order, from, 1, to);
        return true;
    }

    /// <summary>A unit that comes in gets a place, most often beside one near it where there are many.</summary>
    private void PutIn(Candidate candidate, int unit)
    {
        if (!all.HasMany || random.NextDouble() >= InNearShare || !PutBesideNear(candidate, unit)) Relocate(candidate, Array.IndexOf(candidate.Order, unit));
    }

    /// <summary>Takes one optional job out and another in, beside what is near it or in the place that is free: a full plan lets none in before one is out.</summary>
    private bool ExchangeJobs(Candidate candidate)
    {
        int ins = 0;
        foreach (int job in optionalJobs) ins += candidate.JobIn[job] ? 1 : 0;
        if (ins == 0 || ins == optionalJobs.Length) return false;
        int goes = Nth(candidate, true, random.Next(ins)), comes = Nth(candidate, false, random.Next(optionalJobs.Length - ins)), gone = unitsOfJob[goes][0];
        (candidate.JobIn[goes], candidate.JobIn[comes]) = (false, true);
        foreach (int unit in unitsOfJob[comes])
        {
            if (random.Next(2) == 0 && PutBesideNear(candidate, unit)) continue;
            Give(candidate, unit, gone);
            PutBeside(candidate.Order, unit, gone, after: true);
        }
        return true;
    }

    /// <summary>One of the optional jobs that are in, or that are out, by its number.</summary>
    private int Nth(Candidate candidate, bool isIn, int number)
    {
        foreach (int job in optionalJobs)
            if (candidate.JobIn[job] == isIn && number-- == 0) return job;
        throw new ArgumentOutOfRangeException(nameof(number));
    }

    /// <summary>Gives one unit to who does another, where that may be.</summary>
    private bool Give(Candidate candidate, int unit, int other)
    {
        if (all.Units[other].Options.Length == 0 || (pins.Length > 0 && pins[unit].KeepsWho)) return false;
        int who = all.Units[other].Options[candidate.Options[other]][0], option = Array.FindIndex(all.Units[unit].Options, one => one[0] == who);
        if (option < 0 || option == candidate.Options[unit]) return false;
        candidate.Options[unit] = option;
        return true;
    }

    /// <summary>Between which places, both included, precedence lets one unit stand.</summary>
    private (int Low, int High) Room(int[] order, int from)
    {
        int unit = order[from], low = from, high = from;
        while (low > 0 && !all.Before[order[low - 1]][unit]) low--;
        while (high + 1 < order.Length && !all.Before[unit][order[high + 1]]) high++;
        return (low, high);
    }

    private bool Swap(Candidate candidate, int a, int b)
    {
        if (a == b) return false;
        if (a > b) (a, b) = (b, a);
        int[] order = candidate.Order;
        for (int i = a; i <= b; i++)
            if ((i > a && all.Before[order[a]][order[i]]) || (i < b && all.Before[order[i]][order[b]])) return false;
        (order[a], order[b]) = (order[b], order[a]);
        return true;
    }

    /// <summary>Moves two or three neighbours together.</summary>
    private bool MoveBlock(Candidate candidate)
    {
        int[] order = candidate.Order;
        int length = 2 + random.Next(2), from = random.Next(order.Length - length), to = random.Next(order.Length - length + 1);
        if (to == from) return false;
        for (int i = 0; i < length; i++)
            for (int passed = Math.Min(from, to); passed < Math.Max(from, to) + length; passed++)
            {
                if (passed >= from && passed < from + length) continue;
                int unit = order[from + i], other = order[passed];
                if (to > from ? passed >= from + length && passed < to + length && all.Before[unit][other] : passed >= to && passed < from && all.Before[other][unit]) return false;
            }
        Shift(order, from, length, to);
        return true;
    }

    private static void Shift(int[] order, int from, int length, int to)
    {
        Span<int> moved = stackalloc int[3];
        order.AsSpan(from, length).CopyTo(moved);
        if (to > from) Array.Copy(order, from + length, order, from, to - from);
        else Array.Copy(order, to, order, to + length, from - to);
        moved[..length].CopyTo(order.AsSpan(to, length));
    }
}

/// <summary>A candidate kept.</summary>
/// <param name="Candidate">The candidate.</param>
/// <param name="Score">How good it is.</param>
/// <param name="Legs">Who does which legs in which order, as one number.</param>
/// <param name="Key">That and when it ends: what the proof refuses is not kept again.</param>
internal sealed record Kept(Candidate Candidate, PlanScore Score, ulong Legs, ulong Key);
