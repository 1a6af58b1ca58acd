using System.Security.Claims;
using Bunit;
using Microsoft.AspNetCore.Components.Authorization;
using Sallyport.Desk;
using Sallyport.Model;
using Sallyport.Web;
using Sallyport.Web.Parts;

namespace Sallyport.Tests.Web;

/// <summary>Parts of pages by themselves, and the hand that changes things.</summary>
public sealed class PartTests : BunitContext
{
    private static readonly Problem Unit = new("jobs.yaml", 3, 9, "unit.missing", "'6' for 'time', without a unit", "a time with its unit", "  time: 6", "write the unit after the figure, such as '6 min'.");

    [Fact]
    public async Task Hand_OfAViewer_ChangesNothing()
    {
        string root = Directory.CreateTempSubdirectory("sallyport-hand-").FullName;
        try
        {
            DeskFolder folder = new(root);
            Assert.Null(folder.Create("one"));
            using OpenSortie sortie = folder.Open("one").Value!;
            SortieFile file = sortie.State.Files[0];
            ReplaceText edit = new(file.Name, file.Text + "# more\n");

            Refused refused = Assert.IsType<Refused>(await new DeskHand(new Somebody(Roles.Viewer)).Apply(sortie, edit, sortie.State.Revision));
            Assert.Equal(DeskHand.MayNot, refused.Why);
            Assert.IsType<Refused>(await new DeskHand(new Somebody(null)).Undo(sortie));
            Assert.Null(await new DeskHand(new Somebody(Roles.Viewer)).IfPlanner(() => folder.Create("two") ?? (object)"made"));
            Assert.False(Directory.Exists(Path.Combine(root, "two")));
            Assert.Equal(file.Text, sortie.State.TextOf(file.Name));

            Assert.IsType<Accepted>(await new DeskHand(new Somebody(Roles.Planner)).Apply(sortie, edit, sortie.State.Revision));
            Assert.Equal(file.Text + "# more\n", File.ReadAllText(Path.Combine(root, "one", file.Name)));
        }
        finally { Directory.Delete(root, true); }
    }

    [Fact]
    public void Standing_BeforeEverythingWasLookedAt_IsNeverCalledClean()
    {
        string root = Directory.CreateTempSubdirectory("sallyport-standing-").FullName;
        try
        {
            DeskFolder folder = new(root);
            Assert.Null(folder.Create("one"));
            using OpenSortie sortie = folder.Open("one").Value!;
            Assert.Equal("No outline yet", Words.Standing(sortie.State));
            PlanOutcome found = sortie.State.Desk!.Plan("best", 1, 7, null, _ => { }, Xunit.TestContext.Current.CancellationToken);
            SortieState quick = sortie.State with { Chosen = "best", Plan = found.Plan, Proving = Proving.Quick };
            Assert.DoesNotContain("lean", Words.Standing(quick));
            Assert.Equal("open", Words.Class(quick));
            Assert.DoesNotContain("Clean", Sallyport.Draw.SvgWriter.Write(Downloads.Small(quick.Scenario!, quick.Plan!, quick.IsClean)));
            Assert.Contains("Clean", Sallyport.Draw.SvgWriter.Write(Downloads.Small(quick.Scenario!, quick.Plan!, true)));
            SortieState whole = quick with { Proving = Proving.Whole };
            Assert.StartsWith("Clean under the", Words.Standing(whole));
            Assert.Contains("not checked", Words.Standing(whole));
            Finding broken = new(new RuleId("pet.limit"), Severity.Broken, Branch.Likely, [], Pet.FromSeconds(60), null, "It ends too late.", "", "", "", "", "");
            SortieState bad = quick with { Plan = found.Plan! with { Verdict = found.Plan.Verdict with { Findings = [broken] } } };
            Assert.StartsWith("Not clean: 1 broken", Words.Standing(bad));
        }
        finally { Directory.Delete(root, true); }
    }

    [Fact]
    public void Field_RefusedByTheReader_KeepsWhatWasTypedAndSaysWhyBesideIt()
    {
        FormField field = new("time", "jobs/0/time", FieldKind.Figure, "How long it takes.", true, ["min", "s"], [], "12 min", "5 min", 3, []);
        List<SortieEdit> asked = [];
        IRenderedComponent<FieldView> view = Render<FieldView>(parameters => parameters
            .Add(part => part.Field, field).Add(part => part.MayChange, true)
            .Add(part => part.Edit, edit =>
            {
                asked.Add(edit("jobs.yaml"));
                return Task.FromResult<EditOutcome>(new Refused("no", [Unit]));
            }));
        view.Find("input").Change("6");
        Assert.Equal(new SetValue("jobs.yaml", "jobs/0/time", "6"), Assert.Single(asked));
        Assert.Equal("6", view.Find("input").GetAttribute("value"));
        Assert.Equal("true", view.Find("input").GetAttribute("aria-invalid"));
        string said = view.Find(".trouble").TextContent;
        Assert.Contains("without a unit", said);
        Assert.Contains("such as '6 min'", said);
        Assert.Contains(view.Find(".trouble").Id!, view.Find("input").GetAttribute("aria-describedby"));
    }

