using System.Diagnostics;
using System.Globalization;

namespace Sallyport.Desk.Tests;

/// <summary>How long something takes, on a machine that may be busy with other things.</summary>
internal static class Patience
{
    private const string Scheduling = "/proc/thread-self/schedstat";

    /// <summary>The time that a processor spent on this where the system tells, and otherwise the time that passed. What does not end in a
    /// minute fails the test.</summary>
    public static TimeSpan TimeOf(Action action, string name = "it")
    {
        TimeSpan took = default;
        Exception? thrown = null;
        Thread thread = new(() =>
        {
            TimeSpan before = Now();
            try
            {
                action();
            }
            catch (Exception e)
            {
                thrown = e;
            }
            took = Now() - before;
        })
        { IsBackground = true };
        thread.Start();
        Assert.True(thread.Join(TimeSpan.FromMinutes(1)), $"{name} did not end in a minute");
        return thrown is null ? took : throw new InvalidOperationException($"{name} threw", thrown);
    }

    // The first figure there is the nanoseconds that this thread has run.
    private static TimeSpan Now() => File.Exists(Scheduling)
        ? TimeSpan.FromMicroseconds(long.Parse(File.ReadAllText(Scheduling).Split(' ')[0], CultureInfo.InvariantCulture) / 1000.0)
        : TimeSpan.FromSeconds(Stopwatch.GetTimestamp() / (double)Stopwatch.Frequency);
}
