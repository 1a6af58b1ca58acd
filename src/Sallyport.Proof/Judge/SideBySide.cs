using System.Collections.Immutable;
using System.Runtime.ExceptionServices;

namespace Sallyport.Proof;

/// <summary>Work of which each piece stands for itself, done on every core there is.</summary>
internal static class SideBySide
{
    /// <summary>What comes of each piece, in their order: the same as one after another, and when pieces throw, what the first of them throws.</summary>
    public static ImmutableArray<TMade> Each<T, TMade>(IReadOnlyList<T> pieces, Func<T, TMade> make)
    {
        TMade[] made = new TMade[pieces.Count];
        Exception?[] failed = new Exception?[pieces.Count];
        // More at once than there are cores would only wait for each other.
        Parallel.For(0, pieces.Count, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
        {
            try { made[i] = make(pieces[i]); }
            catch (Exception e) { failed[i] = e; }
        });
        if (failed.FirstOrDefault(one => one is not null) is { } first) ExceptionDispatchInfo.Throw(first);
        return [.. made];
    }

    /// <summary>The same answers, with those who ask at once answered one after another.</summary>
    public static GoOn OneAtATime(GoOn goOn)
    {
        Lock turn = new();
        return (planned, trouble) =>
        {
            lock (turn) return goOn(planned, trouble);
        };
    }
}
