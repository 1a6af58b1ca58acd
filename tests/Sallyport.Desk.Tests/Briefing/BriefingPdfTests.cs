using System.Globalization;
using System.Text;
using Sallyport.Draw;
using Sallyport.Model;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Outline;

namespace Sallyport.Desk.Tests;

/// <summary>The pages of a briefing, read back by PdfPig, which knows nothing of this program.</summary>
public sealed class BriefingPdfTests
{
    [Theory]
    [InlineData("skerry-short")]
    [InlineData("skerry")]
    [InlineData("tern")]
    public void Pdf_OfAPlan_HoldsEveryActivityWithItsTimeAndEveryFinding(string name)
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of(name);
        string all = string.Concat(Briefings.Pages(Briefings.File(name, "sortie.pdf"))), twin = Briefings.Text(Briefings.File(name, "sortie.txt"));
        BriefedPlan briefed = new(scenario, plan, Wording.English);
        Assert.NotEmpty(plan.Likely.Activities);
        foreach (Activity activity in plan.Likely.Activities)
        {
            string words = briefed.Do(activity, activity.People.Select(person => (PersonId?)person).FirstOrDefault());
            if (activity is SendCommand command) words = command.Command.Value;
            if (activity is ArmMove { Rider: null } move) words = $"{move.From} to {move.To}";
            Assert.Contains(Briefings.Tight(words), all);
            Assert.Contains(words, twin);
            Assert.Contains(activity.Start.ToString(), all);
        }
        foreach (Finding finding in plan.Verdict.Findings)
        {
            Assert.Contains(Briefings.Tight(finding.Sentence), all);
            Assert.Contains(finding.Sentence, twin);
        }
        Assert.All(plan.Verdict.NotChecked, one => Assert.Contains(Briefings.Tight(one), all));
        Assert.All(scenario.Limits, limit => Assert.Contains(Briefings.Tight(limit.Source), all));
    }

    /// <summary>What is only on the other branch of the decision stands on the pages of whoever does it, below a heading that says so; and nothing stands there that is the same in both.</summary>
    [Fact]
    public void Pages_OfAPlanWithADecision_TellTheOtherBranchFromWhereItParts()
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of("skerry");
        BriefedPlan briefed = new(scenario, plan, Wording.English), other = briefed.Other!;
        Assert.NotNull(other);
        string title = OtherBranch.Title(other);
        foreach (Person person in briefed.People)
        {
            Table[] tables = [.. PersonChapter.Of(briefed, person).Blocks.OfType<Table>()];
            string[] Starts(Table table) => [.. table.Rows.Where(row => !row.IsBand).Select(row => row.Cells[0].Phrases[0].Words)];
            string[] all = [.. other.Of(person.Id).OrderBy(activity => activity.Start).Select(activity => activity.Start.ToString())], told = Starts(tables[1]);
            Assert.Equal(2, tables.Length);
            Assert.Equal(all[^told.Length..], told);
            Assert.InRange(told.Length, 1, all.Length / 2);
            foreach (Activity activity in other.Of(person.Id).Where(activity => !briefed.Of(person.Id).Any(one => one.Id == activity.Id && one.Start == activity.Start && one.End == activity.End))) Assert.Contains(activity.Start.ToString(), told);
        }
        Table[] side = [.. InsideChapter.Of(briefed).Blocks.OfType<Table>()];
        Assert.Equal(2, side.Length);
        Assert.All(side[1].Rows, row => Assert.True(Pet.TryParse(row.Cells[0].Phrases[0].Words, out Pet at) && at >= other.PartsAt));
        // Every command that is sent at another time on it.
        string ground = string.Join('\n', GroundChapter.Of(briefed).Blocks.OfType<Table>().First().Rows.SkipWhile(row => !row.IsBand).SelectMany(row => row.Cells).SelectMany(cell => cell.Phrases).Select(phrase => phrase.Words));
        SendCommand[] moved = [.. other.Timeline.Activities.OfType<SendCommand>().Where(command => command.Start >= other.PartsAt)];
        Assert.NotEmpty(moved);
        Assert.StartsWith(title, ground);
        Assert.All(moved, command => Assert.Contains($"{command.Start} – {command.End}", ground));
        // The job that is done on one branch alone says so where decisions are made.
        Assert.Contains(Wording.English["summary.onlylikely"], string.Join('\n', FrontChapters.Summary(briefed).Blocks.OfType<Table>().SelectMany(table => table.Rows).SelectMany(row => row.Cells).SelectMany(cell => cell.Phrases).Select(phrase => phrase.Words)));
        Assert.Contains(Briefings.Tight(title), string.Concat(Briefings.Pages(Briefings.File("skerry", "sortie.pdf"))));
    }

    [Theory]
    [InlineData("skerry", "A4")]
    [InlineData("skerry", "Letter")]
    [InlineData("tern", "Letter")]
    public void Pdf_EveryPage_SaysWhichItIsOfWhatAndCarriesTheCaution(string name, string paper)
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of(name);
        PaperSize size = paper == "A4" ? PaperSize.A4 : PaperSize.Letter;
        byte[] pdf = Briefings.Make(scenario, plan, Briefings.Options with { Paper = size }).Of("sortie.pdf");
        var pages = Briefings.Pages(pdf);
        Assert.True(pages.Length > 10);
        for (int i = 0; i < pages.Length; i++)
        {
            Assert.Contains(Briefings.Tight(Caution.Text), pages[i]);
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"Page{i + 1}of{pages.Length}"), pages[i]);
            Assert.Contains(plan.Verdict.PlanId, pages[i]);
            Assert.Contains(scenario.Id, pages[i]);
            Assert.Contains("2031-05-14", pages[i]);
            Assert.DoesNotContain("DRAFT", pages[i]);
        }
        Assert.Empty(Briefings.OverTheEdge(pdf));
        using PdfDocument document = PdfDocument.Open(pdf);
        // Upright or on its side: 210 mm by 297 mm (ISO 216), or 8.5 in by 11 in, to a point.
        (double width, double height) = paper == "A4" ? (595.28, 841.89) : (612, 792);
        Assert.All(document.GetPages(), page => Assert.True(
            (Math.Abs(page.Width - width) < 1 && Math.Abs(page.Height - height) < 1) || (Math.Abs(page.Width - height) < 1 && Math.Abs(page.Height - width) < 1), $"{page.Width} by {page.Height}"));
    }

    [Fact]
    public void Pdf_Bookmarks_LeadToTheChaptersTheyName()
    {
        byte[] pdf = Briefings.File("skerry", "sortie.pdf");
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of("skerry");
        Booklet book = BriefingBook.Of(new(scenario, plan, Wording.English), Briefings.Options);
        using PdfDocument document = PdfDocument.Open(pdf);
        Assert.True(document.TryGetBookmarks(out Bookmarks? bookmarks) && bookmarks is not null);
        Assert.Equal(book.Chapters.Select(chapter => chapter.Title), bookmarks.Roots.Select(root => root.Title));
        var pages = Briefings.Pages(pdf);
        foreach (DocumentBookmarkNode node in bookmarks.GetNodes().OfType<DocumentBookmarkNode>()) Assert.Contains(Briefings.Tight(node.Title), pages[node.PageNumber - 1]);
        // Each bag has one of its own below the bag cards.
        int bags = scenario.Gear.Count(thing => thing.Kind == GearKind.Bag);
        Assert.True(bookmarks.Roots.Single(root => root.Title == Wording.English["bags.title"]).Children.Count >= bags);
    }

    [Fact]
    public void Files_OfTheSamePlan_AreTheSameToTheByte()
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of("skerry");
        foreach (DateOnly? date in new DateOnly?[] { Briefings.Printed, null })
        {
            var one = Briefings.Make(scenario, plan, Briefings.Options with { Printed = date, Since = plan });
            var other = Briefings.Make(scenario, plan, Briefings.Options with { Printed = date, Since = plan });
            Assert.Equal(["sortie.pdf", "sortie.txt", "sortie.xlsx", "timeline.csv", "ground.ics", "changes.pdf"], one.Select(file => file.Name));
            foreach ((string name, byte[] content) in one) Assert.True(content.AsSpan().SequenceEqual(other.Of(name)), $"{name} is another one the second time");
        }
    }

    [Fact]
    public void Draft_OfAPlanThatIsNotClean_SaysSoOnEveryPageAndPutsFindingsFirst()
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of("skerry-short");
        Finding broken = new(new("pet.limit"), Severity.Broken, Branch.Likely, [], default, null, "The sortie ends too late for a test.", "", "", "", "a test", "Do less.");
        ProvenPlan bad = plan with { Verdict = plan.Verdict with { Findings = [broken, .. plan.Verdict.Findings] } };
        var files = Briefings.Make(scenario, bad, Briefings.Options with { Since = plan });
        var pages = Briefings.Pages(files.Of("sortie.pdf"));
        string draft = Briefings.Tight(Wording.English["draft"]);
        // Behind the words, turned, and in the head.
        Assert.All(pages, page => Assert.True(page.Split(draft).Length > 2, page));
        Assert.All(Briefings.Pages(files.Of("changes.pdf")), page => Assert.Contains(draft, page));
        Assert.Contains(Briefings.Tight(broken.Sentence), pages[1]);
        Assert.Contains(Briefings.Tight(Wording.English["notchecked.about"]), pages[1] + pages[2]);
        foreach (string name in new[] { "sortie.txt", "timeline.csv", "ground.ics" }) Assert.Contains(Wording.English["draft"], Briefings.Text(files.Of(name)));
        Assert.Contains(broken.Sentence, Briefings.Text(files.Of("sortie.txt")));
        Assert.Contains("TENTATIVE", Briefings.Text(files.Of("ground.ics")));
    }

    // Every letter of our own words is made another one; what is left of Latin letters must stand in the scenario, the plan, or the proof.
    [Theory]
    [InlineData("skerry")]
    [InlineData("tern")]
    public void Wording_MadeAnother_LeavesNoWordOfOurOwn(string name)
    {
        (Scenario scenario, ProvenPlan plan) = PddlPlans.Of(name);
        Wording changed = WordingTests.Pseudo;
        BriefingOptions options = Briefings.Options with { Words = changed, Since = PddlPlans.Of(name).Plan };
        var files = Briefings.Make(scenario, plan, options);
        string told = Briefings.Text(files.Of("sortie.txt")) + Briefings.Text(files.Of("timeline.csv")) + Calendar(Briefings.Text(files.Of("ground.ics"))) + Workbook(files.Of("sortie.xlsx")) + BookletText.Write(BriefingFiles.Changes(scenario, plan, options)!);
        string folder = RepositoryFolder.Of("scenarios", name);
        string known = string.Join('\n', Directory.GetFiles(folder, "*.yaml").Select(File.ReadAllText)) + Encoding.UTF8.GetString(PlanFiles.ToJson(plan.Likely)) + string.Concat(plan.Played.Select(one => Encoding.UTF8.GetString(PlanFiles.ToJson(one.Timeline)) + Encoding.UTF8.GetString(PlanFiles.ToJson(one.Trace))))
            + Encoding.UTF8.GetString(PlanFiles.ToJson(plan.Verdict)) + string.Join('\n', [.. SuitText.Margins(scenario, plan.Likely, plan.Played[0].Trace), .. SuitSheet.Of(scenario, plan.Name, plan.Likely, plan.Played[0].Trace)?.NotReckoned ?? []])
            + '\n' + OutlineFile.Write(plan.Outline!) + Caution.Text + $" {plan.Name} {scenario.Digest[..12]} min h s ";
        HashSet<string> vocabulary = [.. Words(known)];
        Assert.NotEmpty(Words(told));
        Assert.Empty(Words(told).Where(word => !vocabulary.Contains(word)).Distinct());
    }

    /// <summary>What a calendar says, its lines unfolded and without the names of the standard.</summary>
    private static string Calendar(string ics) => string.Join('\n', ics.Replace("\r\n ", "").Split("\r\n").Where(line => line.StartsWith("SUMMARY", StringComparison.Ordinal) || line.StartsWith("DESCRIPTION", StringComparison.Ordinal) || line.StartsWith("X-WR", StringComparison.Ordinal))
        .Select(line => line[(line.IndexOf(':') + 1)..].Replace("\\n", "\n")));

    /// <summary>What a workbook says: its texts and the names of its sheets.</summary>
    private static string Workbook(byte[] xlsx)
    {
        using System.IO.Compression.ZipArchive archive = new(new MemoryStream(xlsx));
        return string.Join('\n', archive.Entries.Where(entry => entry.FullName.EndsWith(".xml", StringComparison.Ordinal)).SelectMany(entry =>
        {
            using Stream stream = entry.Open();
            System.Xml.Linq.XDocument document = System.Xml.Linq.XDocument.Load(stream);
            return document.Descendants().Where(one => one.Name.LocalName is "t" or "sheet").Select(one => one.Name.LocalName == "sheet" ? one.Attribute("name")!.Value : one.Value);
        }));
    }

    // Words of Latin letters: a run of them, not part of a run with other letters.
    private static IEnumerable<string> Words(string text) =>
        System.Text.RegularExpressions.Regex.Matches(text, "[A-Za-z]{2,}").Select(match => match.Value);
}
