using System.CommandLine;

namespace Sallyport.Cli;

/// <summary><c>complete</c>: re-derive what moved legs need.</summary>
internal static class CompleteCommand
{
    public static Command Make()
    {
        Argument<string> scenario = Shared.Scenario();
        Option<string?> outline = new("--outline") { Description = "The outline; without it the one marked current, else the newest.", HelpName = "FILE" };
        Option<bool> write = new("--write") { Description = "Change the file: only the lines of what changed, so that comments stay." };
        Command command = new("complete", "Shows which bag moves, restraints, meetings and commands an edited outline needs, and writes them when asked.") { scenario, outline, write };
        command.SetAction(parsed =>
        {
            if (Shared.Open(parsed.GetValue(scenario)!) is not { } desk) return ExitCodes.Input;
            (var changes, var notes, var problems) = desk.Complete(parsed.GetValue(outline), parsed.GetValue(write));
            foreach (string note in notes) Console.Error.WriteLine(note);
            foreach (string change in changes) Console.Out.WriteLine(change);
            if (problems.Length > 0) return Shared.Refuse(problems);
            Console.Error.WriteLine(changes.IsEmpty ? "Nothing to re-derive." : parsed.GetValue(write) ? "Written; everything else in the file is as it was." : "Not written; --write changes the file.");
            return ExitCodes.Clean;
        });
        return command;
    }
}
