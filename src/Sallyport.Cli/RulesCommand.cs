using System.CommandLine;
using System.CommandLine.Completions;
using System.Text.Encodings.Web;
using System.Text.Json;
using Sallyport.Desk;
using Sallyport.Model;
using Sallyport.Proof;
using Command = System.CommandLine.Command;

namespace Sallyport.Cli;

/// <summary><c>rules</c>: what each rule protects from.</summary>
internal static class RulesCommand
{
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    public static Command Make()
    {
        Argument<string?> id = new("ID") { Description = "A rule, such as return.one; all without it.", Arity = ArgumentArity.ZeroOrOne };
        id.CompletionSources.Add(_ => RuleBook.All.Select(rule => new CompletionItem(rule.Card.Id.Value, documentation: rule.Card.ProtectsFrom)));
        Option<bool> json = Shared.Json();
        Option<bool> page = new("--page") { Description = "Print all of them as the page docs/rules.md." };
        Command command = new("rules", "Says what each rule protects from, how it is measured, where its limit comes from and what guards it.") { id, json, page };
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(page))
            {
                Console.Out.Write(RuleText.Page());
                return ExitCodes.Clean;
            }
            string? wanted = parsed.GetValue(id);
            RuleCard[] cards = [.. RuleBook.All.Select(rule => rule.Card).Where(card => wanted is null || card.Id.Value == wanted)];
            if (cards.Length == 0)
            {
                string nearest = Nearest.Of(wanted!, RuleBook.All.Select(rule => rule.Card.Id.Value)) is { } name ? $" Did you mean {name}?" : "";
                Console.Error.WriteLine($"There is no rule '{wanted}'.{nearest} 'rules' lists them all.");
                return ExitCodes.Input;
            }
            if (parsed.GetValue(json))
            {
                Console.Out.WriteLine(JsonSerializer.Serialize(new { Caution = Caution.Text, Rules = cards.Select(card => new { Id = card.Id.Value, card.ProtectsFrom, card.Measured, card.LimitFrom, GuardedBy = card.Guard.ToString() }), NotChecked = NotChecked.Always }, Indented));
                return ExitCodes.Clean;
            }
            Console.Out.WriteLine(Caution.Text);
            foreach (RuleCard card in cards)
            {
                Console.Out.WriteLine();
                Console.Out.Write(RuleText.Screen(card));
            }
            if (wanted is not null) return ExitCodes.Clean;
            Console.Out.WriteLine();
            Console.Out.WriteLine("Not checked by this version");
            foreach (string one in NotChecked.Always) Console.Out.WriteLine($"  {one}");
            return ExitCodes.Clean;
        });
        return command;
    }
}
