using System.CommandLine;
using Sallyport.Desk;
using Sallyport.Model;
using Command = System.CommandLine.Command;

namespace Sallyport.Cli;

/// <summary><c>new</c>: a starter scenario.</summary>
internal static class NewCommand
{
    public static Command Make()
    {
        Argument<string> folder = new("FOLDER") { Description = "The folder to make; one that holds something is left as it is." };
        Command command = new("new", "Writes a small commented scenario that plans clean, to grow your own from.") { folder };
        command.SetAction(parsed =>
        {
            string given = parsed.GetValue(folder)!;
            (var written, Problem? problem) = NewScenario.Write(given);
            if (problem is not null) return Shared.Refuse([problem]);
            Console.Out.WriteLine(Caution.Text);
            Console.Out.WriteLine("Wrote:");
            foreach (string file in written) Console.Out.WriteLine($"  {file}");
            Console.Out.WriteLine($"Next: sallyport plan {given}");
            return ExitCodes.Clean;
        });
        return command;
    }
}
