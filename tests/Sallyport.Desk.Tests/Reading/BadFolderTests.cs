using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Folders that are links, and files in them that are none, or cannot be read, or are gone by the time they are read.</summary>
public sealed class BadFolderTests
{
    private static string Copy(TemporaryFolder temporary)
    {
        string folder = Directory.CreateDirectory(Path.Combine(temporary.Path, "short")).FullName;
        foreach (string path in Directory.GetFiles(Folders.SkerryShort, "*.yaml")) File.Copy(path, Path.Combine(folder, Path.GetFileName(path)));
        return folder;
    }

    private static string[] Told(string folder) =>
        [.. ScenarioReader.Read(folder).Problems.Select(problem => $"{Path.GetRelativePath(folder, problem.File)}:{problem.Line}:{problem.Column} {problem.Code}")];

    // A link is followed, once, by the system: what is read is what it leads to, under the name that the user gave.
    [Fact]
    public void Folder_ThatIsALink_IsReadAsWhatItLeadsTo()
    {
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary), link = Path.Combine(temporary.Path, "link");
        Directory.CreateSymbolicLink(link, folder);
        Assert.Equal(StructureText.Of(Folders.Good(ScenarioReader.Read(folder))), StructureText.Of(Folders.Good(ScenarioReader.Read(link))));
        File.WriteAllText(Path.Combine(folder, "zz.yaml"), "zz: 1\n");
        Assert.Equal(Path.Combine(link, "zz.yaml"), Assert.Single(ScenarioReader.Read(link).Problems).File);
    }

    [Fact]
    public void Folder_ThatIsALinkToItself_IsTold()
    {
        using TemporaryFolder temporary = new();
        string link = Path.Combine(temporary.Path, "link");
        Directory.CreateSymbolicLink(link, link);
        Assert.Equal([".:0:0 folder.missing"], Told(link));
    }

    [Fact]
    public void Folder_WithALinkToAboveItself_IsReadOnce()
    {
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary);
        Directory.CreateSymbolicLink(Path.Combine(folder, "inner"), temporary.Path);
        Assert.Empty(Told(folder));
    }

    [Fact]
    public void File_ThatIsALink_IsReadAsWhatItLeadsTo()
    {
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary), jobs = Path.Combine(folder, "jobs.yaml"), elsewhere = Path.Combine(temporary.Path, "elsewhere");
        File.Move(jobs, elsewhere);
        File.CreateSymbolicLink(jobs, elsewhere);
        Assert.Empty(Told(folder));
    }

    // Listed, and gone when it is opened: the same as a link that leads nowhere. What it would have held is not guessed at.
    [Fact]
    public void File_GoneByTheTimeItIsRead_IsToldAndNothingElse()
    {
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary), station = Path.Combine(folder, "station.yaml");
        File.Delete(station);
        File.CreateSymbolicLink(station, Path.Combine(folder, "gone"));
        Assert.Equal(["station.yaml:0:0 file.unreadable"], Told(folder));
    }

    [Fact]
    public void File_ThatIsALinkToItself_IsToldAndNothingElse()
    {
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary), jobs = Path.Combine(folder, "jobs.yaml");
        File.Delete(jobs);
        File.CreateSymbolicLink(jobs, jobs);
        Assert.Equal(["jobs.yaml:0:0 file.unreadable"], Told(folder));
    }

    [Fact]
    public void File_WithoutPermission_IsToldAndNothingElse()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows() || Environment.IsPrivilegedProcess, "this user may read every file");
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary), jobs = Path.Combine(folder, "jobs.yaml");
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(jobs, UnixFileMode.None);
        Assert.Equal(["jobs.yaml:0:0 file.unreadable"], Told(folder));
    }

    [Fact]
    public void File_ThatIsAFolder_IsNoted()
    {
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary), jobs = Path.Combine(folder, "jobs.yaml");
        File.Delete(jobs);
        Directory.CreateDirectory(jobs);
        ReadResult<Scenario> result = ScenarioReader.Read(folder);
        Assert.Equal("section.missing", Assert.Single(result.Problems).Code);
        Assert.Equal($"{jobs} was not read: it is a folder.", Assert.Single(result.Notes));
    }

    [Fact]
    public void File_WithoutEnd_IsToldAsTooLarge()
    {
        Assert.SkipUnless(File.Exists("/dev/zero"), "there is no endless file here");
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary);
        File.CreateSymbolicLink(Path.Combine(folder, "zero.yaml"), "/dev/zero");
        Assert.Equal(["zero.yaml:0:0 file.large"], Told(folder));
    }

    [Fact]
    public void File_OfFiftyMegabytes_IsToldAndNotRead()
    {
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary);
        using (FileStream large = File.Create(Path.Combine(folder, "large.yaml"))) large.SetLength(50_000_000);
        long before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Equal(["large.yaml:0:0 file.large"], Told(folder));
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 20_000_000);
    }

    // Every thing of two files that both define it is told at the second place, and with the first.
    [Fact]
    public void Things_InTwoFiles_AreToldWithBothPlaces()
    {
        using TemporaryFolder temporary = new();
        string folder = Copy(temporary);
        File.WriteAllText(Path.Combine(folder, "zz.yaml"), """
            gear:
            - {id: driver, title: Driver, kind: tool, size: small, mass: 2 kg, volume: 2 L, start: inside}
            grips:
            - {id: lock, at: "0, 0, 1.5 m"}
            """);
        ImmutableArray<Problem> problems = ScenarioReader.Read(folder).Problems;
        Assert.Equal(["zz.yaml:2:8 name.twice", "zz.yaml:4:8 name.twice"], Told(folder));
        Assert.Equal($"the gear item 'driver' again; the first stands at {folder}/gear.yaml:9:8".Replace('/', Path.DirectorySeparatorChar), problems[0].Found.Replace('/', Path.DirectorySeparatorChar));
    }
}
