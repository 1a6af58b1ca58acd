using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Nothing is begun too late.</summary>
internal sealed class JobLate : Rule
{
    public override RuleCard Card { get; } = new(new("job.late"),
        "work begun when there is no longer time to end it, or when what it was for is over",
        "the start of each leg against its latest start, and the start of the first leg of each job against the job's; a start at that very second is in time",
        "the latest starts written at legs and jobs",
        Guard.Decoder("what begins late counts against a plan"));

    public override IEnumerable<Finding> Find(Case given)
    {
        Dictionary<LegId, DoStep> begun = given.Timeline.Activities.OfType<DoStep>().GroupBy(step => step.Leg).ToDictionary(own => own.Key, own => Earliest(own)!);
        foreach (Job job in given.Scenario.Jobs)
        {
            if (job.Latest is { } latest && Earliest(job.Legs.Select(leg => begun.GetValueOrDefault(leg.Id)).OfType<DoStep>()) is { } first && first.Start > latest)
                yield return Late(given, first, $"the job {job.Id}", latest);
            foreach (Leg leg in job.Legs)
                if (leg.Latest is { } last && begun.TryGetValue(leg.Id, out DoStep? step) && step.Start > last)
                    yield return Late(given, step, $"the leg {leg.Id}", last);
        }
    }

    private Finding Late(Case given, DoStep first, string what, Pet latest) =>
        Broken(given, first.Start, first.People, $"{first.Person} begins {what} at {first.Start}; the latest start is {latest}.",
            $"Begin {what} earlier, or leave it out.", first.Id) with
        {
            Measured = $"PET {first.Start}",
            Limit = $"PET {latest}",
            Margin = Duration.FromSeconds(latest.Seconds - first.Start.Seconds).ToString(),
        };

    private static DoStep? Earliest(IEnumerable<DoStep> steps) => steps.MinBy(step => (step.Start, step.Id.Value));
}

/// <summary>The sortie does what it is flown for.</summary>
internal sealed class JobMissing : Rule
{
    public override RuleCard Card { get; } = new(new("job.missing"),
        "a clean plan that leaves out what the sortie is flown for",
        "the jobs of which no leg is begun, in each branch of a decision: a must-job breaks the rule, a job that should be done is a note, get-aheads may be left. "
            + "What a way on after a contingency leaves out is its price, told with it; one that goes on may leave out no must-job of the plan",
        "the worth written at the job",
        Guard.Decoder("must-jobs are in every plan of the search"));

    public override IEnumerable<Finding> Find(Case given)
    {
        // A way on is held against the plan instead, by Detour.
        if (given.Timeline.Trouble is not null) yield break;
        foreach (Job job in given.Scenario.Jobs.Where(job => job.Worth != Worth.GetAhead && job.Legs.All(leg => NotBegun(given, leg))))
            // Told at the start of the walk, where both branches of a decision still agree.
            yield return Broken(given, given.Trace.From, [], job.Worth == Worth.Must
                    ? $"The must-job {job.Id} ({job.Title}) is not in the plan."
                    : $"The job {job.Id} ({job.Title}), which should be done, is not in the plan.",
                $"Take {job.Id} into the plan, or change what it is worth.") with
            {
                Severity = job.Worth == Worth.Must ? Severity.Broken : Severity.Note,
            };
    }

    private static bool NotBegun(Case given, Leg leg) => given.History.LastState(given.History[$"leg {leg.Id} progress"]) == "not begun";
}