    [Fact]
    public void Group_Opened_ShowsItsFieldsAndClosedHidesThem()
    {
        FormField name = new("name", "people/0/name", FieldKind.Text, "", true, [], [], "", "Ada", 3, []);
        FormField field = new("people", "people", FieldKind.Items, "Who.", true, [], [], "", null, 2, [new("0", "people/0", FieldKind.Map, "", true, [], [], "", null, 3, [name])]);
        IRenderedComponent<FieldView> view = Render<FieldView>(parameters => parameters.Add(part => part.Field, field).Add(part => part.Edit, _ => throw new InvalidOperationException("asked")));
        Assert.Contains("Ada", view.Find("details details > summary").TextContent);
        Assert.Empty(view.FindAll("input"));
        view.Find("details details > summary").Click();
        Assert.Equal("Ada", view.Find("input").GetAttribute("value"));
        view.Find("details details > summary").Click();
        Assert.Empty(view.FindAll("input"));
    }

    [Fact]
    public void Field_OfAViewer_CannotBeTypedInto()
    {
        FormField field = new("worth", "jobs/0/worth", FieldKind.Choice, "", true, [], ["must", "should"], "", "must", 3, []);
        IRenderedComponent<FieldView> view = Render<FieldView>(parameters => parameters.Add(part => part.Field, field).Add(part => part.Edit, _ => throw new InvalidOperationException("asked")));
        Assert.True(view.Find("select").HasAttribute("disabled"));
        Assert.Equal(["must", "should"], view.FindAll("option").Select(option => option.TextContent));
    }

    [Fact]
    public void Field_OfAList_SendsItsItemsOneByOne()
    {
        FormField field = new("who", "jobs/0/who", FieldKind.Texts, "", false, [], [], "", null, 3, [new("0", "jobs/0/who/0", FieldKind.Text, "", false, [], [], "", "EV1", 3, [])]);
        SortieEdit? asked = null;
        IRenderedComponent<FieldView> view = Render<FieldView>(parameters => parameters
            .Add(part => part.Field, field).Add(part => part.MayChange, true)
            .Add(part => part.Edit, edit =>
            {
                asked = edit("jobs.yaml");
                return Task.FromResult<EditOutcome>(new Refused("", []));
            }));
        Assert.Equal("EV1", view.Find("input").GetAttribute("value"));
        view.Find("input").Change("EV1, EV2 ,");
        SetList list = Assert.IsType<SetList>(asked);
        Assert.Equal(["EV1", "EV2"], list.Items);
    }

    [Fact]
    public void Texts_InConflict_StandWholeSideBySideWithTheirNewLinesMarked()
    {
        IRenderedComponent<TwoTexts> view = Render<TwoTexts>(parameters => parameters
            .Add(part => part.Before, "a\nb\n").Add(part => part.First, "a\nmine\n").Add(part => part.FirstTitle, "Mine").Add(part => part.Second, "a\ntheirs\n").Add(part => part.SecondTitle, "Theirs"));
        Assert.Equal(["› mine", "› theirs"], view.FindAll(".new").Select(line => line.TextContent.TrimEnd('\n')));
        Assert.All(view.FindAll("pre"), text => Assert.Contains("  a\n", text.TextContent));
    }

    [Fact]
    public void Difference_WithFindings_TellsBothFiguresAndTheMend()
    {
        Finding gained = new(new RuleId("pet.limit"), Severity.Broken, Branch.Likely, [], Pet.FromSeconds(24_862), null, "The sortie ends too late.", "PET 6:54:22", "PET 6:30", "-24 min 22 s", "ours", "Leave a job out.");
        StateDifference difference = new(Pet.FromSeconds(21_600), Pet.FromSeconds(24_862), 100, 120, Duration.FromSeconds(60), null, [gained], []);
        string text = Render<DifferenceView>(parameters => parameters.Add(part => part.Title, "What changed").Add(part => part.Difference, difference)).Find("section").TextContent;
        Assert.All(["6:00", "6:54:22", "100", "120", "none held", "Broken", "The sortie ends too late.", "-24 min 22 s", "Leave a job out."], word => Assert.Contains(word, text));
    }

    private sealed class Somebody(string? role) : AuthenticationStateProvider
    {
        public override Task<AuthenticationState> GetAuthenticationStateAsync() =>
            Task.FromResult(new AuthenticationState(new(role is null ? new ClaimsIdentity() : new ClaimsIdentity([new(ClaimTypes.Name, "somebody"), new(ClaimTypes.Role, role)], "test"))));
    }
}
