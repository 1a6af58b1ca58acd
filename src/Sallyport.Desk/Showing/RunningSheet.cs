using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The running sheet: by time, what everybody outside, the arms, the ground and IV do, side by side.</summary>
internal static class RunningSheet
{
    private const int Widest = 160, TimeWidth = 9, Narrowest = 18;

    public static void Write(StringBuilder text, Scenario scenario, ProvenPlan plan)
    {
        Timeline timeline = plan.Likely;
        List<(string Title, List<(Pet At, string Words)> Lines)> columns =
        [
            .. scenario.Outside.Select(person => (person.Id.Value, timeline.Activities.Where(activity => activity.People.Contains(person.Id))
                .Select(activity => (activity.Start, ActivityText.Of(scenario, activity, person.Id))).ToList())),
            .. scenario.Arms.Select(arm => (arm.Id.Value, timeline.Activities.OfType<ArmMove>().Where(move => move.Arm == arm.Id)
                .Select(move => (move.Start, $"to {move.To}{(move.Rider is { } rider ? $" with {rider}" : ", empty")}")).ToList())),
            ("ground", timeline.Activities.OfType<SendCommand>().Select(command => (command.Start, $"{command.Console}: {command.Command}")).ToList()),
            ("IV", Inside(plan).ToList()),
        ];
        columns.RemoveAll(column => column.Lines.Count == 0);
        int width = Math.Max(Narrowest, (Widest - TimeWidth) / Math.Max(1, columns.Count) - 2);
        text.AppendLine();
        text.AppendLine("Running sheet (likely branch)");
        text.AppendLine(Row("PET", columns.Select(column => column.Title), width));
        text.AppendLine(new string('-', TimeWidth + columns.Count * (width + 2)));
        foreach (Pet at in columns.SelectMany(column => column.Lines).Select(line => line.At).Distinct().Order())
        {
            string[][] cells = [.. columns.Select(column => Wrap(string.Join("; ", column.Lines.Where(line => line.At == at).Select(line => line.Words)), width))];
            for (int i = 0; i < cells.Max(cell => cell.Length); i++)
                text.AppendLine(Row(i == 0 ? at.ToString() : "", cells.Select(cell => i < cell.Length ? cell[i] : ""), width));
        }
    }

    /// <summary>What IV says that follows from the plan alone: each GO once it is seen, and the decision.</summary>
    internal static IEnumerable<(Pet At, string Words)> Inside(ProvenPlan plan)
    {
        foreach (SendCommand command in plan.Likely.Activities.OfType<SendCommand>()) yield return (command.End, $"read the GO: {command.Command}");
        if (plan.Outline?.Decision is not { } decision) yield break;
        Pet taken = plan.Likely.Activities.OfType<DoStep>().Where(step => step.Leg == decision.After).Max(step => step.End);
        yield return (taken, $"decide: go on only if before {decision.IfBefore}");
    }

    private static string Row(string time, IEnumerable<string> cells, int width) =>
        (time.PadLeft(TimeWidth - 1) + string.Concat(cells.Select(cell => "  " + cell.PadRight(width)))).TrimEnd();

    private static string[] Wrap(string words, int width)
    {
        List<string> lines = [];
        StringBuilder line = new();
        foreach (string word in words.Split(' '))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > width)
            {
                lines.Add(line.ToString());
                line.Clear();
            }
            if (line.Length > 0) line.Append(' ');
            string rest = word;
            for (; rest.Length > width; rest = rest[width..]) lines.Add(rest[..width]);
            line.Append(rest);
        }
        lines.Add(line.ToString());
        return [.. lines];
    }
}
