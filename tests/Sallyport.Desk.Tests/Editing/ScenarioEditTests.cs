using CsCheck;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

public sealed class ScenarioEditTests : IDisposable
{
    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    [Theory]
    [InlineData("a: 1  # one\nb: 2\n", "a", "3", "a: 3  # one\nb: 2\n")]
    [InlineData("a: \"3:10\"\n", "a", "3:20", "a: \"3:20\"\n")]
    [InlineData("a: b\n", "a", "3:20", "a: \"3:20\"\n")]
    [InlineData("l:\n- {id: x, n: 6 m, c: easy} # near\n- {id: y, n: 7 m}\n", "l/x/n", "8 m", "l:\n- {id: x, n: 8 m, c: easy} # near\n- {id: y, n: 7 m}\n")]
    [InlineData("l:\n- {id: x, n: 6 m}\n", "l/0/p", "1, 2 m", "l:\n- {id: x, n: 6 m, p: \"1, 2 m\"}\n")]
    [InlineData("l:\n- id: x\n  # why\n  n: 6 m\n- id: y\n", "l/x/t", "So it is", "l:\n- id: x\n  # why\n  n: 6 m\n  t: So it is\n- id: y\n")]
    [InlineData("l:\n- id: x\n  n: 6 m\n\n# of y\n- id: y\n", "l/x/n", null, "l:\n- id: x\n\n# of y\n- id: y\n")]
    [InlineData("l:\n- {id: x, n: 6 m, c: easy}\n", "l/x/n", null, "l:\n- {id: x, c: easy}\n")]
    [InlineData("l:\n- {id: x, n: 6 m}\n", "l/x/n", null, "l:\n- {id: x}\n")]
    [InlineData("l:\n- t: x\n  n: 6 m\n", "l/0/t", null, "l:\n- n: 6 m\n")]
    [InlineData("a: 1", "b", "yes it is", "a: 1\nb: yes it is\n")]
    [InlineData("a: 1\r\nb: 2\r\n", "b", "3", "a: 1\r\nb: 3\r\n")]
    [InlineData("a: 1\n", "m/n/o", "3", "a: 1\nm: {n: {o: 3}}\n")]
    [InlineData("a:\nb: 1\n", "a", "x", "a: x\nb: 1\n")]
    [InlineData("a: >\n  long\n  text\nb: 1\n", "a", "short", "a: \"short\"\nb: 1\n")]
    [InlineData("# only this\n", "a", "x", "# only this\na: x\n")]
    public void Set_OneValue_LeavesAllElse(string before, string path, string? value, string after) => Assert.Equal(after, YamlEdits.Set("f.yaml", before, path, value));

    [Theory]
    [InlineData("l:\n- a\n# end\n", "l", "b", null, "l:\n- a\n- b\n# end\n")]
    [InlineData("l:\n- a\n", "l", "b", 0, "l:\n- b\n- a\n")]
    [InlineData("l: [a, c]\n", "l", "b", 1, "l: [a, b, c]\n")]
    [InlineData("l: [a]\n", "l", "b", null, "l: [a, b]\n")]
    [InlineData("l: []  # none yet\n", "l", "id: b\nn: 1", null, "l:  # none yet\n- id: b\n  n: 1\n")]
    [InlineData("a: 1\n", "l", "{id: b}", null, "a: 1\nl:\n- {id: b}\n")]
    [InlineData("j:\n- id: x\n  s:\n  - id: p\n    t: 1\n  w: 2\n", "j/x/s", "id: q\nt: 2", null, "j:\n- id: x\n  s:\n  - id: p\n    t: 1\n  - id: q\n    t: 2\n  w: 2\n")]
    [InlineData("j:\n- {id: x}\n", "j/x/s", "q", null, "j:\n- {id: x, s: [q]}\n")]
    public void Add_AnItem_LeavesAllElse(string before, string path, string item, int? at, string after) => Assert.Equal(after, YamlEdits.Add("f.yaml", before, path, item, at));

    [Theory]
    [InlineData("l:\n- a\n# of b\n- b\n- c\n", "l/1", "l:\n- a\n# of b\n- c\n")]
    [InlineData("l:\n- a\nm: 1\n", "l/0", "l: []\nm: 1\n")]
    [InlineData("l: [a, b, c]\n", "l/2", "l: [a, b]\n")]
    [InlineData("l: [a]\n", "l/0", "l: []\n")]
    public void Remove_AnItem_LeavesAllElse(string before, string path, string after) => Assert.Equal(after, YamlEdits.Remove("f.yaml", before, path));

    [Theory]
    [InlineData("l: [a, b]\n", "l: [b, c]\n")]
    [InlineData("l:\n- a\n- b # stays\nm: 1\n", "l:\n- b # stays\n- c\nm: 1\n")]
    [InlineData("m: 1\n", "m: 1\nl: [b, c]\n")]
    public void SetList_LeavesAllElse(string before, string after) => Assert.Equal(after, YamlEdits.SetList("f.yaml", before, "l", ["b", "c"]));

