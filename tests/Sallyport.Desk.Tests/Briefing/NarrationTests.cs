using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>What is told of a plan, and when.</summary>
public sealed partial class NarrationTests
{
    [Theory]
    [InlineData("skerry")]
    [InlineData("short")]
    public void Cues_OfAPlan_FollowEachOtherWithTimeToSayThem(string name)
    {
        ImmutableArray<Cue> cues = Walks.Named(name).Cues;
        Assert.NotEmpty(cues);
        for (int i = 0; i < cues.Length; i++)
        {
            if (i > 0) Assert.True(cues[i].From >= cues[i - 1].To, $"{cues[i]} begins before the one before has ended");
            double minutes = cues[i].To.Since(cues[i].From).Seconds / 60.0 / Narration.Speed;
            int words = cues[i].Text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length;
            Assert.True(words / minutes <= Narration.WordsAMinute + 1e-9, $"{words / minutes:0} words a minute in {cues[i]}");
        }
    }

    [Theory]
    [InlineData("skerry")]
    [InlineData("short")]
    public void Cues_Each_IsOneWholeSentenceToldWhileItIsSo(string name)
    {
        Walk walk = Walks.Named(name);
        ILookup<string, Sentence> could = new Telling(walk.Briefed).Sentences().ToLookup(sentence => sentence.Text);
        Assert.All(walk.Cues, cue => Assert.Contains(could[Plain(cue.Text)], sentence => sentence.From <= cue.From && cue.From <= sentence.LastStart));
    }

    [Theory]
    [InlineData("skerry")]
    [InlineData("short")]
    public void Sentences_LeftOut_FoundNoRoomBesideMoreImportantOnes(string name)
    {
        Walk walk = Walks.Named(name);
        List<Sentence> all = [.. new Telling(walk.Briefed).Sentences()];
        List<(Cue Cue, int Weight)> told = [.. walk.Cues.Select(cue => (cue, all.Where(one => one.Text == Plain(cue.Text) && one.From <= cue.From && cue.From <= one.LastStart).Max(one => one.Weight)))];
        int left = 0;
        foreach (Sentence sentence in all.Where(one => !walk.Cues.Any(cue => Plain(cue.Text) == one.Text && one.From <= cue.From && cue.From <= one.LastStart)))
        {
            left++;
            int length = Narration.SecondsOf("Meanwhile, " + sentence.Text);
            for (int start = sentence.From.Seconds; start <= sentence.LastStart.Seconds; start++)
                Assert.Contains(told, one => one.Weight >= sentence.Weight && one.Cue.From.Seconds < start + length && start < one.Cue.To.Seconds);
        }
        if (name == "skerry") Assert.True(left > 20, "the longer walk has more to tell than there is time for");
    }

    [Fact]
    public void Skerry_Told_NamesEveryJobAndWhatItIsFor()
    {
        Walk walk = Walks.Skerry;
        HashSet<JobId> done = [.. walk.Plan.Likely.Activities.OfType<DoStep>().Select(step => new JobId(step.Leg.Value.Split('/')[0]))];
        string told = string.Join('\n', walk.Cues.Select(cue => cue.Text));
        foreach (Job job in walk.Scenario.Jobs.Where(job => done.Contains(job.Id) && job.Worth == Worth.Must)) Assert.Contains($"{job.Title}, {job.For}.", told);
        Assert.StartsWith(Caution.Text, told);
        Assert.Contains("The hatch closes", told);
    }

    [Fact]
    public void Skerry_AttentionMoves_TheOtherOneIsNamed()
    {
        Assert.Contains(Walks.Skerry.Cues, cue => cue.Text.StartsWith("Meanwhile, EV1 ", StringComparison.Ordinal));
        Assert.Contains(Walks.Skerry.Cues, cue => cue.Text.StartsWith("Meanwhile, EV2 ", StringComparison.Ordinal));
    }

    [Fact]
    public void Plan_NotClean_IsToldAsADraft()
    {
        Walk walk = Walks.Short;
        Finding broken = new(new("pet.limit"), Severity.Broken, Branch.Likely, [], default, null, "It is too long.", "", "", "", "", "");
        Walk draft = walk with { Plan = walk.Plan with { Verdict = walk.Plan.Verdict with { Findings = [broken] } } };
        Assert.DoesNotContain(walk.Cues, cue => cue.Text.Contains("draft", StringComparison.Ordinal));
        Assert.Contains(draft.Cues, cue => cue.Text == "This is a draft. The plan is not clean. Rules broken: 1.");
        Assert.Contains("**DRAFT — NOT CLEAN · 1 broken**", NarrationText.Script(draft.Briefed, draft.Told));
        Assert.Equal("DRAFT — NOT CLEAN · 1 broken", draft.Playback.Draft);
    }

