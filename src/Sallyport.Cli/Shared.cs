using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Sallyport.Desk;
using Sallyport.Model;

namespace Sallyport.Cli;

/// <summary>What the commands have in common.</summary>
internal static class Shared
{
    public static Argument<string> Scenario() => new("SCENARIO") { Description = "A scenario folder, such as scenarios/skerry." };

    public static Option<string> Out() => new("--out") { Description = "Where derived files go, in a folder for each scenario and outline.", DefaultValueFactory = _ => "out", HelpName = "FOLDER" };

    /// <summary>Epochs of search, from 1.</summary>
    public static Option<int> Effort(string about, int otherwise)
    {
        Option<int> effort = new("--effort") { Description = about, DefaultValueFactory = _ => otherwise, HelpName = "N" };
        effort.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && int.TryParse(result.Tokens[0].Value, out int number) && number < 1) result.AddError("--effort takes a whole number from 1");
        });
        return effort;
    }

    public static Option<bool> Json() => new("--json") { Description = "Print the facts as JSON instead of text." };

    public static Option<DateOnly?> Date() => new("--date")
    {
        Description = "A date to print on documents, as yyyy-MM-dd; none is printed without it.",
        HelpName = "DATE",
        CustomParser = result =>
        {
            if (DateOnly.TryParseExact(result.Tokens[0].Value, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date)) return date;
            result.AddError($"--date is '{result.Tokens[0].Value}'; expected a date such as 2031-05-14");
            return null;
        },
    };

    /// <summary>Opens a scenario, or says all that is wrong with it.</summary>
    public static SortieDesk? Open(string folder)
    {
        ReadResult<SortieDesk> opened = SortieDesk.Open(folder);
        foreach (string note in opened.Notes) Console.Error.WriteLine(note);
        if (!opened.Ok) Refuse(opened.Problems);
        return opened.Value;
    }

    public static int Refuse(ImmutableArray<Problem> problems)
    {
        Console.Error.Write(Problem.Render(problems));
        return ExitCodes.Input;
    }

    /// <summary>Says what completion changed in an outline before it was judged; nothing where it changed nothing.</summary>
    public static void TellRederived(ImmutableArray<string> changes, string otherwise)
    {
        if (changes.IsEmpty) return;
        Console.Error.WriteLine($"Re-derived, since legs were moved{otherwise}:");
        foreach (string change in changes) Console.Error.WriteLine($"  {change}");
    }

    /// <summary>Prints facts, as JSON or as text.</summary>
    public static void Print(bool json, Func<byte[]> asJson, Func<string> asText)
    {
        if (!json)
        {
            Console.Out.Write(asText());
            return;
        }
        using Stream output = Console.OpenStandardOutput();
        output.Write(asJson());
    }

    public static void Show(Scenario scenario, ProvenPlan plan, DateOnly? date, bool json)
    {
        if (json)
        {
            using Stream output = Console.OpenStandardOutput();
            output.Write(PlanFiles.ToJson(plan.Verdict));
            return;
        }
        Console.Out.Write(PlanText.Screen(scenario, plan, date));
    }
}
