using System.Text.RegularExpressions;
using Xunit;

namespace Sallyport.Tests.Architecture;

/// <summary>Every published figure that we hold ourselves against has a card, and every card is used.</summary>
public partial class ReferenceTests
{
    private const string Folder = "tests/References/";

    [Fact]
    public void Reference_EveryIdCited_HasACard()
    {
        HashSet<string> cited = [.. Cited("tests/", CitedByTest()), .. Cited("src/", CitedInComment())];
        Assert.NotEmpty(cited);
        Assert.Empty(cited.Except(Cards));
    }

    // A card that only a comment names is not held against anything.
    [Fact]
    public void Reference_EveryCard_IsCitedByATest() => Assert.Empty(Cards.Except(Cited("tests/", CitedByTest())));

    [Fact]
    public void Reference_EveryCard_IsTitledByItsFolderAndNamesItsSource()
    {
        foreach (string id in Cards)
        {
            string card = Repository.Texts[$"{Folder}{id}/card.md"];
            Assert.StartsWith($"# {id}\n", card);
            Assert.Contains("**Used by**", card);
        }
    }

    [Fact]
    public void Reference_EveryFolder_HasACard() =>
        Assert.Equal(Cards, Repository.Under(Folder, "").Select(file => file.Key[Folder.Length..].Split('/')[0]).Distinct().Order());

    private static List<string> Cards { get; } =
        [.. Repository.Under(Folder, "/card.md").Select(file => file.Key[Folder.Length..^"/card.md".Length]).Order()];

    private static HashSet<string> Cited(string start, Regex pattern) =>
        [.. Repository.Under(start, ".cs").SelectMany(file => pattern.Matches(file.Value)).Select(match => match.Groups[1].Value)];

    [GeneratedRegex("""[\[,]\s*Reference\("([^"]*)"\)""")]
    private static partial Regex CitedByTest();

    [GeneratedRegex("""reference "([^"]*)"[);,.]""")]
    private static partial Regex CitedInComment();
}
