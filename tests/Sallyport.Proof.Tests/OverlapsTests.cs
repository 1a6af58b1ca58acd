using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof.Tests;

/// <summary>What is found by halving is held against looking at everything.</summary>
public sealed class OverlapsTests
{
    private static readonly Random Dice = new(20261128);

    private static PetInterval[] Some(int count) => [.. Enumerable.Range(0, count).Select(_ => Dice.Next(0, 60)).Select(from => Of(from, from + Dice.Next(0, 25)))];

    private static PetInterval Of(int from, int to) => new(Pet.FromSeconds(from), Pet.FromSeconds(to));

    [Fact]
    public void Overlaps_ManyThingsAtRandom_AreThoseThatLookingAtAllOfThemFindsInTheSameOrder()
    {
        int met = 0;
        for (int round = 0; round < 400; round++)
        {
            PetInterval[] all = Some(Dice.Next(0, 12));
            Overlaps<int> overlaps = new(Enumerable.Range(0, all.Length), i => all[i]);
            for (int from = 0; from < 90; from += 3)
            {
                Pet start = Pet.FromSeconds(from), end = Pet.FromSeconds(from + Dice.Next(0, 9));
                int[] wanted = [.. Enumerable.Range(0, all.Length).Where(i => all[i].From < end && start < all[i].To)];
                Assert.Equal(wanted, overlaps.Between(start, end));
                Assert.Equal(Enumerable.Range(0, all.Length).Where(i => all[i].From <= start && start < all[i].To), overlaps.At(start));
                met += wanted.Length;
            }
        }
        Assert.True(met > 1000);
    }

    [Fact]
    public void Stretches_AtRandom_HoldAndAreCutAsSecondBySecond()
    {
        for (int round = 0; round < 400; round++)
        {
            PetInterval[] some = Some(Dice.Next(0, 5));
            ImmutableArray<PetInterval> joined = Intervals.Join(some);
            PetInterval one = Some(1)[0];
            ImmutableArray<PetInterval> within = Intervals.Within(joined, one);
            for (int second = 0; second < 90; second++)
            {
                Pet now = Pet.FromSeconds(second);
                bool holds = some.Any(stretch => stretch.From <= now && now < stretch.To);
                Assert.Equal(holds, Intervals.Holds(joined, now));
                Assert.Equal(holds && one.From <= now && now < one.To, within.Any(stretch => stretch.From <= now && now < stretch.To));
            }
        }
    }
}
