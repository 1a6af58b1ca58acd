using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>What return times are held against: the least of the limit and of the time left until the first suit's cut-off.</summary>
internal static class Ceiling
{
    public static ImmutableArray<CeilingPiece> Of(Scenario scenario, Pet from, Pet to)
    {
        if (to <= from) return [];
        double? limit = scenario.LimitOf("return.one") is { Value.Dimension: Dimension.Time } one ? one.Value.Value : null;
        Person? worst = scenario.Outside.Where(person => person.Suit is not null).MinBy(person => person.Suit!.CutOff);
        if (worst is null) return limit is { } only ? [new(from, to, only, only, LimitBinds)] : [];
        Pet cutOff = worst.Suit!.CutOff;
        string cutOffBinds = $"cut-off of {worst.Id}'s suit";
        if (limit is null) return [Falling(from, to)];
        // Where the slope begins on a part second, the second before it is the safe one.
        Pet turn = cutOff.Plus(Duration.FromSeconds(-(int)Math.Ceiling(limit.Value)));
        if (turn <= from) return [Falling(from, to)];
        if (turn >= to) return [new(from, to, limit.Value, limit.Value, LimitBinds)];
        return [new(from, turn, limit.Value, limit.Value, LimitBinds), Falling(turn, to)];

        CeilingPiece Falling(Pet start, Pet end) => new(start, end, Left(start), Left(end), cutOffBinds);

        double Left(Pet now) => Math.Min(cutOff.Since(now).Seconds, limit ?? double.MaxValue);
    }

    private const string LimitBinds = "limit for one person (return.one)";
}
