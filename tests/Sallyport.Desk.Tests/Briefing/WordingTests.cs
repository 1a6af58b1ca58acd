using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Sallyport.Draw;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk.Tests;

/// <summary>Nothing is said but from the one place of words.</summary>
public sealed partial class WordingTests
{
    /// <summary>Words of no language: every Latin letter is one of another script.</summary>
    internal static Wording Pseudo { get; } = Wording.English.Changed(letter => letter switch
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

    [Theory]
    [InlineData("skerry")]
    [InlineData("tern")]
    public void Drawn_InWordsOfNoLanguage_HoldsNoOtherWordsThanThePlans(string name)
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of(name);
        RangeChartOptions options = new(plan.Name, null, Decision: plan.Outline?.Decision) { Words = Pseudo };
        List<Picture> pictures = [RangeChart.Draw(scenario, plan.Played, plan.Verdict, options), RangeChart.Draw(scenario, plan.Played, Broken(plan.Verdict), options with { IsWhole = false, Numbered = 1 })];
        if (SuitSheet.Of(scenario, plan.Name, plan.Likely, plan.Played[0].Trace) is { } sheet) pictures.Add(SuitText.Picture(scenario, sheet, Pseudo));
        HashSet<string> known = [.. Word().Matches(string.Join(' ', Directory.GetFiles(RepositoryFolder.Of("scenarios", name), "*.yaml").Select(File.ReadAllText)) + Encoding.UTF8.GetString(PlanFiles.ToJson(plan.Verdict))
            + string.Concat(plan.Played.Select(one => Encoding.UTF8.GetString(PlanFiles.ToJson(one.Trace)))) + string.Concat(Enum.GetValues<Consumable>().Select(kind => $" {kind.InWords()} ")) + string.Join(' ', SuitSheet.Of(scenario, plan.Name, plan.Likely, plan.Played[0].Trace)?.NotReckoned ?? [])
            + Caution.Text + $" {plan.Name} {plan.Verdict.PlanId} kg Wh min h s ").Select(match => match.Value)];
        foreach (Picture picture in pictures)
        {
            XElement root = XElement.Parse(SvgWriter.Write(picture));
            string[] said = [.. root.DescendantsAndSelf().Where(one => one.Name.LocalName != "style").SelectMany(one => one.Nodes().OfType<XText>().Select(text => text.Value)), .. root.DescendantsAndSelf().Attributes("aria-label").Select(label => label.Value)];
            Assert.NotEmpty(said);
            Assert.Equal([], said.SelectMany(text => Word().Matches(text).Select(match => match.Value)).Where(word => !known.Contains(word)).Distinct());
        }

        // Every word for a finding of each kind, with somebody, in the other branch, with a margin and a mend, and for more of them than are numbered.
        static Verdict Broken(Verdict verdict)
        {
            Finding one = verdict.Findings[0] with { Branch = Branch.Otherwise, Margin = "1 min", Mend = "1 min" };
            return verdict with { Findings = [one with { Severity = Severity.Broken }, one with { Severity = Severity.Near }, one with { Severity = Severity.Note }] };
        }
    }

    // Keys that are put together, such as "fate." and the fate, are asked for by their beginning.
    [Fact]
    public void Keys_OfTheResource_AreAllUsedSomewhere()
    {
        string code = string.Concat(Directory.GetFiles(RepositoryFolder.Of("src", "Sallyport.Desk", "Briefing"), "*.cs").Concat(Directory.GetFiles(RepositoryFolder.Of("src", "Sallyport.Draw"), "*.cs", SearchOption.AllDirectories)).Append(RepositoryFolder.Of("src", "Sallyport.Desk", "Showing", "SuitText.cs")).Concat(Directory.GetFiles(RepositoryFolder.Of("src", "Stage", "src"), "*.ts")).Select(File.ReadAllText));
        string[] unused = [.. Wording.English.Keys.Where(key =>
        {
            string asked = key.StartsWith("ui.", StringComparison.Ordinal) && key is not ("ui.title" or "ui.branchLikely" or "ui.branchOther" or "ui.nothing") ? key[3..] : key, beginning = asked[..(asked.IndexOf('.') + 1)];
            return !code.Contains($"\"{asked}\"", StringComparison.Ordinal) && !(beginning.Length > 0 && (code.Contains($"\"{beginning}\" +", StringComparison.Ordinal) || code.Contains($"`{beginning}${{", StringComparison.Ordinal)));
        })];
        Assert.Equal([], unused);
    }

    [Fact]
    public void Say_UnknownKey_Throws() => Assert.Throws<KeyNotFoundException>(() => Wording.English.Say("told.nothing"));

    [Fact]
    public void Closing_OfTheSameWords_ClosesWhatIsPutIntoThem()
    {
        Assert.Equal("\u2068נור\u2069 as a b", Wording.English.Closing.Say("told.person", "נור", "a\u202E\nb"));
        Assert.Equal("a, b and c", Wording.English.List(["a", "b", "c"]));
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
