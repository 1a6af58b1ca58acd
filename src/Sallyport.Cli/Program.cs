using System.CommandLine;
using System.Text;
using Sallyport.Cli;
using Sallyport.Model;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
RootCommand root = new($"Plans, proves and draws a spacewalk.\n\n{Caution.Text}")
{
    PlanCommand.Make(),
    CheckCommand.Make(),
    CompleteCommand.Make(),
    AskCommand.Make(),
    BriefCommand.Make(),
    SuitCommand.Make(),
    RulesCommand.Make(),
    SkyCommand.Make(),
    ServeCommand.Make(),
    NewCommand.Make(),
    SchemaCommand.Make(),
};
ParseResult parsed = root.Parse(args);
int code = await parsed.InvokeAsync();
// The parser ends with 1 when the words of a call are off; here that is 2, and 1 is a rule broken.
return parsed.Errors.Count > 0 ? ExitCodes.Input : code;
