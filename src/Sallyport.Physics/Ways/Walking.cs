using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>How long a span takes.</summary>
public static class Walking
{
    /// <summary>The least time for one span, rounded up to a whole second.</summary>
    /// <param name="pace">The person's pace, m/s.</param>
    /// <param name="span">The span; its length in m.</param>
    /// <param name="slower">What the load carried multiplies the time by; 1 when nothing slows.</param>
    /// <param name="tether">The tether rules: with short tethers moved in turn, each span costs a hooking time that load does not stretch.</param>
    /// <returns>Seconds, at least 1.</returns>
    public static int SpanSeconds(Pace pace, Span span, double slower, TetherRules tether)
    {
        double unladen = span.Class switch
        {
            SpanClass.Easy => span.Length / pace.Easy,
            SpanClass.Careful => span.Length / pace.Careful,
            _ => pace.Gap.Seconds,
        };
        int walking = Duration.CeilingFromSeconds(unladen * slower).Seconds;
        int hooking = tether.Protocol == TetherProtocol.Leapfrog ? tether.Hook.Seconds : 0;
        return Math.Max(1, walking + hooking);
    }

    /// <summary>What the load multiplies span times by: that of the slowest thing carried, and 1 with nothing.</summary>
    /// <param name="carried">The size classes of what hangs on the person.</param>
    public static double SlowedBy(IEnumerable<SizeClass> carried)
    {
        double slower = 1;
        foreach (SizeClass size in carried) slower = Math.Max(slower, size.Slower);
        return slower;
    }
}
