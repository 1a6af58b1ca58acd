using System.Text;

namespace Sallyport.Desk.Tests;

/// <summary>Sets of files: all of them, or none.</summary>
public sealed class WriteAllTests
{
    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    [Fact]
    public void Files_Written_AreThereWithNothingBeside()
    {
        using TemporaryFolder folder = new();
        string target = Path.Combine(folder.Path, "out", "x");
        Assert.Null(PlanFiles.WriteAll(target, [("a.json", Bytes("1")), ("b.txt", Bytes("2"))]));
        Assert.Null(PlanFiles.WriteAll(target, [("a.json", Bytes("3"))]));
        Assert.Equal(["a.json", "b.txt"], Directory.GetFiles(target).Select(Path.GetFileName).Order());
        Assert.Equal("3", File.ReadAllText(Path.Combine(target, "a.json")));
    }

    [Fact]
    public void Files_OneThatCannotBeReplaced_LeavesAllAsTheyWere()
    {
        using TemporaryFolder folder = new();
        File.WriteAllText(Path.Combine(folder.Path, "a.json"), "old");
        // A folder stands where the third file should go.
        Directory.CreateDirectory(Path.Combine(folder.Path, "c.json"));
        Problem? problem = PlanFiles.WriteAll(folder.Path, [("a.json", Bytes("new")), ("b.json", Bytes("new")), ("c.json", Bytes("new"))]);
        Assert.Equal((folder.Path, "file.unwritable"), (problem!.File, problem.Code));
        Assert.Equal("check the folder, its permissions and the room on the disk, or write elsewhere. Nothing was changed.", problem.Fix);
        Assert.Equal("old", File.ReadAllText(Path.Combine(folder.Path, "a.json")));
        Assert.Equal(["a.json"], Directory.GetFiles(folder.Path).Select(Path.GetFileName));
    }

    [Fact]
    public void Folder_UnderAFile_CannotBeWritten()
    {
        using TemporaryFolder folder = new();
        string file = Path.Combine(folder.Path, "taken");
        File.WriteAllText(file, "x");
        Problem? problem = PlanFiles.WriteAll(Path.Combine(file, "out"), [("a.json", Bytes("1"))]);
        Assert.Equal("file.unwritable", problem!.Code);
        Assert.Equal("x", File.ReadAllText(file));
    }
}
