using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What it takes to leave each step, and what steps do at their low and high times.</summary>
internal static class LadderText
{
    /// <summary>The break-off ladder as a table: one row a step.</summary>
    public static void Write(StringBuilder text, Verdict verdict)
    {
        if (verdict.Ladder.IsEmpty) return;
        text.AppendLine();
        text.AppendLine("Leaving each step: by abort at any moment in it, by terminate in order; what is then not as at the start (! may not be left so)");
        foreach (Rung rung in verdict.Ladder)
        {
            string off = rung.Off.IsEmpty ? "" : $"; off then, for its console to turn on: {string.Join(", ", rung.Off)}";
            text.AppendLine($"  {rung.From,8}  {rung.Who}  [{rung.Leg}, {rung.Step}]{(rung.Branch == Branch.Likely ? "" : " (other branch)")}");
            if (Left(rung.Abort) is var abort && Left(rung.Terminate) is var terminate && abort == terminate)
                text.AppendLine($"    abort {rung.Abort.Time}, terminate {rung.Terminate.Time}: {abort}{off}");
            else text.AppendLine($"    abort {rung.Abort.Time}: {abort} | terminate {rung.Terminate.Time}: {terminate}{off}");
        }
    }

    /// <summary>The steps that the plan has no room for at their low or high times, one line each.</summary>
    public static void StepTimes(StringBuilder text, Verdict verdict)
    {
        if (verdict.StepTimes is not { } tried) return;
        StepTry[] broken = [.. tried.Where(one => !one.Clean)];
        text.AppendLine();
        text.AppendLine(broken.Length == 0
            ? $"Each step at its low and high time, one at a time: {tried.Length} tried, the plan as told stays clean in all."
            : $"Steps without room: of {tried.Length} low and high times tried, one at a time, the plan as told does not stay clean in {broken.Length}");
        foreach (StepTry one in broken)
            text.AppendLine($"  PET {one.From}  [{one.Leg}, {one.Step}] {(one.Extra.Seconds < 0 ? $"{Duration.FromSeconds(-one.Extra.Seconds)} less" : $"{one.Extra} more")}: {one.Breaks}");
    }

    private static string Left(WayOut way) => way.Leaves.IsEmpty && way.Things.IsEmpty
        ? "as at the start"
        : string.Join(", ", way.Leaves.Select(one => $"{one.Feature} {one.State}{(way.Unsafe.Contains(one.Feature) ? "!" : "")}").Concat(way.Things.Select(thing => $"{thing}!")));
}
