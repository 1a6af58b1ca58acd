using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>What return times are held against: the least of the limit and of the time left until the first person must be in.</summary>
internal static class Ceiling
{
    /// <summary>By when each person must be in: the cut-off that the suit's owner states, or the reserve first reached at high use where that is earlier.</summary>
    public static ImmutableArray<CutOff> CutOffs(Scenario scenario, ImmutableArray<SuitWalk> walks)
    {
        ImmutableArray<CutOff>.Builder cutOffs = ImmutableArray.CreateBuilder<CutOff>();
        foreach (Person person in scenario.Outside)
        {
            if (person.Suit is not { } suit) continue;
            SuitCutOff? reserve = walks.FirstOrDefault(walk => walk.Profile.Person == person.Id)?.Use.CutOff(Level.High);
            cutOffs.Add(reserve is not null && reserve.At < suit.CutOff
                ? new(person.Id, reserve.At, $"reserve of {person.Id}'s {reserve.Binds.InWords()}", scenario.LimitOf("suit.reserve")?.Source ?? "the suit's own figures")
                : new(person.Id, suit.CutOff, $"cut-off of {person.Id}'s suit", suit.CutOffSource));
        }
        return cutOffs.ToImmutable();
    }

    public static ImmutableArray<CeilingPiece> Of(Scenario scenario, ImmutableArray<CutOff> cutOffs, Pet from, Pet to)
    {
        if (to <= from) return [];
        double? limit = scenario.LimitOf("return.one") is { Value.Dimension: Dimension.Time } one ? one.Value.Value : null;
        CutOff? worst = cutOffs.MinBy(one => one.At);
        if (worst is null) return limit is { } only ? [new(from, to, only, only, LimitBinds)] : [];
        Pet cutOff = worst.At;
        if (limit is null) return [Falling(from, to)];
        // Where the slope begins on a part second, the second before it is the safe one.
        Pet turn = cutOff.Plus(Duration.FromSeconds(-(int)Math.Ceiling(limit.Value)));
        if (turn <= from) return [Falling(from, to)];
        if (turn >= to) return [new(from, to, limit.Value, limit.Value, LimitBinds)];
        return [new(from, turn, limit.Value, limit.Value, LimitBinds), Falling(turn, to)];

        CeilingPiece Falling(Pet start, Pet end) => new(start, end, Left(start), Left(end), worst.Binds);

        double Left(Pet now) => Math.Min(cutOff.Since(now).Seconds, limit ?? double.MaxValue);
    }

    private const string LimitBinds = "limit for one person (return.one)";
}
