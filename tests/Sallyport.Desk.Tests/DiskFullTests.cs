using System.Diagnostics;

namespace Sallyport.Desk.Tests;

/// <summary>A disk that fills up while writing: a small one of its own in memory, where this user may mount one.</summary>
public sealed class DiskFullTests : IDisposable
{
    private readonly TemporaryFolder temporary = new();
    private readonly string disk;
    private readonly bool mounted;

    public DiskFullTests()
    {
        disk = Directory.CreateDirectory(Path.Combine(temporary.Path, "disk")).FullName;
        mounted = OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess && Run("mount", "-t", "tmpfs", "-o", "size=512k", "tmpfs", disk);
    }

    public void Dispose()
    {
        if (mounted) Assert.True(Run("umount", disk));
        temporary.Dispose();
    }

    private void NeedsDisk() => Assert.SkipUnless(mounted, "no small disk can be mounted by this user");

    private Dictionary<string, string> Content() => Directory.EnumerateFiles(disk, "*", SearchOption.AllDirectories).ToDictionary(path => Path.GetRelativePath(disk, path), File.ReadAllText);

    [Fact]
    public void WriteAll_OnADiskThatFillsUp_LeavesEverythingAsItWas()
    {
        NeedsDisk();
        Assert.Null(PlanFiles.WriteAll(disk, [("a.txt", Folders.Bytes("old a"))]));
        Problem? problem = PlanFiles.WriteAll(disk, [("a.txt", Folders.Bytes("new a")), ("b.txt", new byte[800_000])]);
        Assert.Equal("file.unwritable", problem?.Code);
        Assert.Equal(new() { ["a.txt"] = "old a" }, Content());
        // The same with room for it goes through.
        Assert.Null(PlanFiles.WriteAll(disk, [("a.txt", Folders.Bytes("new a")), ("b.txt", new byte[4_000])]));
        Assert.Equal("new a", Content()["a.txt"]);
    }

    [Fact]
    public void NewScenario_OnADiskThatFillsUp_LeavesNothing()
    {
        NeedsDisk();
        // The schemas fit in what is left, and the scenario's files do not.
        int schemas = Schemas.Files().Sum(file => (file.Content.Length + 4095) / 4096 * 4096);
        File.WriteAllBytes(Path.Combine(disk, "full"), new byte[512 * 1024 - schemas - 8192]);
        Assert.Equal("file.unwritable", NewScenario.Write(Path.Combine(disk, "deep", "islet")).Problem?.Code);
        Assert.Equal(["full"], Directory.EnumerateFileSystemEntries(disk).Select(Path.GetFileName));
        File.Delete(Path.Combine(disk, "full"));
        Assert.Null(NewScenario.Write(Path.Combine(disk, "deep", "islet")).Problem);
    }

    [Fact]
    public void OutlineSaved_OnADiskThatFillsUp_KeepsTheOneBefore()
    {
        NeedsDisk();
        Assert.True(OutlineFile.Save(disk, "plan", "scenario: a\npeople: {}\n").Ok);
        Dictionary<string, string> before = Content();
        ReadResult<SavedOutline> result = OutlineFile.Save(disk, "plan", "scenario: a\npeople: {}\n" + string.Concat(Enumerable.Repeat("# more\n", 120_000)));
        Assert.Equal("file.unwritable", Assert.Single(result.Problems).Code);
        Assert.Equal(before, Content());
    }

    // The pages fit, the walk-through does not: of a briefing nothing new is left, and the one before is as it was.
    [Fact]
    public void Briefing_OnADiskThatFillsUp_LeavesTheOneBefore()
    {
        NeedsDisk();
        SortieDesk desk = Folders.Good(SortieDesk.Open(Folders.SkerryShort));
        ProvenPlan plan = desk.Check(null, asIs: true).Plan!;
        string folder = Directory.CreateDirectory(Path.Combine(disk, "skerry-short", plan.Name, "brief")).FullName;
        foreach (string name in new[] { "sortie.pdf", "changes.pdf" }) File.WriteAllText(Path.Combine(folder, name), "of the briefing before");
        Dictionary<string, string> before = Content();
        (var written, _, Problem? problem) = desk.WriteBriefing(plan, disk, Briefings.Options);
        Assert.Equal("file.unwritable", problem?.Code);
        Assert.Empty(written);
        Assert.Equal(before, Content());
        // Where there was no briefing no folder is left either.
        Assert.Equal("file.unwritable", desk.WriteBriefing(plan, Path.Combine(disk, "other"), Briefings.Options).Problem?.Code);
        Assert.False(Directory.Exists(Path.Combine(disk, "other")));
    }

    private static bool Run(string program, params string[] arguments)
    {
        try
        {
            using Process process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
            process.WaitForExit();
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
