using System.Collections.Immutable;
using System.CommandLine;
using Sallyport.Desk;
using Command = System.CommandLine.Command;

namespace Sallyport.Cli;

/// <summary><c>suit</c>: what suits use over a plan; tension and ratio of a prebreathe.</summary>
internal static class SuitCommand
{
    public static Command Make()
    {
        Argument<string?> scenario = new("SCENARIO") { Description = "A scenario folder, such as scenarios/skerry; with --prebreathe it may be left out.", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> outline = new("--outline") { Description = "The outline; without it the one marked current, else the newest.", HelpName = "FILE" };
        Option<string?> prebreathe = new("--prebreathe") { Description = "Show tension and ratio, part after part, of the prebreathe in this file instead; limits and suit pressure that it does not give are the scenario's.", HelpName = "FILE" };
        Option<string?> readings = new("--readings") { Description = "What was read of the suits during the walk: says what that makes of each person's factor, and when the first reserve is reached then.", HelpName = "FILE" };
        Option<bool> write = new("--write") { Description = "Write the curves as suit.svg and suit.png, and this text as suit.txt." };
        Option<string> output = Shared.Out();
        Option<bool> json = Shared.Json();
        Command command = new("suit", "Says what bodies burn and what suits use over a plan, from when on, what is left, and whose reserve is reached first.") { scenario, outline, prebreathe, readings, write, output, json };
        command.Validators.Add(result =>
        {
            if (result.GetValue(prebreathe) is null && result.GetValue(scenario) is null) result.AddError("name a scenario, or a file with --prebreathe");
            if (result.GetValue(prebreathe) is not null && (result.GetValue(outline) is not null || result.GetValue(write))) result.AddError("--prebreathe takes neither --outline nor --write");
            if (result.GetValue(readings) is not null && (result.GetValue(prebreathe) is not null || result.GetValue(json))) result.AddError("--readings takes neither --prebreathe nor --json");
        });
        command.SetAction(parsed =>
        {
            SortieDesk? desk = null;
            if (parsed.GetValue(scenario) is { } folder && (desk = Shared.Open(folder)) is null) return ExitCodes.Input;
            if (parsed.GetValue(prebreathe) is { } file) return Prebreathe(file, desk, parsed.GetValue(json));
            (SuitSheet? sheet, ImmutableArray<string> notes, ImmutableArray<Problem> problems) = desk!.Suits(parsed.GetValue(outline));
            foreach (string note in notes) Console.Error.WriteLine(note);
            if (sheet is null) return Shared.Refuse(problems);
            ImmutableArray<Refit> refits = [];
            if (parsed.GetValue(readings) is { } told)
            {
                (refits, problems) = desk.Refit(sheet, told);
                if (!problems.IsEmpty) return Shared.Refuse(problems);
            }
            Show(parsed.GetValue(json) ? SuitText.Json(desk.Scenario, sheet) : System.Text.Encoding.UTF8.GetBytes(SuitText.Screen(desk.Scenario, sheet)));
            if (!refits.IsEmpty) Show(System.Text.Encoding.UTF8.GetBytes(RefitText.Screen(refits)));
            if (!parsed.GetValue(write)) return ExitCodes.Clean;
            (ImmutableArray<string> written, Problem? problem) = desk.WriteSuits(sheet, parsed.GetValue(output)!);
            if (problem is not null) return Shared.Refuse([problem]);
            Console.Error.WriteLine("Wrote:");
            foreach (string one in written) Console.Error.WriteLine($"  {one}");
            return ExitCodes.Clean;
        });
        return command;
    }

    private static int Prebreathe(string file, SortieDesk? desk, bool json)
    {
        ReadResult<PrebreatheSheet> read = ScenarioReader.ReadPrebreathe(file, desk?.Scenario);
        if (read.Value is not { } sheet) return Shared.Refuse(read.Problems);
        Show(json ? PrebreatheText.Json(sheet) : System.Text.Encoding.UTF8.GetBytes(PrebreatheText.Screen(sheet)));
        return sheet.Breaks ? ExitCodes.Broken : ExitCodes.Clean;
    }

    private static void Show(byte[] text)
    {
        using Stream output = Console.OpenStandardOutput();
        output.Write(text);
    }
}
