using System.Text;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>The rules in words: for the screen, and for <c>docs/rules.md</c>, which a test holds against this.</summary>
public static class RuleText
{
    /// <summary>One rule as the screen shows it.</summary>
    public static string Screen(RuleCard card) =>
        $"{card.Id}\n  protects from  {card.ProtectsFrom}\n  measured       {card.Measured}\n  limit from     {card.LimitFrom}\n  guarded by     {card.Guard}\n";

    /// <summary>All rules as a page.</summary>
    public static string Page()
    {
        StringBuilder text = new();
        text.Append("# Rules\n\n");
        text.Append($"> {Caution.Text}\n\n");
        text.Append("Made from the code by `sallyport rules --page`; a test keeps it true. Limits are data in each scenario's `limits:`, with their source. \"Guarded by\" is where a plan of the search is kept clear of a rule before the proof judges it.\n\n");
        text.Append("| rule | protects from | measured | limit from | guarded by |\n| --- | --- | --- | --- | --- |\n");
        foreach (Rule rule in RuleBook.All)
            text.Append($"| `{rule.Card.Id}` | {Cell(rule.Card.ProtectsFrom)} | {Cell(rule.Card.Measured)} | {Cell(rule.Card.LimitFrom)} | {Cell(rule.Card.Guard.ToString())} |\n");
        text.Append("\n## Not checked by this version\n\nNothing of this is ever counted as clean.\n\n");
        foreach (string one in NotChecked.Always) text.Append($"- {one}\n");
        return text.ToString();
    }

    private static string Cell(string words) => words.Replace("|", "\\|", StringComparison.Ordinal);
}
