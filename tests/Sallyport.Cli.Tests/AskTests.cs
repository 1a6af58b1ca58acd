using Sallyport.Model;

namespace Sallyport.Cli.Tests;

/// <summary><c>ask</c>, and the options of <c>plan</c> that ask for more than one plan, on the walk that was worked by hand.</summary>
public sealed class AskTests : IDisposable
{
    private const string Short = "scenarios/skerry-short";

    private readonly Workplace place = new("skerry-short");

    public void Dispose() => place.Dispose();

    [Fact]
    public void Ask_WhatCanBe_IsPricedWithTheCautionAndNothingIsWritten()
    {
        var before = place.Files();
        Result result = place.Run("ask", Short, "if", "latch/free", "at", "0:25", "--effort", "1").Ended(0);
        Assert.Contains("The price: no value, 3 min 30 s later.", result.Out);
        Assert.EndsWith(Caution.Text + "\n", result.Out);
        Assert.Equal(before, place.Files());
    }

    [Fact]
    public void Ask_WhatCannotBe_EndsAsNoPlanDoes() => Assert.Contains("which EV2 has not", place.Run("ask", Short, "if", "latch/free", "by", "EV2", "--effort", "1").Ended(3).Out);

    [Fact]
    public void Ask_AJobThatIsNot_IsRefusedWithTheNearest()
    {
        Result result = place.Run("ask", Short, "why-out", "lach").Ended(2);
        Assert.Contains("question.job", result.Err);
        Assert.Contains("Nearest name: latch", result.Err);
    }

    [Fact]
    public void Plan_BoundsAndLatestStarts_AreOnTheScreenAndInNoFile()
    {
        Result result = place.Run("plan", Short, "--effort", "2000", "--gap", "0", "--latest").Ended(0);
        Assert.Contains("No plan is worth more than its 10: proven. No plan worth as much ends sooner: proven.", result.Err);
        Assert.Contains("latch/free: planned 0:21:30, latest 5:55", result.Out);
        Assert.DoesNotContain(place.Files().Keys.Where(file => file.StartsWith("out", StringComparison.Ordinal)), file => place.Read(file).Contains("proven.", StringComparison.Ordinal));
    }

    [Fact]
    public void Plan_AlternativesThatThereAreNone_AreSaidToBeMissing() =>
        Assert.Contains("further plans were found", place.Run("plan", Short, "--effort", "1", "--alternatives", "2").Ended(0).Err);
}