    [Theory]
    [InlineData("a: 1\n", "a/b", "x")]
    [InlineData("a: [1]\n", "a", "x")]
    [InlineData("l:\n- a\n", "l/3", "x")]
    [InlineData("a: [1\n", "a", "x")]
    [InlineData("a: 1\n", "", "x")]
    public void Set_WhereThereIsNoSuchValue_IsRefused(string before, string path, string value) => Assert.Throws<CannotEdit>(() => YamlEdits.Set("f.yaml", before, path, value));

    [Fact]
    public void Scalar_OfAnyText_ReadsBackAsItIs()
    {
        Outlines.Text.Sample(text =>
        {
            if (SourceText.From(Folders.Bytes(text), "t", _ => { }) is null) return;
            foreach (string form in new[] { $"{{a: {YamlEdits.Scalar(text, true)}, b: 1}}\n", $"a: {YamlEdits.Scalar(text, false)}\nb: 1\n" })
            {
                SourceText source = SourceText.From(Folders.Bytes(form), "t", problem => Assert.Fail(problem.ToString()))!;
                MapNode map = Assert.IsType<MapNode>(YamlReader.Read(source, problem => Assert.Fail(problem.ToString())));
                Assert.Equal(text, Assert.IsType<TextNode>(map.Find("a")).Text);
                Assert.Equal("1", Assert.IsType<TextNode>(map.Find("b")).Text);
            }
        });
    }

    [Theory]
    [InlineData("skerry")]
    [InlineData("tern")]
    [InlineData("starter")]
    public void Set_EveryValueOfEveryFile_ToWhatItIs_AndToAnother_LeavesEveryOtherLine(string name)
    {
        using OpenSortie sortie = shop.Open(name);
        int values = 0;
        foreach (SortieFile file in sortie.State.Files.Where(file => !file.IsOutline))
            foreach (FormField field in FormShape.Of(file).SelectMany(Leaves))
            {
                values++;
                Assert.Equal(file.Text, YamlEdits.Set(file.Name, file.Text, field.Path, field.Value!));
                if (values % 7 != 0) continue;
                string changed = YamlEdits.Set(file.Name, file.Text, field.Path, "x" + field.Value);
                (string[] gone, string[] come) = Workshop.Changed(file.Text, changed);
                // A text that was folded over several lines comes back on one.
                Assert.True(come.Length == 1 && gone.Length >= 1, field.Path);
                FormField read = FormShape.Of(new(file.Name, changed)).SelectMany(Leaves).First(one => one.Path == field.Path);
                Assert.Equal("x" + field.Value, read.Value);
            }
        Assert.True(values > 150, $"{values} values were tried");
    }

    [Fact]
    public void SetValue_OfAStep_ChangesThePlan_AndThatLineAlone()
    {
        using OpenSortie sortie = shop.Open("starter");
        SortieState before = sortie.State;
        string text = shop.TextOf(sortie, "jobs.yaml");
        Job job = before.Scenario!.Jobs[0];
        string path = $"jobs/{job.Id}/legs/{job.Legs[0].Id.Value.Split('/')[1]}/steps/{job.Legs[0].Steps[0].Id}/time";

        SortieState after = Workshop.Good(sortie.Apply(new SetValue("jobs.yaml", path, "10 / 20 / 30 min"), "Ada", before.Revision)).State;

        Assert.Equal(Duration.FromMinutes(20), after.Scenario!.Jobs[0].Legs[0].Steps[0].Time.Likely);
        Assert.Equal((1, 1), (Workshop.Changed(text, shop.TextOf(sortie, "jobs.yaml")).Gone.Length, Workshop.Changed(text, shop.TextOf(sortie, "jobs.yaml")).Come.Length));
        Assert.True(after.Difference!.End > after.Difference.EndBefore);
        Workshop.Good(sortie.Undo("Ada"));
        Assert.Equal(text, shop.TextOf(sortie, "jobs.yaml"));
        Assert.Equal(PlanFiles.ToJson(before.Plan!.Likely), PlanFiles.ToJson(sortie.State.Plan!.Likely));
    }

    [Theory]
    [InlineData("6", "unit.missing")]
    [InlineData("6 kg", "unit.dimension")]
    public void SetValue_ThatTheReaderRefuses_IsTheReadersProblem_WithItsPlace_AndNothingIsWritten(string value, string code)
    {
        using OpenSortie sortie = shop.Open("starter");
        string file = sortie.State.Files.First(one => one.Text.Contains("spans:")).Name, text = shop.TextOf(sortie, file);
        long revision = sortie.State.Revision;

        Refused refused = Assert.IsType<Refused>(sortie.Apply(new SetValue(file, "spans/0/length", value), "Ada", revision));

        Problem problem = Assert.Single(refused.Problems);
        Assert.StartsWith(code.Split('.')[0], problem.Code);
        Assert.Equal(file, problem.File);
        Assert.True(problem.Line > 0 && problem.Column > 0);
        Assert.Equal(text, shop.TextOf(sortie, file));
        Assert.Equal(text, sortie.State.TextOf(file));
    }

