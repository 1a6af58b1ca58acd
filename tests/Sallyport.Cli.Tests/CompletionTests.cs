using System.Diagnostics;
using System.Globalization;
using Sallyport.Proof;

namespace Sallyport.Cli.Tests;

/// <summary>What the program offers to a shell, and the lines for bash that put it behind the tab key.</summary>
public sealed class CompletionTests : IDisposable
{
    private readonly Workplace place = new();

    public void Dispose() => place.Dispose();

    private string[] Offered(string line) =>
        place.Run(string.Create(CultureInfo.InvariantCulture, $"[suggest:{line.Length}]"), line).Ended(0).Out.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    [Fact]
    public void Line_Empty_OffersEveryCommand()
    {
        string[] offered = Offered("sallyport ");
        Assert.Empty(new[] { "plan", "check", "rules", "new", "schema" }.Except(offered));
    }

    [Fact]
    public void Line_WithTheStartOfACommand_OffersThoseThatBeginSo() => Assert.Equal(["schema"], Offered("sallyport sch"));

    [Fact]
    public void Rules_OfferTheirIds()
    {
        string[] offered = Offered("sallyport rules ");
        Assert.Empty(RuleBook.All.Select(rule => rule.Card.Id.Value).Except(offered));
        Assert.Equal(RuleBook.All.Select(rule => rule.Card.Id.Value).Where(id => id.StartsWith("return.", StringComparison.Ordinal)).Order(StringComparer.Ordinal), Offered("sallyport rules return."));
    }

    [Fact]
    public void Plan_OffersItsOptions() => Assert.Empty(new[] { "--effort", "--seed" }.Except(Offered("sallyport plan scenarios/skerry --")));

    [Theory]
    [InlineData("sallyport rules return.o", "return.o", "return.one")]
    [InlineData("sallyport ru", "ru", "rules")]
    [InlineData("sallyport plan scena", "scena", "")]
    public void Bash_WithTheLinesOfThePage_OffersTheSame(string line, string word, string expected)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "there is no bash to be sure of");
        string script = $$"""
            sallyport() { dotnet '{{Path.Combine(AppContext.BaseDirectory, "sallyport.dll")}}' "$@"; }
            {{BashOfThePage()}}
            COMP_LINE='{{line}}' COMP_POINT={{line.Length}}
            _sallyport sallyport '{{word}}' ''
            printf '%s\n' "${COMPREPLY[@]}"
            """;
        using Process bash = Process.Start(new ProcessStartInfo("bash", ["-c", script]) { RedirectStandardOutput = true })!;
        string offered = bash.StandardOutput.ReadToEnd();
        bash.WaitForExit();
        Assert.Equal(expected, offered.TrimEnd('\n'));
    }

    private static string BashOfThePage()
    {
        string page = File.ReadAllText(RepositoryFolder.Of("docs", "completion.md")).Replace("\r\n", "\n");
        int from = page.IndexOf("```bash\n", StringComparison.Ordinal) + "```bash\n".Length;
        return page[from..page.IndexOf("```", from, StringComparison.Ordinal)];
    }
}
