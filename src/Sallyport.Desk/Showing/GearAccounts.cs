using System.Text;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>What comes home and what stays outside, as the trace of the likely branch ends.</summary>
internal static class GearAccounts
{
    public static void Write(StringBuilder text, Scenario scenario, ProvenPlan plan)
    {
        Account[] accounts = [.. Accounts.Of(scenario, plan.Played[0].Trace)];
        string[] home = [.. accounts.Where(one => one.Fate == Fate.CameHome && one.Spot == one.Outermost).Select(one => one.Gear.Title)];
        string[] outside = [.. accounts.Where(one => one.Spot == one.Outermost).Select(Outside).OfType<string>()];
        if (home.Length + outside.Length == 0) return;
        text.AppendLine();
        text.AppendLine("Gear at the end (likely branch; what is in a bag goes with it)");
        if (home.Length > 0) text.AppendLine($"  comes home: {string.Join(", ", home)}");
        foreach (string one in outside) text.AppendLine($"  {one}");
    }

    /// <summary>One line for what is outside at the end and was moved, or stays with a reason.</summary>
    private static string? Outside(Account account) => account.Fate switch
    {
        Fate.Stays => $"stays outside: {account.Gear.Title}, {account.Spot}: {account.Gear.Stays}",
        Fate.InPlace when account.Gear.Start != account.Gear.End => $"in its place: {account.Gear.Title}, {account.Spot}",
        Fate.LeftOutside => $"left outside with nothing said of it: {account.Gear.Title}, {account.Spot}",
        Fate.Elsewhere or Fate.Astray => $"not where it belongs: {account.Gear.Title}, {account.Spot}",
        _ => null,
    };
}
