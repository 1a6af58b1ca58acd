using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Questions read from the words of a call.</summary>
public sealed class QuestionTests
{
    private static readonly Scenario Short = Folders.Good(ScenarioReader.Read(Folders.SkerryShort));

    [Theory]
    [InlineData("why-out latch", "latch is done")]
    [InlineData("if latch done", "latch is done")]
    [InlineData("if latch first", "latch is what its doer begins with")]
    [InlineData("if latch/free by EV1 and latch/look at 0:40", "EV1 does latch/free; latch/look begins at 0:40")]
    public void Read_AQuestion_IsItsWishes(string words, string wishes)
    {
        Question question = Folders.Good(Question.Read(words.Split(' '), Short));
        Assert.Equal(wishes, string.Join("; ", question.Wishes.Select(wish => wish.Text)));
        Assert.Equal(words.StartsWith("why", StringComparison.Ordinal), question.WhyOut is not null);
    }

    [Theory]
    [InlineData("why-out", "question.job", "no job named", null)]
    [InlineData("why-out lach", "question.job", "'lach'", "latch")]
    [InlineData("why-out latch please", "question.form", "'please' after the question", null)]
    [InlineData("wy-out latch", "question.form", "'wy-out'", "why-out")]
    [InlineData("if latch", "question.form", "nothing said of latch", null)]
    [InlineData("if latch frist", "question.form", "'frist'", "first")]
    [InlineData("if latch by EV9", "question.person", "'EV9'", "EV1")]
    [InlineData("if latch by IV", "question.person", "'IV'", null)]
    [InlineData("if latch at noon", "question.pet", "'noon'", null)]
    [InlineData("if latch before latch", "question.form", "'latch' before itself", null)]
    [InlineData("if latch first or last", "question.form", "'or' after a wish", null)]
    [InlineData("if latch first and", "question.job", "no job named", null)]
    [InlineData("with", "question.form", "no file", null)]
    public void Read_WordsThatAreNoQuestion_SayWhatIsWrong(string words, string code, string found, string? nearest)
    {
        Problem problem = Assert.Single(Question.Read(words.Split(' '), Short).Problems);
        Assert.Equal((code, found), (problem.Code, problem.Found));
        if (nearest is not null) Assert.Equal(nearest, problem.Nearest);
        Assert.NotEmpty(problem.Fix);
    }

    [Fact]
    public void Read_PinsOfAFile_AreWishes()
    {
        using TemporaryFolder folder = new();
        string file = Path.Combine(folder.Path, "pins.yaml"), text = File.ReadAllText(Path.Combine(Folders.SkerryShort, "outlines", "by-hand.yaml"));
        Assert.Contains("{leg: latch/free", text);
        File.WriteAllText(file, text.Replace("{leg: latch/free", "{leg: latch/free, at: \"0:25\", who: pinned", StringComparison.Ordinal));
        Question question = Folders.Good(Question.Read(["with", file], Short));
        Assert.Equal(["latch/free begins at 0:25", "EV1 does latch/free"], question.Wishes.Select(wish => wish.Text));
        File.WriteAllText(file, text);
        Assert.Contains("no pin", Assert.Single(Question.Read(["with", file], Short).Problems).Found);
    }
}
