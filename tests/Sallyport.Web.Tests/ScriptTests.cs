using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Sallyport.Tests.Web;

/// <summary>The tests of what the page's script looks up by itself, run by Node: <c>src/Stage/test</c>.</summary>
public sealed partial class ScriptTests(ITestOutputHelper output)
{
    [Fact]
    public async Task Script_ItsOwnTests_AllPass()
    {
        string stage = RepositoryFolder.Of("src", "Stage"), place = Directory.CreateTempSubdirectory("sallyport-script-").FullName;
        try
        {
            string[] tests = [.. Directory.GetFiles(Path.Combine(stage, "test"), "*.test.ts").Order()];
            Assert.NotEmpty(tests);
            foreach (string test in tests)
                await Run(stage, Path.Combine(stage, "node_modules", "esbuild", "bin", "esbuild"), test, "--bundle", "--platform=node", "--format=esm", "--log-level=warning", $"--outfile={Path.Combine(place, Path.GetFileNameWithoutExtension(test) + ".mjs")}");
            string said = await Run(place, "--test", "--test-reporter=tap", place);
            output.WriteLine(said);
            // A runner that found nothing would end well too.
            Assert.True(int.Parse(Passed().Match(said).Groups[1].Value) >= tests.Length * 2, said);
        }
        finally
        {
            Directory.Delete(place, true);
        }
    }

    private static async Task<string> Run(string folder, params string[] arguments)
    {
        ProcessStartInfo start = new("node", arguments) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        Task<string> errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string said = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 0, said + await errors);
        return said;
    }

    [GeneratedRegex(@"# pass (\d+)")]
    private static partial Regex Passed();
}
