using System.Net;
using System.Security.Cryptography;

namespace Sallyport.Tests.Web;

/// <summary>What the program asks of itself before it tells its address: it draws what somebody will open, changes nothing and lets nobody in.</summary>
public sealed class RehearsalTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task FirstPage_DrawsThePageWorkedOnLast_AndWritesNothing(bool signIn)
    {
        await using RunningDesk desk = await RunningDesk.Start(["tern", "skerry-short"], signIn);
        string[] before = Written(desk);
        Assert.Equal([("/sortie/skerry-short", 200), ("/", 200), ("/nothing-here", 200)], await desk.Rehearse());
        Assert.Equal(before, Written(desk));
        Assert.False(Directory.Exists(desk.OutFolder));
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/sortie/skerry-short")]
    [InlineData("/sortie/skerry-short/range.svg")]
    public async Task AfterIt_WhoeverHasNotSignedIn_IsSentToSignIn(string path)
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"], signIn: true);
        await desk.Rehearse();
        HttpResponseMessage answer = await desk.Client().GetAsync(path, Stop);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.StartsWith("/sign-in", answer.Headers.Location!.IsAbsoluteUri ? answer.Headers.Location.AbsolutePath : answer.Headers.Location.OriginalString, StringComparison.Ordinal);
        Assert.False(answer.Headers.Contains("Set-Cookie"));
    }

    [Fact]
    public async Task ScenarioThatCannotBeRead_HasAPageThatSaysSo()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        await File.WriteAllTextAsync(Path.Combine(desk.Folder, "skerry-short", "station.yaml"), "nodes: [", Stop);
        Assert.Equal([("/sortie/skerry-short", 200), ("/", 200), ("/nothing-here", 200)], await desk.Rehearse());
    }

    [Fact]
    public async Task FolderWithoutScenarios_LeavesTheList()
    {
        await using RunningDesk desk = await RunningDesk.Start();
        Assert.Equal([("/", 200), ("/nothing-here", 200)], await desk.Rehearse());
    }

    // Names, times and content of all there is.
    private static string[] Written(RunningDesk desk) => [.. new DirectoryInfo(desk.Folder).EnumerateFiles("*", SearchOption.AllDirectories).OrderBy(file => file.FullName, StringComparer.Ordinal)
        .Select(file => $"{file.FullName} {file.LastWriteTimeUtc:O} {Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(file.FullName)))}")];
}
