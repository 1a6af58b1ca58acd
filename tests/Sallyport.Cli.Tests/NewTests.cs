using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary><c>new</c> and <c>schema</c>, as a user calls them.</summary>
public sealed class NewTests : IDisposable
{
    private readonly Workplace place = new();

    public void Dispose() => place.Dispose();

    [Fact]
    public void New_ThenPlan_IsClean()
    {
        string shown = place.Run("new", "islet").Ended(0).Out;
        Assert.StartsWith(Caution.Text, shown);
        Assert.EndsWith("Next: sallyport plan islet\n", shown);
        Assert.All(shown.Split('\n').Where(line => line.StartsWith("  ", StringComparison.Ordinal)), line => Assert.True(File.Exists(place.PathOf(line.Trim())), line));
        Assert.Contains("2 of 2 jobs", place.Run("plan", "islet", "--effort", "1").Ended(0).ShowedPlan().Out);
    }

    [Fact]
    public void New_OverSomething_EndsWithTwoAndChangesNothing()
    {
        place.Write("islet/notes.txt", "mine");
        SortedDictionary<string, string> before = place.Files();
        Assert.Contains("folder.filled", place.Run("new", "islet").Ended(2).Err);
        Assert.Equal(before, place.Files());
    }

    [Fact]
    public void Schema_IntoAFolder_WritesBoth()
    {
        Assert.StartsWith(Caution.Text, place.Run("schema", "deep/schema").Ended(0).Out);
        Assert.Equal(["deep/schema/outline.schema.json", "deep/schema/scenario.schema.json"], place.Files().Keys.Select(name => name.Replace('\\', '/')));
    }

    [Fact]
    public void Schema_WhereAFileIs_EndsWithTwo()
    {
        place.Write("schema", "mine");
        Assert.Contains("file.unwritable", place.Run("schema", "schema").Ended(2).Err);
        Assert.Equal("mine", place.Read("schema"));
    }
}
