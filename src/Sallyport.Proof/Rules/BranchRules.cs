using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>For whatever the jobs foresee to go wrong, the plan has a way on.</summary>
internal sealed class BranchUnproven : Rule
{
    public override RuleCard Card { get; } = new(new("branch.unproven"),
        "being outside with a stuck bolt and no time, light, tool or way home for what is then to be done",
        "each contingency of a step in the plan, at the moment the step was planned to end, with its likely and with its high time: its tools at hand, "
            + "and then the rest of the plan as late as it follows, or that without get-aheads, or with must-jobs only, or from that moment everybody "
            + "ending in order what runs and going in; the first of these that plays clean is the way told",
        "no figure: one way on must play clean under all rules (common practice, no source)",
        Guard.Proof("search reckons roughly whether everybody could then go in, or all go on later; where the proof finds no way on all the same, it offers the next best"));

    public override IEnumerable<Finding> Find(Case given)
    {
        foreach (ContingencyProof proof in given.Contingencies.Where(proof => proof.Branch == given.Timeline.Branch))
        {
            Trouble trouble = proof.Trouble;
            string happens = $"\"{trouble.Title}\" at step {trouble.Step} of {trouble.Leg}";
            if (!proof.Absent.IsEmpty)
                yield return Finding(given, proof, $"{happens} needs {string.Join(", ", proof.Absent)}, which {(proof.Absent.Length == 1 ? "is" : "are")} not at hand for {proof.Who}.",
                    $"Put {string.Join(", ", proof.Absent)} into a bag that {proof.Who} has there, or hook it at the worksite.");
            if (!proof.Proven)
                yield return Finding(given, proof,
                    $"no way on is proven for {happens} ({trouble.Extra} more): {string.Join("; ", proof.Broken.Select(one => one.TrimEnd('.')))}.",
                    $"Do {trouble.Leg} earlier, or leave out a job after it.");
        }
    }

    private Finding Finding(Case given, ContingencyProof proof, string sentence, string mend) =>
        Broken(given, proof.Trouble.From, [proof.Who], sentence, mend, StepOf(given, proof.Trouble)) with { Measured = proof.Proven ? "" : $"{proof.Trouble.Extra} more" };

    private static ActivityId? StepOf(Case given, Trouble trouble) =>
        given.Timeline.Activities.OfType<DoStep>().FirstOrDefault(step => step.Leg == trouble.Leg && step.Step == trouble.Step)?.Id;
}
