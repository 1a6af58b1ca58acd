using System.CommandLine;
using Sallyport.Desk;
using Sallyport.Model;

namespace Sallyport.Cli;

/// <summary><c>ask</c>: questions answered by solving.</summary>
internal static class AskCommand
{
    public static System.CommandLine.Command Make()
    {
        Argument<string> scenario = Shared.Scenario();
        Argument<string[]> question = new("QUESTION")
        {
            Description = "why-out JOB · if JOB first · if JOB before JOB · if JOB by PERSON · if JOB at PET · if JOB done, joined by 'and' · with FILE, an outline whose pins are the wishes.",
            Arity = ArgumentArity.OneOrMore,
        };
        Option<int> effort = Shared.Effort("Epochs of each search.", 10);
        Option<int> seed = new("--seed") { Description = "Seed of the searches.", DefaultValueFactory = _ => 7, HelpName = "N" };
        System.CommandLine.Command command = new("ask", "Answers why a job is left out, and what a wish would cost, by searching with it and without it. Writes nothing.") { scenario, question, effort, seed };
        command.SetAction(parsed =>
        {
            using Halt halt = new();
            if (Shared.Open(parsed.GetValue(scenario)!) is not { } desk) return ExitCodes.Input;
            ReadResult<Question> asked = Question.Read(parsed.GetValue(question)!, desk.Scenario);
            if (asked.Value is null) return Shared.Refuse(asked.Problems);
            Answer answer = desk.Ask(asked.Value, parsed.GetValue(effort), parsed.GetValue(seed), halt.Token);
            foreach (string line in answer.Lines) Console.WriteLine(line);
            Console.WriteLine(Caution.Text);
            return answer.IsFound ? ExitCodes.Clean : ExitCodes.NoPlan;
        });
        return command;
    }
}
