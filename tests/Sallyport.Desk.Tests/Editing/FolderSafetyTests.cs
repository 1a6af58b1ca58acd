namespace Sallyport.Desk.Tests;

public sealed class FolderSafetyTests : IDisposable
{
    private readonly Workshop shop = new();

    public void Dispose() => shop.Dispose();

    public static TheoryData<string> BadNames => new(
        "", ".", "..", "../secret", "..\\secret", "a/b", "a\\b", "/etc", "C:\\Windows", "C:secret", "\\\\host\\share", "//host/share", "a\0b", "a\nb", ".hidden", "trailing.", " a", "a ", "con", "NUL", "com1.yaml",
        "a:stream", "a*", "~", "%2e%2e", "a%2fb", "starter/../secret", "\u2024\u2024/x", new string('a', 200));

    [Theory]
    [MemberData(nameof(BadNames))]
    public void Names_ThatCouldLeadOut_OpenNothing_MakeNothing_AndWriteNothing(string name)
    {
        using OpenSortie sortie = shop.Open("starter");
        string outside = Path.Combine(Path.GetDirectoryName(shop.Root)!, "secret");
        Directory.CreateDirectory(outside);
        File.WriteAllText(Path.Combine(outside, "scenario.yaml"), "secret: yes\n");
        string[] before = [.. Directory.EnumerateFileSystemEntries(Path.GetDirectoryName(shop.Root)!, "*", SearchOption.AllDirectories).Order()];

        Assert.Null(shop.Folder.Open(name).Value);
        Assert.NotNull(shop.Folder.Create(name));
        foreach (string file in new[] { name, $"{name}.yaml", $"outlines/{name}", $"outlines/../{name}.yaml", $"outlines/{name}/x.yaml" })
            Assert.True(sortie.Apply(new ReplaceText(file, "secret: no\n"), "Ada", sortie.State.Revision) is Refused || SortieFiles.IsFileName(file), file);
        Assert.IsType<Refused>(sortie.Apply(new TakeOutline(name, "scenario: starter\npeople: {}\n"), "Ada", sortie.State.Revision));
        Assert.IsType<Refused>(sortie.Apply(new SetValue($"../secret/{name}", "secret", "no"), "Ada", sortie.State.Revision));
        Assert.IsType<Refused>(sortie.Choose(name));
        Assert.Null(sortie.Ask($"with {name}", 1, 1, TestContext.Current.CancellationToken).Answer);
        Assert.Null(sortie.Compare("first", name).Comparison);

        Assert.Equal("secret: yes\n", File.ReadAllText(Path.Combine(outside, "scenario.yaml")));
        Assert.Equal(before, Directory.EnumerateFileSystemEntries(Path.GetDirectoryName(shop.Root)!, "*", SearchOption.AllDirectories).Order());
    }

    [Fact]
    public void Links_OfEveryKind_AreNeitherReadNorWritten()
    {
        using (OpenSortie sortie = shop.Open("starter")) Assert.NotNull(sortie.State.Plan);
        string outside = Path.Combine(Path.GetDirectoryName(shop.Root)!, "outside"), inside = Path.Combine(shop.Root, "starter");
        Copy(inside, outside);
        string secret = Path.Combine(outside, "jobs.yaml"), text = File.ReadAllText(secret);

        // A scenario that is a link.
        Directory.CreateSymbolicLink(Path.Combine(shop.Root, "linked"), outside);
        Assert.Equal("file.link", Assert.Single(shop.Folder.Open("linked").Problems).Code);
        Assert.DoesNotContain(shop.Folder.Scenarios(), card => card.Name == "linked");

        // A file that is one, and an outline, and the folder of outlines.
        foreach (string link in new[] { "jobs.yaml", "elements.omm", "outlines/second.yaml", "outlines" })
        {
            string name = $"with-{link.Replace('/', '-').Replace('.', '-')}", folder = Path.Combine(shop.Root, name), path = Path.Combine(folder, link);
            Copy(inside, folder);
            if (link == "outlines") Directory.Delete(path, recursive: true);
            else File.Delete(path);
            if (link == "outlines") Directory.CreateSymbolicLink(path, Path.Combine(outside, "outlines"));
            else File.CreateSymbolicLink(path, secret);
            using OpenSortie sortie = Folders.Good(shop.Folder.Open(name));
            Assert.Equal("file.link", Assert.Single(sortie.State.Problems).Code);
            Assert.Null(sortie.State.Scenario);
            Assert.DoesNotContain(sortie.State.Files, file => file.Name == link || (link == "outlines" && file.IsOutline));
            Assert.IsType<Refused>(sortie.Apply(new ReplaceText(link == "outlines" ? "outlines/first.yaml" : link, "x: 1\n"), "Ada", sortie.State.Revision));
            Assert.Equal(CardState.Broken, shop.Folder.Scenarios().Single(card => card.Name == name).State);
        }
        Assert.Equal(text, File.ReadAllText(secret));

        // One that appears while the scenario is open.
        using OpenSortie open = shop.Open("starter");
        File.Delete(shop.PathOf(open, "jobs.yaml"));
        File.CreateSymbolicLink(shop.PathOf(open, "jobs.yaml"), secret);
        Assert.IsNotType<Accepted>(open.Apply(new SetValue("jobs.yaml", "jobs/0/title", "x"), "Ada", open.State.Revision));
        Assert.Equal("file.link", Assert.Single(open.State.Problems).Code);
        Assert.Equal(text, File.ReadAllText(secret));
        Assert.DoesNotContain(open.State.Problems, problem => problem.ToString().Contains(shop.Root, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Create_FromTheStarter_IsThere_AndCardsTellHowItStands()
    {
        Assert.Empty(shop.Folder.Scenarios());
        Assert.Null(shop.Folder.Create("islet"));
        Assert.NotNull(shop.Folder.Create("islet"));
        ScenarioCard made = Assert.Single(shop.Folder.Scenarios());
        Assert.Equal(("islet", CardState.NotProven, (string?)null), (made.Name, made.State, made.Outline));
        using (OpenSortie empty = Folders.Good(shop.Folder.Open("islet")))
        {
            Assert.Null(empty.State.Plan);
            Assert.Equal(Proving.Nothing, (await empty.Whole(TestContext.Current.CancellationToken)).Proving);
            Assert.Contains("no outline", Assert.IsType<Refused>(empty.Apply(new Unpin(new("x/y")), "Ada", empty.State.Revision)).Why);
        }
        using (OpenSortie sortie = shop.Open("starter")) Assert.Equal(CardState.Clean, (await shop.Folder.Look("starter", TestContext.Current.CancellationToken))!.State);
        Assert.Equal((CardState.Clean, "first"), shop.Folder.Scenarios().Where(card => card.Name == "starter").Select(card => (card.State, card.Outline!)).Single());
        // A change makes what was known of it void.
        File.AppendAllText(Path.Combine(shop.Root, "starter", "outlines", "first.yaml"), "# a word\n");
        Assert.Equal(CardState.NotProven, shop.Folder.Scenarios().Single(card => card.Name == "starter").State);
        Assert.Null(await shop.Folder.Look("nowhere", TestContext.Current.CancellationToken));
    }

    private static void Copy(string from, string to)
    {
        foreach (string path in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            string target = Path.Combine(to, Path.GetRelativePath(from, path));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(path, target);
        }
    }
}
