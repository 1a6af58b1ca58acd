using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary>Help, and a hand for words that are off.</summary>
public sealed class HelpTests : IDisposable
{
    private readonly Workplace place = new();

    public void Dispose() => place.Dispose();

    [Theory]
    [InlineData("plan", "SCENARIO", "--effort", "--gap", "--alternatives", "--latest", "--seed", "--from", "--name", "--out", "--date", "--json", "--help")]
    [InlineData("check", "SCENARIO", "--outline", "--timeline", "--as-is", "--write", "--pddl", "--out", "--date", "--json", "--help")]
    [InlineData("complete", "SCENARIO", "--outline", "--write", "--help")]
    [InlineData("brief", "SCENARIO", "--outline", "--since", "--paper", "--latest", "--out", "--date", "--help")]
    [InlineData("suit", "SCENARIO", "--outline", "--prebreathe", "--write", "--out", "--json", "--help")]
    [InlineData("rules", "ID", "--json", "--page", "--help")]
    [InlineData("sky", "SCENARIO", "--slip", "--outline", "--draw", "--elements", "--at", "--json", "--help")]
    [InlineData("serve", "FOLDER", "--port", "--listen", "--passwords", "--add", "--role", "--certificate", "--key", "--name", "--out", "--json", "--help")]
    [InlineData("new", "FOLDER", "--help")]
    [InlineData("schema", "FOLDER", "--help")]
    public void Help_OfACommand_NamesEveryWordItTakes(string command, params string[] words)
    {
        Result help = place.Run(command, "--help").Ended(0);
        Assert.All(words, word => Assert.Contains(word, help.Out));
        Assert.Empty(help.Err);
    }

    [Fact]
    public void Help_OfTheProgram_NamesTheCommandsAndTheCaution()
    {
        Result help = place.Run("--help").Ended(0);
        Assert.Contains(Caution.Text, help.Out);
        Assert.All(["plan", "check", "complete", "ask", "rules", "sky", "suit", "brief", "serve", "new", "schema"], command => Assert.Contains(command, help.Out));
    }

    [Theory]
    [InlineData("plan", "pln", "scenarios/skerry")]
    [InlineData("check", "chek", "scenarios/skerry")]
    [InlineData("complete", "complet", "scenarios/skerry")]
    [InlineData("rules", "rule")]
    [InlineData("--effort", "plan", "scenarios/skerry", "--efort", "3")]
    [InlineData("--timeline", "check", "scenarios/skerry", "--timelin", "t.json")]
    public void Word_Misspelt_EndsWithUsageAndNamesTheNearest(string nearest, params string[] words)
    {
        Result result = place.Run(words).Ended(2);
        Assert.Matches($"(?s)Did you mean.*{nearest}", result.Out + result.Err);
    }

    [Fact]
    public void Program_NoCommand_EndsWithUsage() => Assert.Contains("command", place.Run().Ended(2).Err);

    [Fact]
    public void Check_OutlineAndTimeline_EndsWithUsage() =>
        Assert.Contains("exclude each other", place.Run("check", "x", "--outline", "a", "--timeline", "b").Ended(2).Err);

    [Fact]
    public void Scenario_NoFolder_IsSaid() => Assert.Contains("nowhere: folder.missing", place.Run("plan", "nowhere").Ended(2).Err);
}
