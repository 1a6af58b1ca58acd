using System.Collections.Immutable;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What is done when a step does not go, as a table: one row a contingency and time.</summary>
internal static class ContingencyText
{
    public static void Write(StringBuilder text, ImmutableArray<ContingencyProof> contingencies)
    {
        if (contingencies.IsEmpty) return;
        text.AppendLine();
        text.AppendLine("If a step does not go (each at the moment it was planned to end, with its likely and its high time)");
        foreach (IGrouping<(Branch, LegId, StepId, string, Pet), ContingencyProof> one in contingencies.GroupBy(proof =>
            (proof.Branch, proof.Trouble.Leg, proof.Trouble.Step, proof.Trouble.Title, proof.Trouble.From)))
        {
            ContingencyProof first = one.First();
            text.AppendLine($"  PET {first.Trouble.From}  {first.Who}  [{first.Trouble.Leg}, {first.Trouble.Step}] {first.Trouble.Title}{(first.Branch == Branch.Likely ? "" : " (other branch)")}");
            text.AppendLine($"    do: {first.Do}{(first.Tools.IsEmpty ? "" : $". With {string.Join(", ", first.Tools)}")}");
            foreach (ContingencyProof proof in one) text.AppendLine($"    {proof.Trouble.Extra,9} more  {Way(proof)}{Ends(proof)}");
        }
    }

    private static string Way(ContingencyProof proof)
    {
        if (!proof.Proven) return "NOT PROVEN: see the findings";
        string left = string.Join(", ", proof.LeftOut);
        return proof.Trouble.GoesOn == GoingOn.EndsInOrder ? $"end in order, all go in; not done: {left}" : left.Length == 0 ? "go on" : $"go on without {left}";
    }

    private static string Ends(ContingencyProof proof) =>
        (proof.End is { } end ? $"; ends PET {end}" : "") + (proof.Margin is { } margin ? $"; least margin {margin} ({proof.MarginOf})" : "");
}
