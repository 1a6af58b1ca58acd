using System.Collections.Immutable;
using Sallyport.Model;
using static Sallyport.Proof.Tests.TestWorld;

namespace Sallyport.Proof.Tests;

/// <summary>Work done on several cores gives what it gives on one.</summary>
public sealed class SideBySideTests
{
    [Fact]
    public void Pieces_ThatTakeUnequallyLong_ComeInTheirOrder()
    {
        int[] pieces = [.. Enumerable.Range(0, 60)];
        ImmutableArray<int> made = SideBySide.Each(pieces, piece =>
        {
            Thread.SpinWait((60 - piece) * 2000);
            return piece * piece;
        });
        Assert.Equal(pieces.Select(piece => piece * piece), made);
    }

    [Fact]
    public void Pieces_OfWhichSomeThrow_ThrowWhatTheFirstOfThemThrows()
    {
        ArgumentException thrown = Assert.Throws<ArgumentException>(() => SideBySide.Each([.. Enumerable.Range(0, 60)], piece =>
        {
            Thread.SpinWait((60 - piece) * 2000);
            return piece % 20 == 7 ? throw new ArgumentException($"piece {piece}") : piece;
        }));
        Assert.Equal("piece 7", thrown.Message);
    }

    [Fact]
    public void Expansion_AskedBySeveralAtOnce_AnswersOneAtATime()
    {
        int within = 0, most = 0;
        GoOn goOn = SideBySide.OneAtATime((_, _) =>
        {
            most = Math.Max(most, Interlocked.Increment(ref within));
            Thread.Sleep(2);
            Interlocked.Decrement(ref within);
            return (null, "asked");
        });
        Timeline planned = new("", "", Branch.Likely, [], []);
        Trouble trouble = new(new("latch/free"), new("loosen"), "Stuck", Seconds(1), default, GoingOn.AsPlanned);
        Thread[] threads = [.. Enumerable.Range(0, 4).Select(_ => new Thread(() => { for (int i = 0; i < 5; i++) goOn(planned, trouble); }))];
        foreach (Thread thread in threads) thread.Start();
        foreach (Thread thread in threads) thread.Join();
        Assert.Equal(1, most);
    }
}
