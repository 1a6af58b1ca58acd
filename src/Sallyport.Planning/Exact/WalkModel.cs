using Google.OrTools.Sat;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>
/// What every question about a walk that is put to the solver has in common: which jobs are in, who does which leg from when, what comes after what, light, links and
/// zones at the sites, latest starts, one rider an arm, and when everybody is in. How people and gear come from leg to leg is added by what is built on it.
/// </summary>
internal abstract class WalkModel
{
    protected readonly SearchCase all;
    protected readonly LeastWays ways;
    protected readonly ConstraintModel model = new();
    protected readonly int people, legs;
    protected readonly long horizon;
    protected readonly BoolVar[] jobIn;
    protected readonly BoolVar?[][] does;
    protected readonly IntVar[] start;
    protected readonly LinearExpr[] ends;
    protected readonly IntVar[] back;
    protected readonly int[] outEnd, rootPlace;
    private readonly int tail;

    /// <summary>Begins a model.</summary>
    /// <param name="all">The scenario.</param>
    /// <param name="ways">How long ways take.</param>
    /// <param name="latest">No plan that ends later than this is asked for, s of PET.</param>
    protected WalkModel(SearchCase all, LeastWays ways, int latest)
    {
        (this.all, this.ways) = (all, ways);
        (people, legs) = (all.People.Length, all.Legs.Length);
        Airlock[] airlocks = [.. all.Airlocks.Select(index => all.Scenario.Station.Airlocks[index])];
        int[] sharing = [.. all.Airlocks.Select(airlock => all.Airlocks.Count(index => index == airlock))];
        rootPlace = [.. airlocks.Select(airlock => all.PlaceIndex[airlock.Grip])];
        outEnd = [.. airlocks.Select((airlock, p) => airlock.OutEach.Seconds * sharing[p] + airlock.OutBags.Seconds + airlock.OutCheck.Seconds)];
        // From the moment in which the last one is back at a hatch: everybody in, and the slowest hatch closed.
        tail = airlocks.Select((airlock, p) => airlock.Inventory.Seconds + airlock.InBags.Seconds + airlock.InEach.Seconds * sharing[p]).Max()
            + airlocks.Max(airlock => airlock.Close.Seconds);
        horizon = Math.Min(Math.Min(latest, all.PetLimit), Day) - tail;
        CanEnd = horizon >= outEnd.Max();
        if (!CanEnd) horizon = outEnd.Max();

        jobIn = [.. all.Scenario.Jobs.Select(job => model.Choice($"in {job.Id}"))];
        for (int j = 0; j < jobIn.Length; j++)
            if (!all.Leavable[j]) model.Holds(jobIn[j] == 1);
        start = new IntVar[legs];
        ends = new LinearExpr[legs];
        does = [.. all.Data.Select(leg => leg.MayDo.Select((may, p) => may ? model.Choice($"{all.People[p].Id} {leg.Leg.Id}") : null).ToArray())];
        back = [.. all.People.Select((person, p) => model.Number(outEnd[p], horizon, $"{person.Id} back"))];
        for (int l = 0; l < legs; l++) AddLeg(l);
        foreach (SearchCase.Unit unit in all.Units) AddUnit(unit);
        AddOrder();
        Value = LinearExpr.WeightedSum(jobIn, all.Scenario.Jobs.Select(job => job.Value));
    }

    /// <summary>No plan is looked for beyond a day.</summary>
    private const int Day = 86_400;

    /// <summary>Whether there is time enough to go out and come back in.</summary>
    public bool CanEnd { get; }

    protected LinearExpr Value { get; }

    /// <summary>When the last hatch is closed, s of PET.</summary>
    protected IntVar AddEnd()
    {
        IntVar end = model.Number(0, horizon + tail, "end");
        foreach (IntVar one in back) model.Holds(end >= one + tail);
        return end;
    }

    /// <summary>Only what begins a leg, if it does, in a stretch of time; s of PET, ends included.</summary>
    public void Begin(int leg, int from, int to)
    {
        model.Holds(start[leg] >= from).OnlyEnforceIf(jobIn[all.JobOfLeg[leg]]);
        if (to < SearchCase.Never) model.Holds(start[leg] <= to).OnlyEnforceIf(jobIn[all.JobOfLeg[leg]]);
    }

    /// <summary>Only what keeps to a plan: these legs and no others, by whom and from when.</summary>
    /// <param name="plan">By leg in it: the person and the start, s of PET.</param>
    public void KeepTo(IReadOnlyDictionary<int, (int Person, int Start)> plan)
    {
        for (int l = 0; l < legs; l++)
        {
            if (plan.TryGetValue(l, out (int Person, int Start) told))
            {
                if (does[l][told.Person] is { } one) model.Holds(one == 1);
                else model.Holds(jobIn[all.JobOfLeg[l]] == 0);
                model.Holds(start[l] == told.Start);
            }
            model.Holds(jobIn[all.JobOfLeg[l]] == (plan.ContainsKey(l) ? 1 : 0));
        }
    }

