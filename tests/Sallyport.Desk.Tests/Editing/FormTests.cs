using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>What forms know of the files: names to choose from, what must be there, and new items written as a person would have.</summary>
public sealed class FormTests : IDisposable
{
    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    public static TheoryData<string> Demos => [Path.Combine("scenarios", "skerry"), Path.Combine("scenarios", "tern"), Path.Combine("src", "Sallyport.Desk", "Starter"), Path.Combine("tests", "Sallyport.Desk.Tests", "EveryKey")];

    // What the forms offer is held to what the reader looks up, in both directions.
    [Theory]
    [MemberData(nameof(Demos))]
    public void Refers_OfEveryField_IsTheKindOfNameThatTheReaderLooksUpThere(string folder)
    {
        Binding binding = new();
        string path = RepositoryFolder.Of(folder);
        Folders.Good(ScenarioReader.ReadWhole(path, null, binding));
        Dictionary<(string, int, int), string> used = [];
        foreach ((string kind, Place place) in binding.Names.Uses) used[(Path.GetFileName(place.Source.Name), place.Line, place.Column)] = kind;
        List<string> apart = [];
        int seen = 0;
        foreach (string file in Directory.GetFiles(path, "*.yaml"))
        {
            string text = File.ReadAllText(file), name = Path.GetFileName(file);
            MapNode root = (MapNode)YamlReader.Read(SourceText.From(Folders.Bytes(text), name, _ => { })!, _ => { })!;
            foreach (FormField field in FormShape.Of(new(name, text)).SelectMany(Inside).Where(field => field.Value is not null || field.KeysRefer.Length > 0))
            {
                if (field.KeysRefer.Length > 0)
                {
                    foreach (FormField entry in field.Fields)
                        if (used.GetValueOrDefault((name, entry.Line, entry.Column)) != field.KeysRefer) apart.Add($"{entry.Path}: its key is {field.KeysRefer}, the reader says {used.GetValueOrDefault((name, entry.Line, entry.Column))}");
                    continue;
                }
                string[] parts = YamlEdits.Parts(field.Path);
                Node node = parts.Aggregate((Node)root, (at, part) => at is MapNode map ? map.Find(part)! : ((ListNode)at).Items[int.Parse(part, System.Globalization.CultureInfo.InvariantCulture)]);
                string reader = used.GetValueOrDefault((name, node.Place.Line, node.Place.Column), "");
                string form = field.Refers.StartsWith(References.LegIn, StringComparison.Ordinal) ? Kinds.Leg : field.Refers;
                bool isPlace = form is References.PlaceBefore or References.PlaceInStep;
                // 'inside' is no name; the word before a name says its kind.
                if (isPlace ? reader.Length > 0 && !field.Value!.StartsWith(reader, StringComparison.Ordinal) : form != reader && !(form == Kinds.Controller && reader.Length == 0)) apart.Add($"{field.Path}: the form says '{form}', the reader '{reader}'");
                if (reader.Length > 0) seen++;
            }
        }
        Assert.True(apart.Count == 0, string.Join("\n", apart.Distinct()));
        Assert.True(seen > 40, $"only {seen} names were seen");
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Known_OfEveryNameInTheFiles_OffersIt(string folder)
    {
        Binding binding = new();
        string path = RepositoryFolder.Of(folder);
        KnownNames known = new(binding.Names, Folders.Good(ScenarioReader.ReadWhole(path, null, binding)).Scenario);
        foreach (string file in Directory.GetFiles(path, "*.yaml"))
            foreach (FormField field in FormShape.Of(new(Path.GetFileName(file), File.ReadAllText(file))).SelectMany(Inside).Where(field => field is { Value: not null, Refers.Length: > 0 }))
                Assert.Contains(known.Of(field.Refers), one => one.Name == field.Value || field.Refers.StartsWith(References.LegIn, StringComparison.Ordinal) && one.Name == field.Value!.Split('/')[^1]);
    }

    // Each item of the demo, taken apart into fields and filled in as a new one, is the same item, and in the order in which a person wrote it.
    [Theory]
    [InlineData("skerry")]
    [InlineData("tern")]
    [InlineData("starter")]
    public void Draft_FilledInWithWhatAnItemHolds_IsWrittenAsAPersonWroteIt(string name)
    {
        using OpenSortie sortie = shop.Open(name);
        int same = 0, all = 0;
        foreach (SortieFile file in sortie.State.Files.Where(file => !file.IsOutline))
            foreach (FormField list in FormShape.Of(file).SelectMany(Inside).Where(field => field is { Kind: FieldKind.Items, Fields.IsEmpty: false, NewItem.Kind: FieldKind.Map }).Where((_, i) => i % 5 == 0))
            {
                FormField item = list.Fields[^1];
                ItemDraft draft = new(file.Name, list.NamedPath);
                Fill(draft, item, item.Path);
                string text = draft.Edit(file.Text).Text, without = YamlEdits.Remove(file.Name, file.Text, item.Path);
                string added = YamlEdits.Add(file.Name, without, list.Path, text, null);
                Assert.Equal(Told(item), Told(FormShape.At(FormShape.Of(new(file.Name, added)), item.Path)!));
                all++;
                if (Plain(added) == Plain(file.Text)) same++;
            }
        Assert.True(all > 5, $"only {all} items were tried");
        // A person folds long lines, leaves out quotes or has comments within an item now and then.
        Assert.True(same * 10 >= all * 7, $"only {same} of {all} were written as they stood");
    }

    [Fact]
    public void Draft_OfAStep_TellsWhatIsMissingAndWrong_UntilItIsSavedWhole()
    {
        using OpenSortie sortie = shop.Open("skerry-short");
        string before = shop.TextOf(sortie, "jobs.yaml");
        ItemDraft draft = new("jobs.yaml", "jobs/latch/legs/free/steps");
        DraftSight sight = draft.Look(sortie, []);
        string item = sight.Field!.Path;
        Assert.Empty(sight.Problems);
        Assert.Equal(["id", "do", "time", "abort: time", "terminate: time", "work"], sight.Missing);
        foreach ((string key, string value) in new[] { ("work", "light"), ("id", "wipe"), ("do", "Wipe the hinge: all of it"), ("time", "1 / 2 / 3"), ("abort/time", "30 s"), ("terminate/time", "1 min") })
            Assert.Null(draft.Do(new SetValue("jobs.yaml", $"{item}/{key}", value), item));
        sight = draft.Look(sortie, []);
        Assert.Empty(sight.Missing);
        Problem unit = Assert.Single(sight.Problems);
        Assert.Equal("unit.missing", unit.Code);
        Assert.True(FormShape.At([sight.Field!], item + "/time")!.Holds(unit));
        Assert.False(FormShape.At([sight.Field!], item + "/abort")!.Holds(unit));
        Assert.Null(draft.Do(new SetValue("jobs.yaml", $"{item}/time", "1 / 2 / 3 min"), item));

        // A need: which of its forms is meant comes first, and what goes with that follows.
        Assert.Null(draft.Do(new AddItem("jobs.yaml", $"{item}/needs", ""), item));
        FormField need = FormShape.At([draft.Look(sortie, []).Field!], $"{item}/needs/0")!;
        Assert.Equal(["feature", "gear", "dead", "go"], Assert.Single(need.OneOf));
        Assert.True(need.Fields.First(part => part.Key == "is").IsClosed);
        Assert.Null(draft.Do(new SetValue("jobs.yaml", $"{item}/needs/0/when", "end"), item));
        Assert.Null(draft.Do(new SetValue("jobs.yaml", $"{item}/needs/0/feature", "latch"), item));
        sight = draft.Look(sortie, []);
        need = FormShape.At([sight.Field!], $"{item}/needs/0")!;
        FormField states = need.Fields.First(part => part.Key == "is");
        Assert.True(states.Required && !states.IsClosed && need.Fields.First(part => part.Key == "gear").IsClosed);
        Assert.Equal(["sticky", "free"], sight.Names.Of(states.NewItem is null ? states.Refers : "").Select(one => one.Name));
        Assert.Equal(["needs: number 1: is"], sight.Missing);
        Assert.Null(draft.Do(new SetList("jobs.yaml", $"{item}/needs/0/is", ["free"]), item));
        // The latch is free only once it was greased, which is the step before: the plan still plays.
        SortieState after = Workshop.Good(sortie.Apply(draft.Edit(before), "Ada", sortie.State.Revision)).State;

        (string[] gone, string[] come) = Workshop.Changed(before, shop.TextOf(sortie, "jobs.yaml"));
        Assert.Empty(gone);
        Assert.Equal(
            ["    - id: wipe", "      do: \"Wipe the hinge: all of it\"", "      time: 1 / 2 / 3 min", "      needs:", "      - {feature: latch, is: [free], when: end}", "      abort: {time: 30 s}", "      terminate: {time: 1 min}", "      work: light"], come.Select(line => line.TrimEnd()));
        Assert.Equal("wipe", after.Scenario!.Jobs[0].Legs[0].Steps[^1].Id.Value);
    }

    [Fact]
    public void Draft_IntoAListInBrackets_IsWrittenOnOneLine()
    {
        using OpenSortie sortie = shop.Open("skerry-short");
        ItemDraft draft = new("jobs.yaml", "jobs/latch/legs/look/after");
        string item = draft.Look(sortie, []).Field!.Path;
        Assert.Null(draft.Do(new SetValue("jobs.yaml", $"{item}/least", "5 min"), item));
        Assert.Null(draft.Do(new SetValue("jobs.yaml", $"{item}/leg", "free"), item));
        Assert.Empty(draft.Look(sortie, []).Problems);
        Workshop.Good(sortie.Apply(draft.Edit(sortie.State.TextOf("jobs.yaml")!), "Ada", sortie.State.Revision));
        Assert.Contains("after: [{leg: latch/free, least: 0 s}, {leg: free, least: 5 min}]", shop.TextOf(sortie, "jobs.yaml"));
    }

    [Theory]
    [InlineData("l:\n# of a\n- a\n- b # stays with it\n\n# of c\n- c\n", "l/1", true, "l:\n# of a\n- a\n# of c\n- c\n\n- b # stays with it\n")]
    [InlineData("l:\n# of a\n- id: a\n  n: 1\n# of b\n- id: b\nm: 1\n", "l/b", false, "l:\n# of b\n- id: b\n# of a\n- id: a\n  n: 1\nm: 1\n")]
    [InlineData("l: [a, 'b', {c: 1}]\n", "l/2", false, "l: [a, {c: 1}, 'b']\n")]
    [InlineData("l:\n- a\n- b", "l/0", true, "l:\n- b\n- a\n")]
    public void Move_AnItem_TakesItsCommentsAlongAndLeavesAllElse(string before, string path, bool later, string after)
    {
        Assert.Equal(after, YamlEdits.Move("f.yaml", before, path, later));
        Assert.Throws<CannotEdit>(() => YamlEdits.Move("f.yaml", before, path[..2] + "0", later: false));
    }

    [Fact]
    public void Preview_OfEditsThatHoldTogetherOnly_TellsWhatIsWrongUntilTheyDo_AndSavesNothing()
    {
        using OpenSortie sortie = shop.Open("skerry-short");
        string before = shop.TextOf(sortie, "jobs.yaml"), step = "jobs/latch/legs/free/steps/grease/fastener";
        SetValue torque = new("jobs.yaml", step + "/torque", "14 ft-lbf"), turns = new("jobs.yaml", step + "/turns", "-6 turns");
        Assert.IsType<Refused>(sortie.Apply(torque, "Ada", sortie.State.Revision));
        SortiePreview half = sortie.Preview([torque]);
        Assert.Contains(half.Problems, problem => problem.Code == "key.missing" && problem.Found.Contains("turns"));
        Assert.Empty(sortie.Preview([torque, turns]).Problems);
        Assert.Equal(before, shop.TextOf(sortie, "jobs.yaml"));
        Workshop.Good(sortie.Apply(new Together([torque, turns]), "Ada", sortie.State.Revision));
        Assert.Equal((0, 1), (Workshop.Changed(before, shop.TextOf(sortie, "jobs.yaml")).Gone.Length, Workshop.Changed(before, shop.TextOf(sortie, "jobs.yaml")).Come.Length));
        Assert.Null(sortie.State.Problems.FirstOrDefault());
    }

    private static void Fill(ItemDraft draft, FormField field, string item)
    {
        foreach (FormField part in field.Fields.Reverse())
            switch (part)
            {
                case { IsThere: false }: break;
                case { Kind: FieldKind.Texts }: Assert.Null(draft.Do(new SetList("f", part.Path, [.. part.Fields.Select(one => one.Value!)]), item)); break;
                case { Kind: FieldKind.Items }:
                    foreach (FormField _ in part.Fields) Assert.Null(draft.Do(new AddItem("f", part.Path, ""), item));
                    foreach (FormField inner in part.Fields) Fill(draft, inner, item);
                    break;
                case { Kind: FieldKind.Map }: Fill(draft, part, item); break;
                case { Kind: FieldKind.Entries }:
                    foreach (FormField entry in part.Fields) Assert.Null(draft.Do(new SetValue("f", entry.Path, entry.Value), item));
                    break;
                default: Assert.Null(draft.Do(new SetValue("f", part.Path, part.Value), item)); break;
            }
    }

    // A form cannot say an empty list, which is as much as none for most keys; where it is not, it is written as text.
    private static string Told(FormField field) => $"{field.Path}={field.Value}[{string.Join(';', field.Fields.Where(part => part.IsThere && part is not { Kind: FieldKind.Texts, Fields.IsEmpty: true }).OrderBy(part => field.Kind == FieldKind.Entries ? part.Key : "").Select(Told))}]";

    private static string Plain(string text) => string.Concat(text.Where(letter => !char.IsWhiteSpace(letter) && letter != '"'));

    private static IEnumerable<FormField> Inside(FormField field) => field.Fields.SelectMany(Inside).Prepend(field);
}
