using System.CommandLine;
using Sallyport.Desk;

namespace Sallyport.Cli;

/// <summary><c>check</c>: play and judge an outline or a timeline.</summary>
internal static class CheckCommand
{
    public static Command Make()
    {
        Argument<string> scenario = Shared.Scenario();
        Option<string?> outline = new("--outline") { Description = "The outline to judge; without it the one marked current, else the newest.", HelpName = "FILE" };
        Option<string?> timeline = new("--timeline") { Description = "Judge a timeline as told instead.", HelpName = "FILE" };
        Option<bool> asIs = new("--as-is") { Description = "Re-derive nothing before judging." };
        Option<bool> write = new("--write") { Description = "Write the derived files too." };
        Option<string?> pddl = new("--pddl") { Description = "Write the plan as domain.pddl, problem.pddl and plan.pddl into this folder, for a validator of PDDL 2.1. It covers what docs/pddl.md says, not all that is checked here.", HelpName = "FOLDER" };
        Option<string> output = Shared.Out();
        Option<DateOnly?> date = Shared.Date();
        Option<bool> json = Shared.Json();
        Command command = new("check", "Plays an outline or a timeline against the world and says what breaks, where, by how much and what would mend it.")
        {
            scenario, outline, timeline, asIs, write, pddl, output, date, json,
        };
        command.Validators.Add(result =>
        {
            if (result.GetValue(outline) is not null && result.GetValue(timeline) is not null) result.AddError("--outline and --timeline exclude each other");
        });
        command.SetAction(parsed =>
        {
            if (Shared.Open(parsed.GetValue(scenario)!) is not { } desk) return ExitCodes.Input;
            CheckOutcome outcome = parsed.GetValue(timeline) is { } told ? desk.CheckTimeline(told) : desk.Check(parsed.GetValue(outline), parsed.GetValue(asIs));
            foreach (string note in outcome.Notes) Console.Error.WriteLine(note);
            if (outcome.Plan is not { } plan) return Shared.Refuse(outcome.Problems);
            Shared.TellRederived(outcome.Changes, " (--as-is judges without this)");
            Shared.Show(desk.Scenario, plan, parsed.GetValue(date), parsed.GetValue(json));
            List<string> files = [];
            Problem? problem = null;
            if (parsed.GetValue(write))
            {
                (var written, _, problem) = desk.Write(plan, parsed.GetValue(output)!, parsed.GetValue(date), keepsOutline: true);
                files.AddRange(written);
            }
            if (problem is null && parsed.GetValue(pddl) is { } folder)
            {
                (var written, problem) = desk.WritePddl(plan, folder);
                files.AddRange(written);
            }
            if (files.Count > 0) Console.Error.WriteLine("Wrote:");
            foreach (string file in files) Console.Error.WriteLine($"  {file}");
            if (problem is not null) return Shared.Refuse([problem]);
            return plan.Verdict.Clean ? ExitCodes.Clean : ExitCodes.Broken;
        });
        return command;
    }
}
