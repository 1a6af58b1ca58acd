using System.Globalization;
using System.Text.RegularExpressions;

namespace Sallyport.Cli.Tests;

/// <summary>Interrupting a long search keeps the best plan of the last epoch that was finished.</summary>
public sealed class StopTests : IDisposable
{
    private const string Short = "scenarios/skerry-short", Written = Short + "/outlines/plan.yaml";

    private readonly Workplace place = new("skerry-short");

    public StopTests() => Assert.SkipUnless(OperatingSystem.IsLinux() || OperatingSystem.IsMacOS(), "interrupts are sent with kill");

    public void Dispose() => place.Dispose();

    // Time of the processor, not of the clock: the program is well into its search then, however busy the machine is.
    private Result RunAndInterruptWhenSearching() =>
        place.RunAndInterrupt(process => process.TotalProcessorTime > TimeSpan.FromSeconds(4), "plan", Short, "--effort", "100000");

    [Fact]
    public void Plan_Interrupted_WritesTheBestAndWhatThatEffortGives()
    {
        Result result = RunAndInterruptWhenSearching().Ended(0).ShowedPlan();
        Assert.Contains("stopped by hand", result.Err);
        string stopped = place.Read(Written);
        int epochs = int.Parse(Regex.Match(stopped, @"made: \{effort: (\d+),").Groups[1].Value, CultureInfo.InvariantCulture);
        Assert.InRange(epochs, 1, 99_999);
        Assert.True(File.Exists(place.PathOf("out/skerry-short/plan/range.svg")));

        using Workplace again = new("skerry-short");
        again.Run("plan", Short, "--effort", epochs.ToString(CultureInfo.InvariantCulture)).Ended(0);
        Assert.Equal(stopped, again.Read(Written));
    }

    [Fact]
    public void Plan_InterruptedWithNothingFound_EndsWith130AndWritesNothing()
    {
        // A limit that neither the bounds nor the look at each must-job know: they would say at once that there is no plan. To make somebody ready and bring them in takes 12 min at the hatch alone.
        place.Edit(Short + "/rules.yaml", "limits:\n", """
            help: {secure: 4 min, slower: 1.5, enter: 8 min, source: "invented for the test"}
            limits:
            - {rule: return.help, limit: 8 min, near: 1 min, source: "invented for the test", verified: false}

            """);
        SortedDictionary<string, string> before = place.Files();
        Result result = RunAndInterruptWhenSearching().Ended(130);
        Assert.Contains("No plan.", result.Err);
        Assert.Equal(before, place.Files());
    }

    [Fact]
    public void Plan_InterruptedAtOnce_LeavesAWholePlanOrNothing()
    {
        SortedDictionary<string, string> before = place.Files();
        Result result = place.RunAndInterrupt(_ => true, "plan", Short, "--effort", "100000");
        if (result.Exit == 130) Assert.Equal(before, place.Files());
        else
        {
            result.Ended(0).ShowedPlan();
            Assert.True(File.Exists(place.PathOf(Written)));
            Assert.True(File.Exists(place.PathOf("out/skerry-short/plan/plan.txt")));
        }
    }

    [Fact]
    public void Plan_OutOfTime_WritesTheBestAndWhatThatEffortGives()
    {
        place.Run("plan", Short, "--effort", "100000", "--seconds", "2").Ended(0).ShowedPlan();
        string stopped = place.Read(Written);
        int epochs = int.Parse(Regex.Match(stopped, @"made: \{effort: (\d+),").Groups[1].Value, CultureInfo.InvariantCulture);
        Assert.InRange(epochs, 1, 99_999);

        using Workplace again = new("skerry-short");
        again.Run("plan", Short, "--effort", epochs.ToString(CultureInfo.InvariantCulture)).Ended(0);
        Assert.Equal(stopped, again.Read(Written));
    }
}
