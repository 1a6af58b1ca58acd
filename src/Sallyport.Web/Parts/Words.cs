using System.Globalization;
using Sallyport.Desk;
using Sallyport.Model;

namespace Sallyport.Web.Parts;

/// <summary>What is said the same way on every page.</summary>
public static class Words
{
    /// <summary>How a scenario stands, in one sentence that never says more than was looked at.</summary>
    public static string Standing(SortieState state) => state switch
    {
        { Scenario: null } => $"Cannot be read: {Count(state.Problems.Length, "problem")}",
        { Chosen: null } => "No outline yet",
        { Plan: null } => $"The outline cannot be played: {Count(state.Problems.Length, "problem")}",
        { IsClean: true, Plan: { } plan } => $"Clean under the {plan.Verdict.Checked.Length} rules checked; not checked: {Count(plan.Verdict.NotChecked.Length, "thing")}",
        { IsClean: false, Plan: { } plan } => $"Not clean: {plan.Verdict.Findings.Count(one => one.Severity == Severity.Broken)} broken under the {plan.Verdict.Checked.Length} rules checked",
        _ => "Nothing broken so far, and not proven yet: what follows when a step does not go is being looked at",
    };

    /// <summary>The class of a page's or a card's standing, for its stroke.</summary>
    public static string Class(SortieState state) => state switch
    {
        { Plan: null, Problems.IsEmpty: false } => "broken",
        { Plan: null } => "none",
        { IsClean: true } => "clean",
        { IsClean: false } => "broken",
        _ => "open",
    };

    /// <summary>How a scenario of the list stands.</summary>
    public static string Standing(ScenarioCard card) => card.State switch
    {
        CardState.Broken => "Cannot be read",
        CardState.Findings => "Not clean",
        CardState.Clean => "Clean under the rules checked",
        _ => card.Outline is null ? "No outline yet" : "Not proven yet",
    };

    /// <summary>The class of a card's standing.</summary>
    public static string Class(ScenarioCard card) => card.State switch
    {
        CardState.Broken => "broken",
        CardState.Findings => "broken",
        CardState.Clean => "clean",
        _ => "open",
    };

    /// <summary>A problem in one sentence and its mend, for where no file and line help.</summary>
    public static string Of(Problem problem) => $"{Sentence(problem.Found)}; expected {problem.Expected}. {Sentence(problem.Fix)}";

    /// <summary>Words as a sentence begins.</summary>
    public static string Sentence(string words) => words.Length > 0 ? char.ToUpperInvariant(words[0]) + words[1..] : words;

    /// <summary>The address of a scenario's chart, or of what lies below it.</summary>
    public static string Address(string scenario, string below = "") => $"/sortie/{Uri.EscapeDataString(scenario)}{below}";

    /// <summary>A way through a file, as one reads it.</summary>
    public static string Path(string path) => string.Join(" › ", path.Split('/').Select(part => part.Replace("~1", "/").Replace("~0", "~")));

    /// <summary>A number with its noun.</summary>
    public static string Count(int number, string noun) => string.Create(CultureInfo.InvariantCulture, $"{number} {(number == 1 ? noun : noun.EndsWith('y') ? noun[..^1] + "ies" : noun + "s")}");

    /// <summary>A moment of the day, UTC.</summary>
    public static string Utc(DateTime moment) => moment.ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);

    /// <summary>A moment of a walk: PET, and UTC as the scenario counts it.</summary>
    public static string PetAndUtc(Scenario scenario, Pet pet) => $"PET {pet} ({scenario.Sortie.PetZero.AddSeconds(pet.Seconds).ToString("HH:mm:ss", CultureInfo.InvariantCulture)} UTC)";
}