    private void AddLeg(int l)
    {
        LegData leg = all.Data[l];
        List<(long, long)> open = [];
        // Starts at which its first piece stays clear of what closes it.
        for (int from = outEnd.Min(); leg.Closed.Next(from, leg.Pieces[0]) is { } next && next <= horizon - leg.Length;)
        {
            int until = (int)horizon - leg.Length;
            foreach (PetInterval closed in leg.Closed.Intervals)
                if (closed.To.Seconds > next) until = Math.Min(until, closed.From.Seconds - leg.Pieces[0]);
            open.Add((next, until));
            from = until + 1;
        }
        // A leg that fits nowhere is in no plan, and neither is its job.
        bool fits = open.Count > 0;
        if (!fits) model.Holds(jobIn[all.JobOfLeg[l]] == 0);
        start[l] = model.Number(fits ? open : [(0, horizon)], $"start {leg.Leg.Id}");
        if (leg.Pieces.Length == 1) ends[l] = start[l] + leg.Length;
        else
        {
            IntVar over = model.Number(0, horizon + leg.Length, $"end {leg.Leg.Id}");
            model.Holds(over >= start[l] + leg.Length);
            ends[l] = over;
        }
        ILiteral[] who = [.. does[l].OfType<BoolVar>()];
        model.ExactlyOne([.. who, jobIn[all.JobOfLeg[l]].Not()]);
        if (leg.Leg.Latest is { } latest) model.Holds(start[l] <= latest.Seconds).OnlyEnforceIf(jobIn[all.JobOfLeg[l]]);
    }

    private void AddUnit(SearchCase.Unit unit)
    {
        for (int i = 1; i < unit.Legs.Length; i++)
        {
            model.Holds(start[unit.Legs[0]] == start[unit.Legs[i]]).OnlyEnforceIf(jobIn[unit.Job]);
            for (int other = 0; other < i; other++)
                for (int p = 0; p < people; p++)
                    if (does[unit.Legs[i]][p] is { } one && does[unit.Legs[other]][p] is { } two) model.Brings(one, two.Not());
        }
    }

    private void AddOrder()
    {
        for (int l = 0; l < legs; l++)
            foreach ((int earlier, int least, int most) in all.Data[l].After)
            {
                BoolVar isIn = jobIn[all.JobOfLeg[l]];
                model.Brings(isIn, jobIn[all.JobOfLeg[earlier]]);
                model.Holds(start[l] >= ends[earlier] + least).OnlyEnforceIf(isIn);
                if (most < SearchCase.Never) model.Holds(start[l] <= ends[earlier] + most).OnlyEnforceIf(isIn);
            }
        foreach ((int[] jobLegs, int latest) in all.LatestJobs)
        {
            BoolVar[] first = [.. jobLegs.Select(l => model.Choice($"first {all.Legs[l].Id}"))];
            model.AtLeastOne(first);
            for (int i = 0; i < first.Length; i++) model.Holds(start[jobLegs[i]] <= latest).OnlyEnforceIf([first[i], jobIn[all.JobOfLeg[jobLegs[0]]]]);
        }
    }

    /// <summary>The class of load that slows no more than a parcel does.</summary>
    protected int LoadOf(int parcel)
    {
        double slower = all.Scenario.Sizes.First(size => size.Id == all.Parcels[parcel].Gear.Size).Slower;
        return Enumerable.Range(0, all.Slower.Length).Last(c => all.Slower[c] <= slower || c == 0);
    }

    protected bool Precedes(int first, int then) => first >= 0 && then >= 0 && all.Before[all.UnitOfLeg[first]][all.UnitOfLeg[then]];

    /// <summary>One rider at a time, and the arm itself has to come from pose to pose.</summary>
    protected void AddArms()
    {
        for (int a = 0; a < legs; a++)
            for (int b = 0; b < a; b++)
            {
                int arm = all.Data[a].Arm;
                if (arm < 0 || arm != all.Data[b].Arm || all.UnitOfLeg[a] == all.UnitOfLeg[b]) continue;
                BoolVar first = model.Choice("");
                BoolVar[] both = [jobIn[all.JobOfLeg[a]], jobIn[all.JobOfLeg[b]]];
                foreach ((int earlier, int later, ILiteral order) in (ReadOnlySpan<(int, int, ILiteral)>)[(a, b, first), (b, a, first.Not())])
                {
                    LegData from = all.Data[earlier], to = all.Data[later];
                    model.Holds(start[later] >= ends[earlier] + ways.Ride(arm, from.Pose, to.Pose)).OnlyEnforceIf([order, .. both]);
                    int change = ChangeOfRider(all.ArmData[arm], from.Pose, to.Pose);
                    for (int p = 0; p < people; p++)
                        for (int q = 0; q < people; q++)
                            if (p != q && does[earlier][p] is { } one && does[later][q] is { } two)
                                model.Holds(start[later] >= ends[earlier] + change).OnlyEnforceIf([order, one, two]);
                }
            }
    }

    private int ChangeOfRider(ArmCase arm, int from, int to)
    {
        int least = SearchCase.Never;
        foreach (int off in arm.MountPoses)
            foreach (int on in arm.MountPoses)
                least = Math.Min(least, ways.Ride(arm.Index, from, off) + ways.Ride(arm.Index, off, on) + ways.Ride(arm.Index, on, to));
        return Math.Min(SearchCase.Never, least + arm.Arm.Mount.Time.Seconds + arm.Arm.Dismount.Time.Seconds);
    }
}
