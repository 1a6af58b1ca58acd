using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What somebody wants of a plan beyond what the scenario asks for. Wishes are put into the scenario itself where it has a word for them,
/// so that search, proof and bounds all hold to them; what it has no word for is pinned.</summary>
/// <param name="Text">In the words of whoever wished it.</param>
public abstract record Wish(string Text)
{
    /// <summary>The scenario with the wish in it.</summary>
    public virtual Scenario Into(Scenario scenario) => scenario;

    /// <summary>The pins that the wish sets on legs.</summary>
    public virtual IEnumerable<(LegId Leg, Pins Pins)> Pinned => [];

    /// <summary>Whether a plan of the scenario with the wish in it keeps the rest of it.</summary>
    public virtual bool IsKept(Outline outline, Timeline timeline) => true;

    /// <summary>Sets what stands before what in the order that search tries.</summary>
    internal virtual void Arrange(SearchCase all)
    {
    }

    /// <summary>A scenario with some jobs changed.</summary>
    protected static Scenario Change(Scenario scenario, Func<Job, Job> change) => scenario with { Jobs = [.. scenario.Jobs.Select(change)] };

    /// <summary>A job as one that every plan must do.</summary>
    protected static Job Must(Job job) => job with { Worth = Worth.Must };

    /// <summary>A job with some legs changed.</summary>
    protected static Job Change(Job job, Func<Leg, Leg> change) => job with { Legs = [.. job.Legs.Select(change)] };
}

/// <summary>That a job is done.</summary>
public sealed record DoneWish(string Text, JobId Job) : Wish(Text)
{
    public override Scenario Into(Scenario scenario) => Change(scenario, job => job.Id == Job ? Must(job) : job);
}

/// <summary>That some legs, and so their job, are done by one person.</summary>
public sealed record ByWish(string Text, ImmutableArray<LegId> Legs, PersonId Person) : Wish(Text)
{
    public override Scenario Into(Scenario scenario) => Change(scenario, job => job.Legs.Any(leg => Legs.Contains(leg.Id)) ? Must(Change(job, ByPerson)) : job);

    private Leg ByPerson(Leg leg) => !Legs.Contains(leg.Id) ? leg
        : leg.Who.IsEmpty || leg.Who.Contains(Person) ? leg with { Who = [Person] }
        : leg with { Training = [NobodyMay] };

    /// <summary>A training that nobody has, for a leg that the person wished for may not do.</summary>
    private const string NobodyMay = "nobody may";
}

/// <summary>That one job has ended before another begins; both are done.</summary>
public sealed record BeforeWish(string Text, JobId First, JobId Then) : Wish(Text)
{
    public override Scenario Into(Scenario scenario)
    {
        ImmutableArray<Leg> first = scenario.Jobs.First(job => job.Id == First).Legs;
        return Change(scenario, job => job.Id == First ? Must(job)
            : job.Id == Then ? Must(Change(job, leg => leg with { After = [.. leg.After, .. first.Where(one => leg.After.All(known => known.Leg != one.Id)).Select(one => new Precedence(one.Id, default, null))] }))
            : job);
    }
}

/// <summary>That whoever begins a job has done no other leg before.</summary>
public sealed record FirstWish(string Text, JobId Job) : Wish(Text)
{
    public override Scenario Into(Scenario scenario) => Change(scenario, job => job.Id == Job ? Must(job) : job);

    public override bool IsKept(Outline outline, Timeline timeline)
    {
        DoStep[] steps = [.. timeline.Activities.OfType<DoStep>().OrderBy(step => step.Start)];
        DoStep? begun = steps.FirstOrDefault(step => JobOf(step.Leg) == Job);
        return begun is not null && steps.First(step => step.Person == begun.Person).Leg == begun.Leg;
    }

    internal override void Arrange(SearchCase all)
    {
        int first = Enumerable.Range(0, all.Units.Length).First(u => all.Scenario.Jobs[all.Units[u].Job].Id == Job && Enumerable.Range(0, all.Units.Length).All(v => !all.Before[v][u] || all.Units[v].Job != all.Units[u].Job));
        int[] after = [.. Enumerable.Range(0, all.Units.Length).Where(u => u != first && !all.Before[u][first])];
        int[] before = [.. Enumerable.Range(0, all.Units.Length).Where(u => u == first || all.Before[u][first])];
        foreach (int a in before)
            foreach (int b in after) all.Before[a][b] = true;
    }

    private static JobId JobOf(LegId leg) => new(leg.Value[..leg.Value.IndexOf('/')]);
}

/// <summary>That a leg, and so its job, is begun not before one moment and not after another.</summary>
public sealed record WhenWish(string Text, LegId Leg, Pet? NotBefore, Pet? NotAfter) : Wish(Text)
{
    public override IEnumerable<(LegId, Pins)> Pinned => [(Leg, new(NotBefore is { } at && at == NotAfter ? at : null, NotBefore, NotAfter, Who: false, Keep: true))];

    public override Scenario Into(Scenario scenario) => Change(scenario, job => job.Legs.Any(leg => leg.Id == Leg) ? Must(job) : job);

    public override bool IsKept(Outline outline, Timeline timeline) =>
        timeline.Activities.OfType<DoStep>().Where(step => step.Leg == Leg).Select(step => step.Start).DefaultIfEmpty(Pet.FromSeconds(int.MaxValue)).Min() is var start
        && (NotBefore is not { } from || start >= from) && (NotAfter is not { } to || start <= to);
}
