using System.Diagnostics;

namespace Sallyport.Desk.Tests;

public sealed class KilledSaveTests
{
    private const int Times = 110;

    [Fact]
    public void Save_KilledManyTimesAtRandomMoments_LeavesOneWholeVersion()
    {
        using Workshop shop = new();
        string folder;
        using (OpenSortie sortie = shop.Open("starter")) folder = Path.Combine(shop.Root, sortie.Name);
        string path = Path.Combine(folder, SaveLoop.File);
        File.WriteAllBytes(path, SaveLoop.Version(0));
        Random random = new(42);
        HashSet<int> left = [];
        HashSet<string> halves = [];
        // A few more, should none have fallen into the middle of a write.
        for (int time = 0; time < Times || (halves.Count == 0 && time < 8 * Times); time++)
        {
            ProcessStartInfo start = new(Environment.ProcessPath!) { RedirectStandardOutput = true, UseShellExecute = false };
            if (Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet") start.ArgumentList.Add(typeof(SaveLoop).Assembly.Location);
            start.Environment[SaveLoop.Variable] = folder;
            start.Environment["DOTNET_TieredPGO"] = "0";
            using Process child = Process.Start(start)!;
            Assert.Equal("saving", child.StandardOutput.ReadLine());
            Thread.Sleep(random.Next(0, 12));
            // SIGKILL where there are signals: nothing of the program runs after it.
            child.Kill();
            child.WaitForExit();

            int? version = SaveLoop.VersionOf(File.ReadAllBytes(path));
            Assert.NotNull(version);
            left.Add(version.Value);
            halves.UnionWith(Directory.GetFiles(folder, "*.part").Where(file => SaveLoop.VersionOf(File.ReadAllBytes(file)) is null));
        }
        Assert.True(left.Count > Times / 2, $"only {left.Count} different versions were left: the kills did not come between saves");
        // Kills did fall into the middle of a save, or this would show nothing.
        Assert.True(halves.Count > 0, "no kill fell into the middle of a write");
        TestContext.Current.TestOutputHelper?.WriteLine($"{Times} kills, {left.Count} versions left, {halves.Count} half-written temporary files, {Directory.GetFiles(folder, "*.part").Length} temporary files in all");

        // What is left of them troubles nobody, and is taken away once it cannot be anybody's save any more.
        foreach (string file in Directory.GetFiles(folder, "*.part")) File.SetLastWriteTimeUtc(file, DateTime.UtcNow.AddHours(-1));
        string mine = Path.Combine(folder, "notes.part"), fresh = Path.Combine(folder, $"jobs.yaml.{Guid.NewGuid():N}.part");
        File.WriteAllText(mine, "a person's");
        File.SetLastWriteTimeUtc(mine, DateTime.UtcNow.AddHours(-1));
        File.WriteAllText(fresh, "somebody saves just now");
        using OpenSortie again = shop.Open("starter");
        Assert.Equal([fresh, mine], Directory.GetFiles(folder, "*.part").Order());
        Assert.DoesNotContain(again.State.Files, file => file.Name.EndsWith(".part", StringComparison.Ordinal));
    }
}
