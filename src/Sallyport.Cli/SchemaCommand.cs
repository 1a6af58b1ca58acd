using System.CommandLine;
using Sallyport.Desk;
using Sallyport.Model;
using Command = System.CommandLine.Command;

namespace Sallyport.Cli;

/// <summary><c>schema</c>: what an editor needs to help with the files that people write.</summary>
internal static class SchemaCommand
{
    public static Command Make()
    {
        Argument<string> folder = new("FOLDER") { Description = "Where the schemas go; made when missing." };
        Command command = new("schema", "Writes JSON Schemas of scenario files and outlines, for editors.") { folder };
        command.SetAction(parsed =>
        {
            string given = parsed.GetValue(folder)!;
            if (Schemas.Write(given) is { } problem) return Shared.Refuse([problem]);
            Console.Out.WriteLine(Caution.Text);
            Console.Out.WriteLine("Wrote:");
            foreach (string name in new[] { Schemas.ScenarioName, Schemas.OutlineName }) Console.Out.WriteLine($"  {Path.Combine(given, name)}");
            Console.Out.WriteLine($"Put this above a scenario file: # yaml-language-server: $schema={Schemas.ScenarioName}, with the path from that file.");
            return ExitCodes.Clean;
        });
        return command;
    }
}
