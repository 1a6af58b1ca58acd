using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Nothing is said but from the one place of words.</summary>
public sealed partial class BriefingWordsTests
{
    /// <summary>Words of no language: every Latin letter is one of another script.</summary>
    internal static BriefingWords Pseudo { get; } = BriefingWords.English.Changed(letter => letter switch
    {
        >= 'a' and <= 'z' => (char)('\u0430' + (letter - 'a')),
        >= 'A' and <= 'Z' => (char)('\u0410' + (letter - 'A')),
        _ => letter,
    });

    [Theory]
    [InlineData("skerry")]
    [InlineData("short")]
    public void Told_InWordsOfNoLanguage_HoldsNoOtherWordsThanThePlans(string name)
    {
        Walk walk = Walks.Named(name);
        HashSet<string> known = WordsOf(walk);
        BriefedPlan plan = new(walk.Scenario, walk.Plan, Pseudo.Closing);
        Told told = Narration.Of(plan);
        string[] texts =
        [
            .. told.Likely.Concat(told.Other).Select(cue => cue.Text),
            .. NarrationText.Script(plan, told).Split('\n'),
            .. NarrationText.Captions(plan, told.Likely).Split('\n').Where(line => line is not ("WEBVTT" or "NOTE")),
            .. Strings(JsonDocument.Parse(PlaybackBuilder.Of(plan, walk.Desk.Orbit, told, new(0, 1, default, walk.Trace.To, 0)).ToJson()).RootElement, ""),
        ];
        Assert.Empty(texts.SelectMany(text => Word().Matches(text.Replace(Caution.Text, "")).Select(match => match.Value)).Where(word => !known.Contains(word)).Distinct());
    }

    // Keys that are put together, such as "fate." and the fate, are asked for by their beginning.
    [Fact]
    public void Keys_OfTheResource_AreAllUsedSomewhere()
    {
        string code = string.Concat(Directory.GetFiles(RepositoryFolder.Of("src", "Sallyport.Desk", "Briefing"), "*.cs").Concat(Directory.GetFiles(RepositoryFolder.Of("src", "Stage", "src"), "*.ts")).Select(File.ReadAllText));
        string[] unused = [.. BriefingWords.English.Keys.Where(key =>
        {
            string asked = key.StartsWith("ui.", StringComparison.Ordinal) && key is not ("ui.title" or "ui.branchLikely" or "ui.branchOther" or "ui.nothing") ? key[3..] : key, beginning = asked[..(asked.IndexOf('.') + 1)];
            return !code.Contains($"\"{asked}\"", StringComparison.Ordinal) && !(beginning.Length > 0 && (code.Contains($"\"{beginning}\" +", StringComparison.Ordinal) || code.Contains($"`{beginning}${{", StringComparison.Ordinal)));
        })];
        Assert.Equal([], unused);
    }

    [Fact]
    public void Say_UnknownKey_Throws() => Assert.Throws<KeyNotFoundException>(() => BriefingWords.English.Say("told.nothing"));

    [Fact]
    public void Closing_OfTheSameWords_ClosesWhatIsPutIntoThem()
    {
        Assert.Equal("\u2068נור\u2069 as a b", BriefingWords.English.Closing.Say("told.person", "נור", "a\u202E\nb"));
        Assert.Equal("a, b and c", BriefingWords.English.List(["a", "b", "c"]));
    }

    private static HashSet<string> WordsOf(Walk walk)
    {
        StringBuilder text = new();
        foreach (string file in Directory.GetFiles(walk.Desk.Folder)) text.AppendLine(File.ReadAllText(file));
        // What an activity waits for is put into words by expansion, before anything here.
        foreach (Await wait in walk.Plan.Played.SelectMany(one => one.Timeline.Activities).OfType<Await>()) text.AppendLine(wait.Until);
        text.AppendLine(walk.Plan.Name).AppendLine(walk.Plan.Verdict.PlanId);
        return [.. Word().Matches(text.ToString()).Select(match => match.Value)];
    }

    /// <summary>Every text of a playback but for the states and kinds that are read by the page and never shown as they are.</summary>
    private static IEnumerable<string> Strings(JsonElement element, string key) => element.ValueKind switch
    {
        JsonValueKind.String when key is not ("shape" or "kind" or "petZero" or "caution") => [element.GetString()!],
        JsonValueKind.Array => element.EnumerateArray().SelectMany(one => Strings(one, key)),
        JsonValueKind.Object => element.EnumerateObject().SelectMany(one => one.Name is "light" or "sky" ? [] : Strings(one.Value, one.Name)),
        _ => [],
    };

    [GeneratedRegex(@"[A-Za-z]{2,}")]
    private static partial Regex Word();
}
