namespace Sallyport.Desk.Tests;

public sealed class RulesPageTests
{
    [Fact]
    public void RulesPage_Committed_IsWhatTheCodeSays()
    {
        string committed = File.ReadAllText(RepositoryFolder.Of("docs", "rules.md")).ReplaceLineEndings("\n");

        Assert.Equal(RuleText.Page(), committed);
    }
}
