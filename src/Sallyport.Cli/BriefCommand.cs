using System.CommandLine;
using Sallyport.Desk;
using Sallyport.Draw;
using Command = System.CommandLine.Command;

namespace Sallyport.Cli;

/// <summary><c>brief</c>: the documents that people take to a briefing.</summary>
internal static class BriefCommand
{
    public static Command Make()
    {
        Argument<string> scenario = Shared.Scenario();
        Option<string?> outline = new("--outline") { Description = "The outline to brief; without it the one marked current, else the newest.", HelpName = "FILE" };
        Option<string?> since = new("--since") { Description = "Tell what changed since this outline, and for whom: on the screen and as changes.pdf.", HelpName = "OUTLINE" };
        Option<string> paper = new("--paper") { Description = "The paper of the PDF: a4 or letter.", DefaultValueFactory = _ => "a4", HelpName = "a4|letter" };
        Option<bool> latest = new("--latest") { Description = "Reckon how late each leg can begin, for the page of latest starts: proves the plan a hundred times and more, half a minute or so." };
        Option<string> output = Shared.Out();
        Option<DateOnly?> date = Shared.Date();
        paper.AcceptOnlyFromAmong("a4", "letter");
        Command command = new("brief", "Plays and judges an outline and writes the documents of its briefing. A plan that is not clean makes a draft, and every page says so.")
        {
            scenario, outline, since, paper, latest, output, date,
        };
        command.SetAction(parsed =>
        {
            if (Shared.Open(parsed.GetValue(scenario)!) is not { } desk) return ExitCodes.Input;
            CheckOutcome outcome = desk.Check(parsed.GetValue(outline), asIs: false);
            foreach (string note in outcome.Notes) Console.Error.WriteLine(note);
            if (outcome.Plan is not { } plan) return Shared.Refuse(outcome.Problems);
            Shared.TellRederived(outcome.Changes, "");
            ProvenPlan? known = null;
            if (parsed.GetValue(since) is { } path)
            {
                CheckOutcome other = desk.Check(path, asIs: false);
                if (other.Plan is null) return Shared.Refuse(other.Problems);
                known = other.Plan;
            }
            BriefingOptions options = new(parsed.GetValue(paper) == "letter" ? PaperSize.Letter : PaperSize.A4, parsed.GetValue(date))
            {
                Latest = parsed.GetValue(latest) ? desk.LatestStarts(plan, CancellationToken.None) : null,
                Since = known,
            };
            (var written, string? changes, Problem? problem) = desk.WriteBriefing(plan, parsed.GetValue(output)!, options);
            if (problem is not null) return Shared.Refuse([problem]);
            if (changes is not null) Console.Out.Write(changes);
            else Console.Out.WriteLine(Model.Caution.Text);
            Console.Out.WriteLine(PlanText.Standing(plan.Verdict));
            Console.Error.WriteLine("Wrote:");
            foreach (string file in written) Console.Error.WriteLine($"  {file}");
            return plan.Verdict.Clean ? ExitCodes.Clean : ExitCodes.Broken;
        });
        return command;
    }
}