    [Fact]
    public void OtherBranch_Told_IsTheSameUntilTheBranchesPartAndThenTellsItsOwn()
    {
        Walk walk = Walks.Skerry;
        (BriefedPlan other, Told told) = (walk.Briefed.Other!, walk.Told);
        Pet parts = other.PartsAt;
        Assert.NotEmpty(told.Other.Where(cue => cue.From < parts));
        Assert.Equal(told.Likely.Where(cue => cue.From < parts), told.Other.Where(cue => cue.From < parts));
        ILookup<string, Sentence> could = new Telling(other).Sentences().ToLookup(sentence => sentence.Text);
        Assert.All(told.Other.Where(cue => cue.From >= parts), cue => Assert.Contains(could[Plain(cue.Text)], sentence => sentence.From <= cue.From && cue.From <= sentence.LastStart));
        for (int i = 1; i < told.Other.Length; i++) Assert.True(told.Other[i].From >= told.Other[i - 1].To, $"{told.Other[i]} begins before the one before has ended");
        // The job that is done only if there is time, by the outline itself.
        string left = walk.Plan.Outline!.Decision!.Then.SelectMany(list => list.Entries).OfType<LegEntry>().Select(entry => walk.Scenario.Legs.First(leg => leg.Id == entry.Leg).Title).First();
        Assert.Contains(told.Likely, cue => cue.Text.Contains($"“{left}” follows", StringComparison.Ordinal));
        Assert.Contains(told.Other, cue => cue.Text == $"The choice: it is not before PET {walk.Plan.Outline.Decision.IfBefore}. “{left}” is left out.");
        string script = NarrationText.Script(walk.Briefed, told);
        Assert.Single(System.Text.RegularExpressions.Regex.Matches(script, "(?m)^## Other branch, from PET "));
        Assert.All(told.Other.Where(cue => cue.From >= parts), cue => Assert.Contains($"**{cue.From}** ", script.Split("## Other branch")[1]));
    }

    [Fact]
    public void Captions_OfAPlan_AreWhatWebVttAsksFor()
    {
        // W3C, WebVTT, section 4.1 (file structure) and 4.2.1 (cue text): the signature, blocks apart by a blank line, hours of two digits and
        // more, "&" and "<" escaped, no arrow in a cue.
        Walk walk = Walks.Skerry.Renamed("<b>A & B --> C\n\nD</b>");
        string text = NarrationText.Captions(walk.Briefed, walk.Cues);
        string[] blocks = text.TrimEnd('\n').Split("\n\n");
        Assert.Equal("WEBVTT", blocks[0]);
        Assert.StartsWith("NOTE\nOne second here is 30 seconds of the walk.", blocks[1]);
        Assert.Equal("NOTE\n" + Caution.Text, blocks[2]);
        Assert.Equal(walk.Cues.Length, blocks.Length - 3);
        double last = 0;
        foreach (string block in blocks.Skip(3))
        {
            string[] lines = block.Split('\n');
            Assert.Equal(3, lines.Length);
            Match time = Timing().Match(lines[1]);
            Assert.True(time.Success, lines[1]);
            Assert.DoesNotContain("-->", lines[2]);
            Assert.DoesNotContain('<', lines[2]);
            Assert.DoesNotMatch("&(?!amp;|lt;|gt;)", lines[2]);
            double from = Seconds(time, 1), to = Seconds(time, 5);
            Assert.True(last <= from && from < to, block);
            last = to;
        }
        Assert.Contains("&lt;b&gt;A &amp; B --&gt; C  D&lt;/b&gt;", text);
    }

    [Fact]
    public void Script_MarkupInNames_StaysText()
    {
        Walk walk = Walks.Short.Renamed("# *x* [y](z) <script>");
        string text = NarrationText.Script(walk.Briefed, walk.Told);
        Assert.Contains("\\# \\*x\\* \\[y\\](z) &lt;script&gt;", text);
        Assert.DoesNotContain("<script", text);
    }

    [Fact]
    public void Words_FromRightToLeft_AreClosedInAndTurnNothing()
    {
        Assert.Equal("\u2068נור\u2069", Wording.OneLine("נור"));
        Assert.Equal("abc", Wording.OneLine("a\u202Eb\u2066c"));
        Assert.Equal("a b", Wording.OneLine(" a\nb "));
    }

    private static string Plain(string text) => text.StartsWith("Meanwhile, ", StringComparison.Ordinal) ? text["Meanwhile, ".Length..] : text;

    private static double Seconds(Match match, int group) =>
        int.Parse(match.Groups[group].Value) * 3600 + int.Parse(match.Groups[group + 1].Value) * 60 + int.Parse(match.Groups[group + 2].Value) + int.Parse(match.Groups[group + 3].Value) / 1000.0;

    [GeneratedRegex(@"^(\d{2,}):([0-5]\d):([0-5]\d)\.(\d{3}) --> (\d{2,}):([0-5]\d):([0-5]\d)\.(\d{3})$")]
    private static partial Regex Timing();
}
