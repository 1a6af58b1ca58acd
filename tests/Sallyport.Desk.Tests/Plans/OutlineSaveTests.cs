using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Saving outlines: what a person has edited stays.</summary>
public sealed class OutlineSaveTests
{
    private const string First = "scenario: a\npeople: {}\n", Second = "scenario: b\npeople: {}\n";

    [Fact]
    public void Outline_NotEdited_IsWrittenOver()
    {
        using TemporaryFolder folder = new();
        SavedOutline first = Folders.Good(OutlineFile.Save(folder.Path, "best", First)), second = Folders.Good(OutlineFile.Save(folder.Path, "best", Second));
        Assert.Equal(("best", null), (first.Name, first.Note));
        Assert.Equal(first, second);
        Assert.Single(Directory.GetFiles(folder.Path));
        Assert.EndsWith(Second, File.ReadAllText(second.Path));
    }

    [Fact]
    public void Outline_WithOtherLineEnds_CountsAsNotEdited()
    {
        using TemporaryFolder folder = new();
        SavedOutline saved = Folders.Good(OutlineFile.Save(folder.Path, "best", First));
        File.WriteAllText(saved.Path, File.ReadAllText(saved.Path).Replace("\n", "\r\n"));
        Assert.False(OutlineFile.IsEdited(saved.Path));
    }

    [Fact]
    public void Outline_Edited_StaysAndTheNextFreeNameIsTaken()
    {
        using TemporaryFolder folder = new();
        string path = Folders.Good(OutlineFile.Save(folder.Path, "best", First)).Path;
        File.AppendAllText(path, "# mine\n");
        string edited = File.ReadAllText(path);
        SavedOutline next = Folders.Good(OutlineFile.Save(folder.Path, "best", Second));
        Assert.Equal("best-2", next.Name);
        Assert.Equal($"{path} has been edited since it was written, or was written by hand, and stays as it is; the new outline is {next.Path}.", next.Note);
        Assert.Equal(edited, File.ReadAllText(path));
        // best-2 was not edited, so it is written over; once edited, best-3 is next.
        Assert.Equal("best-2", Folders.Good(OutlineFile.Save(folder.Path, "best", First)).Name);
        File.AppendAllText(next.Path, "# mine too\n");
        Assert.Equal("best-3", Folders.Good(OutlineFile.Save(folder.Path, "best", First)).Name);
    }

    [Fact]
    public void Outline_WrittenByHand_Stays()
    {
        using TemporaryFolder folder = new();
        string path = Path.Combine(folder.Path, "by-hand.yaml");
        File.WriteAllText(path, First);
        Assert.Equal("by-hand-2", Folders.Good(OutlineFile.Save(folder.Path, "by-hand", Second)).Name);
        Assert.Equal(First, File.ReadAllText(path));
    }

    [Fact]
    public void Outline_Saved_ReadsBack()
    {
        using TemporaryFolder folder = new();
        Outline outline = new(Folders.EveryKeyScenario.Id, null, null, [], [], [], [], null, []);
        SavedOutline saved = Folders.Good(OutlineFile.Save(Path.Combine(folder.Path, "new", "outlines"), "best", OutlineFile.Write(outline)));
        Assert.Equal(StructureText.Of(outline), StructureText.Of(Folders.Good(OutlineFile.Read(saved.Path, Folders.EveryKeyScenario))));
        Assert.Contains(Caution.Text, File.ReadAllText(saved.Path));
    }

    [Theory]
    [InlineData("../best")]
    [InlineData("a/b")]
    [InlineData("")]
    [InlineData(".hidden")]
    public void Name_NotPlain_IsRefused(string name)
    {
        using TemporaryFolder folder = new();
        Assert.Equal("file.name", Assert.Single(OutlineFile.Save(folder.Path, name, First).Problems).Code);
        Assert.Empty(Directory.GetFileSystemEntries(folder.Path));
    }

    [Fact]
    public void Folder_ThatIsAFile_IsTold()
    {
        using TemporaryFolder folder = new();
        string file = Path.Combine(folder.Path, "taken");
        File.WriteAllText(file, "x");
        Problem problem = Assert.Single(OutlineFile.Save(file, "best", First).Problems);
        Assert.Equal((file, "file.unwritable"), (problem.File, problem.Code));
        Assert.Equal("x", File.ReadAllText(file));
    }
}
