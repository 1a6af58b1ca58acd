using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Nothing is said but from the one place of words.</summary>
public sealed partial class WalkthroughWordsTests
{
    /// <summary>Words of no language: every letter outside of a name in braces is another one.</summary>
    internal static WalkthroughWords Pseudo { get; } = new(WalkthroughWords.English.Templates.Select(pair => new KeyValuePair<string, string>(
        pair.Key, pair.Key == "ui.language" ? "en" : Name().Replace(pair.Value, match => match.Groups[1].Success ? match.Value : new string('ŵ', match.Length)))));

    [Theory]
    [InlineData("skerry")]
    [InlineData("short")]
    public void Told_InWordsOfNoLanguage_HoldsNoOtherWordsThanThePlans(string name)
    {
        Walk walk = Walks.Named(name);
        HashSet<string> known = WordsOf(walk);
        ImmutableArray<Cue> cues = Narration.Of(walk.Scenario, walk.Plan, Pseudo);
        string[] texts =
        [
            .. cues.Select(cue => cue.Text),
            .. NarrationText.Script(walk.Scenario, walk.Plan, cues, Pseudo).Split('\n'),
            .. NarrationText.Captions(walk.Plan, cues, Pseudo).Split('\n').Where(line => line is not ("WEBVTT" or "NOTE")),
            .. Strings(JsonDocument.Parse(Walkthrough.PlaybackOf(walk.Scenario, walk.Plan, walk.Desk.Orbit, Pseudo, cues, new(0, 1, default, walk.Trace.To, 0)).ToJson()).RootElement, ""),
        ];
        Assert.Empty(texts.SelectMany(text => Word().Matches(Braced().Replace(text.Replace(Caution.Text, ""), "")).Select(match => match.Value)).Where(word => !known.Contains(word)).Distinct());
    }

    [Fact]
    public void Keys_OfTheResource_AreAllUsedSomewhere()
    {
        string code = string.Concat(Directory.GetFiles(RepositoryFolder.Of("src", "Sallyport.Desk", "Briefing"), "*.cs").Concat(Directory.GetFiles(RepositoryFolder.Of("src", "Stage", "src"), "*.ts")).Select(File.ReadAllText));
        Assert.DoesNotContain(WalkthroughWords.English.Templates.Keys, key =>
        {
            string asked = key.StartsWith("ui.", StringComparison.Ordinal) && key is not ("ui.title" or "ui.language") ? key[3..] : key;
            return !code.Contains($"\"{asked}\"", StringComparison.Ordinal) && !code.Contains($"`{asked.Split('.')[0]}.${{", StringComparison.Ordinal);
        });
    }

    [Fact]
    public void Say_UnknownKey_Throws() => Assert.Throws<ArgumentException>(() => WalkthroughWords.English.Say("told.nothing"));

    private static HashSet<string> WordsOf(Walk walk)
    {
        StringBuilder text = new();
        foreach (string file in Directory.GetFiles(walk.Desk.Folder)) text.AppendLine(File.ReadAllText(file));
        // What an activity waits for is put into words by expansion, before anything here.
        foreach (Await wait in walk.Plan.Likely.Activities.OfType<Await>()) text.AppendLine(wait.Until);
        text.AppendLine(walk.Plan.Name).AppendLine(walk.Plan.Verdict.PlanId);
        return [.. Word().Matches(text.ToString()).Select(match => match.Value)];
    }

    /// <summary>Every text of a playback but for the states and kinds that are read by the page and never shown as they are.</summary>
    private static IEnumerable<string> Strings(JsonElement element, string key) => element.ValueKind switch
    {
        JsonValueKind.String when key is not ("shape" or "kind" or "petZero" or "caution" or "language") => [element.GetString()!],
        JsonValueKind.Array => element.EnumerateArray().SelectMany(one => Strings(one, key)),
        JsonValueKind.Object when key is not ("light" or "sky") => element.EnumerateObject().SelectMany(one => one.Name is "light" or "sky" ? [] : Strings(one.Value, one.Name)),
        _ => [],
    };

    [GeneratedRegex(@"(\{\w+\})|\p{L}+")]
    private static partial Regex Name();

    [GeneratedRegex(@"\{\w+\}")]
    private static partial Regex Braced();

    [GeneratedRegex(@"[A-Za-z]{2,}")]
    private static partial Regex Word();
}