    [Fact]
    public void Together_IsAllOrNothing_AndUndoneAsOne()
    {
        using OpenSortie sortie = shop.Open("starter");
        string text = shop.TextOf(sortie, "jobs.yaml");
        SetValue title = new("jobs.yaml", "jobs/0/title", "A new name");
        Assert.IsType<Refused>(sortie.Apply(new Together([title, new SetValue("jobs.yaml", "jobs/0/worth", "nothing")]), "Ada", sortie.State.Revision));
        Assert.Equal(text, shop.TextOf(sortie, "jobs.yaml"));

        LegId leg = sortie.State.Scenario!.Jobs[0].Legs[0].Id;
        Workshop.Good(sortie.Apply(new Together([title, new PinPerson(leg), new SetValue("jobs.yaml", "jobs/0/value", "77")]), "Ada", sortie.State.Revision));

        Assert.Equal(("A new name", 77), (sortie.State.Scenario!.Jobs[0].Title, sortie.State.Scenario.Jobs[0].Value));
        Assert.Contains("who: pinned", shop.TextOf(sortie, "outlines/first.yaml"));
        Workshop.Good(sortie.Undo("Ada"));
        Assert.Equal(text, shop.TextOf(sortie, "jobs.yaml"));
        Assert.DoesNotContain("who: pinned", shop.TextOf(sortie, "outlines/first.yaml"));
    }

    [Fact]
    public void ReplaceText_TooLargeOrNoText_IsRefused()
    {
        using OpenSortie sortie = shop.Open("starter");
        string text = shop.TextOf(sortie, "jobs.yaml");
        Assert.Contains("too large", Assert.IsType<Refused>(sortie.Apply(new ReplaceText("jobs.yaml", text + new string('#', SourceText.MostBytes)), "Ada", sortie.State.Revision)).Why);
        Assert.Contains("UTF-8", Assert.IsType<Refused>(sortie.Apply(new ReplaceText("jobs.yaml", text + "# \uD800"), "Ada", sortie.State.Revision)).Why);
        Assert.IsType<Refused>(sortie.Apply(new ReplaceText("jobs.yaml", text + "# \0"), "Ada", sortie.State.Revision));
        Assert.Equal(text, shop.TextOf(sortie, "jobs.yaml"));
        SortieEdit[] many = [.. Enumerable.Range(0, SortieFiles.MostFiles + 1).Select(i => new ReplaceText($"outlines/o-{i}.yaml", "scenario: starter\npeople: {}\n"))];
        Assert.Contains("at most", Assert.IsType<Refused>(sortie.Apply(new Together([.. many]), "Ada", sortie.State.Revision)).Why);
        Assert.Single(Directory.GetFiles(shop.PathOf(sortie, "outlines")));
    }

    [Fact]
    public void Fields_OfEverySection_AreTheSchemas()
    {
        foreach (string section in FormShape.SectionNames)
        {
            FormField field = FormShape.Section(section);
            Assert.False(field.IsThere);
            Assert.NotEmpty(field.Description);
        }
        FormField job = FormShape.Section("jobs").NewItem!;
        Assert.Equal(["must", "should", "get-ahead"], job.Fields.Single(field => field.Key == "worth").Choices);
        Assert.True(job.Fields.Single(field => field.Key == "worth").Required);
        Assert.False(job.Fields.Single(field => field.Key == "hazard").Required);
        FormField step = job.Fields.Single(field => field.Key == "legs").NewItem!.Fields.Single(field => field.Key == "steps").NewItem!;
        Assert.Equal((FieldKind.Figure, "3 / 4 / 7 min"), (step.Fields.Single(field => field.Key == "time").Kind, step.Fields.Single(field => field.Key == "time").Example));
        Assert.Contains("min", step.Fields.Single(field => field.Key == "time").Units);
        Assert.Equal(FieldKind.Flag, step.Fields.Single(field => field.Key == "rough").Kind);
        FormField mass = FormShape.Section("gear").NewItem!.Fields.Single(field => field.Key == "mass");
        Assert.Equal([.. Units.All.Where(unit => unit.Dimension == Dimension.Mass).Select(unit => unit.Name)], mass.Units.AsEnumerable());
        Assert.Equal(FieldKind.Form, FormShape.Section("jobs").NewItem!.Fields.Single(field => field.Key == "latest").Kind);
        Assert.Throws<ArgumentException>(() => FormShape.Section("nothing"));
    }

    private static IEnumerable<FormField> Leaves(FormField field) => field.Value is not null ? [field] : field.Fields.SelectMany(Leaves);
}
