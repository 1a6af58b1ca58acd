using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>The demos with their files damaged at random: scenario files, outlines, timelines. Whatever comes of it, nothing crashes, nobody
/// waits, every refusal says where, and nothing is written.</summary>
/// <remarks>20 s with one seed. <c>SALLYPORT_FUZZ_SECONDS</c> makes it longer, <c>SALLYPORT_FUZZ_SEED</c> another one,
/// <c>SALLYPORT_FUZZ_CASE</c> repeats one case of a seed.</remarks>
public sealed class FuzzTests
{
    private const int FirstSeed = 20_310_514, FewestCases = 50;

    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(2);

    private static int Wish(string name, int without) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out int wished) ? wished : without;

    [Fact]
    public void Demo_Damaged_IsRefusedWithItsPlaceOrUsedAsItIs()
    {
        int seed = Wish("SALLYPORT_FUZZ_SEED", FirstSeed), only = Wish("SALLYPORT_FUZZ_CASE", -1);
        TimeSpan time = TimeSpan.FromSeconds(Wish("SALLYPORT_FUZZ_SECONDS", 20));
        using TemporaryFolder temporary = new();
        ImmutableArray<Demo> demos = [.. Demo.All(temporary.Path)];
        int cases = 0, refused = 0, judged = 0;
        if (only >= 0) Case(only);
        else
            for (Stopwatch clock = Stopwatch.StartNew(); clock.Elapsed < time || cases < FewestCases;) Case(cases);
        // Damage that the reader never sees, or always, would show nothing.
        if (only < 0) Assert.True(refused > cases / 4 && judged > 0, $"of {cases} cases {refused} were refused and {judged} judged");
        TestContext.Current.SendDiagnosticMessage($"{cases} cases, {refused} refused, {judged} judged");

        void Case(int number)
        {
            cases++;
            Random random = new(unchecked(seed * 1_000_003 + number));
            Demo demo = demos[random.Next(demos.Length)];
            string file = demo.Files[random.Next(demo.Files.Length)];
            byte[] whole = File.ReadAllBytes(file), damaged = Damage.Do(random, whole);
            string name = $"case {number} of seed {seed}: {Path.GetRelativePath(temporary.Path, file)}";
            try
            {
                File.WriteAllBytes(file, damaged);
                string before = demo.Content();
                (ImmutableArray<Problem> problems, bool ok) = (default, false);
                TimeSpan took = Patience.TimeOf(() => (problems, ok) = demo.Use(asIs: random.Next(2) == 0), name);
                Assert.True(took < Longest, $"{name} took {took.TotalSeconds:0.0} s");
                Assert.True(ok != problems.Length > 0, $"{name} gave {problems.Length} problems and {(ok ? "a result" : "no result")}");
                foreach (Problem problem in problems) AssertPlaced(problem, demo, name);
                Assert.True(before == demo.Content(), $"{name}: something was written");
                if (ok) judged++;
                else refused++;
            }
            finally
            {
                File.WriteAllBytes(file, whole);
            }
        }
    }

    // A place in a file that is there, or a file or the folder as a whole; and in any case what to do.
    private static void AssertPlaced(Problem problem, Demo demo, string name)
    {
        string told = $"{name}:\n{problem}";
        Assert.True(problem.File == demo.Folder || problem.File.StartsWith(demo.Folder + Path.DirectorySeparatorChar, StringComparison.Ordinal), told);
        Assert.True(problem.Fix.Length > 0 && problem.Found.Length > 0 && problem.Expected.Length > 0 && problem.Code.Contains('.'), told);
        Assert.Equal(problem.Line > 0, problem.Column > 0);
        if (problem.Line == 0) return;
        string[] lines = Encoding.UTF8.GetString(File.ReadAllBytes(problem.File)).Replace("\r\n", "\n").Replace('\r', '\n').Split('\n');
        Assert.True(problem.Line <= lines.Length + 1, told);
        if (problem.Line <= lines.Length) Assert.True(problem.Column <= lines[problem.Line - 1].Length + 2, told);
    }

    /// <summary>A copy of a demo, and what is done with it: it is opened, and its outline and timeline judged when it has them.</summary>
    private sealed record Demo(string Folder, ImmutableArray<string> Files, string? Outline, string? Timeline)
    {
        public static IEnumerable<Demo> All(string root)
        {
            string starter = Path.Combine(root, "starter");
            Assert.Null(NewScenario.Write(starter).Problem);
            SortieDesk desk = Folders.Good(SortieDesk.Open(starter));
            ProvenPlan plan = desk.Plan("plan", effort: 1, seed: 1, from: null, _ => { }, CancellationToken.None).Plan!;
            string outline = Path.Combine(Directory.CreateDirectory(Path.Combine(starter, "outlines")).FullName, "plan.yaml"), timeline = Path.Combine(starter, "timeline.json");
            File.WriteAllText(outline, OutlineFile.Write(plan.Outline!));
            File.WriteAllBytes(timeline, PlanFiles.ToJson(plan.Likely));
            yield return Of(starter, outline, timeline);
            foreach (string demo in Directory.GetDirectories(RepositoryFolder.Of("scenarios")).Order(StringComparer.Ordinal))
            {
                string folder = Directory.CreateDirectory(Path.Combine(root, Path.GetFileName(demo))).FullName;
                foreach (string path in Directory.GetFiles(demo)) File.Copy(path, Path.Combine(folder, Path.GetFileName(path)));
                string byHand = Path.Combine(demo, "outlines", "by-hand.yaml"), copy = Path.Combine(folder, "outlines", "by-hand.yaml");
                if (File.Exists(byHand))
                {
                    Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
                    File.Copy(byHand, copy);
                }
                yield return Of(folder, File.Exists(copy) ? copy : null, null);
            }
        }

        /// <summary>Every problem that came up, and whether something was read or judged to its end.</summary>
        public (ImmutableArray<Problem> Problems, bool Ok) Use(bool asIs)
        {
            ReadResult<SortieDesk> opened = SortieDesk.Open(Folder);
            if (opened.Value is not { } desk) return (opened.Problems, false);
            Assert.Empty(opened.Problems);
            List<CheckOutcome> outcomes = [];
            if (Outline is not null) outcomes.Add(desk.Check(Outline, asIs));
            if (Timeline is not null) outcomes.Add(desk.CheckTimeline(Timeline));
            ImmutableArray<Problem> problems = [.. outcomes.SelectMany(outcome => outcome.Problems)];
            Assert.All(outcomes, outcome => Assert.Equal(outcome.Plan is null, outcome.Problems.Length > 0));
            return (problems, problems.Length == 0);
        }

        public string Content() =>
            string.Join('\n', Directory.EnumerateFileSystemEntries(Folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
                .Select(path => File.Exists(path) ? $"{path} {Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(path)))}" : path));

        private static Demo Of(string folder, string? outline, string? timeline) =>
            new(folder, [.. Directory.GetFiles(folder), .. new[] { outline, outline, timeline }.OfType<string>()], outline, timeline);
    }
}
