using System.Text.Json.Nodes;
using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Cli.Tests;

/// <summary><c>rules</c> explains every rule that is applied, and says what is not.</summary>
public sealed class RulesTests : IDisposable
{
    private readonly Workplace place = new();

    public void Dispose() => place.Dispose();

    [Fact]
    public void Rules_All_AreExplainedAndWhatIsNotCheckedIsSaid()
    {
        string shown = place.Run("rules").Ended(0).Out;
        Assert.StartsWith(Caution.Text, shown);
        Assert.All(RuleBook.All, rule => Assert.Contains($"\n{rule.Card.Id}\n  protects from  {rule.Card.ProtectsFrom}\n", shown));
        Assert.All(RuleBook.All, rule => Assert.Contains($"\n  guarded by     {rule.Card.Guard}\n", shown));
        Assert.Contains("Not checked by this version", shown);
        Assert.Contains("job.late", shown);
    }

    [Fact]
    public void Rules_One_IsExplainedAlone()
    {
        string shown = place.Run("rules", "tether.reach").Ended(0).Out;
        Assert.StartsWith(Caution.Text, shown);
        Assert.Contains("\ntether.reach\n", shown);
        Assert.Single(shown.Split("protects from")[1..]);
    }

    [Fact]
    public void Rules_Misspelt_NamesTheNearest() =>
        Assert.Contains("There is no rule 'return.on'. Did you mean return.one?", place.Run("rules", "return.on").Ended(2).Err);

    [Fact]
    public void Rules_Json_IsOneDocumentWithEveryRule()
    {
        JsonNode shown = JsonNode.Parse(place.Run("rules", "--json").Ended(0).Out)!;
        Assert.Equal(Caution.Text, (string)shown["caution"]!);
        Assert.Equal(RuleBook.All.Select(rule => rule.Card.Id.Value), shown["rules"]!.AsArray().Select(rule => (string)rule!["id"]!));
        Assert.All(shown["rules"]!.AsArray(), rule => Assert.NotEqual("", (string)rule!["limitFrom"]!));
        Assert.Contains("job.late", shown["notChecked"]!.ToJsonString());
    }

    [Fact]
    public void Rules_JsonOfOne_HasThatOne()
    {
        JsonNode shown = JsonNode.Parse(place.Run("rules", "pet.limit", "--json").Ended(0).Out)!;
        Assert.Equal(["pet.limit"], shown["rules"]!.AsArray().Select(rule => (string)rule!["id"]!));
    }
}
