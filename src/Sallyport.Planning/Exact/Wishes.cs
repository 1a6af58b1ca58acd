using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What a search that was asked to keep to wishes came to.</summary>
/// <param name="Outline">The best plan that keeps them; null when none was found.</param>
/// <param name="Why">With none, what kept the best candidate from being one, in words.</param>
/// <param name="Decodes">Candidates tried.</param>
/// <param name="Refused">What search offered and was not taken, in the order offered.</param>
public sealed record WishedPlan(Outline? Outline, string Why, long Decodes, ImmutableArray<Outline> Refused);

/// <summary>Plans that keep to wishes, and which wishes cannot be kept together.</summary>
public sealed class Wishes
{
    private readonly Scenario plain;
    private readonly ImmutableArray<Wish> wishes;

    /// <summary>Takes wishes.</summary>
    public Wishes(Scenario scenario, IEnumerable<Wish> wishes)
    {
        plain = scenario;
        this.wishes = [.. wishes];
        Scenario = this.wishes.Aggregate(scenario, (with, wish) => wish.Into(with));
    }

    /// <summary>The scenario with the wishes in it, for search: a job wished for is a must-job there, so that it is never left out.</summary>
    public Scenario Scenario { get; }

    /// <summary>The same, for the proof: what a job is worth is as it was, for a must-job has to meet rules that no wish asks for, such as <c>tool.spare</c>.</summary>
    public Scenario Judged => Scenario with { Jobs = [.. Scenario.Jobs.Zip(plain.Jobs, (wished, job) => wished with { Worth = job.Worth, Value = job.Value })] };

    /// <summary>The wishes.</summary>
    public IReadOnlyList<Wish> All => wishes;

    /// <summary>Searches the best plan that keeps to all of them.</summary>
    /// <param name="effort">Epochs.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="accept">Expands, plays and judges an outline by <see cref="Judged"/>: its likely timeline when it plays clean, else null.</param>
    /// <param name="cancel">Ends the search after the epoch under way.</param>
    public WishedPlan Search(int effort, int seed, Func<Outline, Timeline?> accept, CancellationToken cancel)
    {
        Expander expander = new(Scenario);
        Outline? from = Pinned();
        SearchResult found = new Searcher(Scenario, expander, wishes).Run(new(effort, seed, from, Environment.ProcessorCount),
            outline => accept(outline) is { } timeline && wishes.All(wish => wish.IsKept(outline, timeline)), _ => { }, cancel);
        return new(found.Outline, found.Why, found.Decodes, found.Refused);
    }

    /// <summary>Whether it is proven that no plan keeps to all of them.</summary>
    /// <param name="work">How much to think, in the solver's own count.</param>
    /// <param name="cancel">Ends it, with nothing proven.</param>
    public bool CannotBe(double work, CancellationToken cancel) => new Bounds(Scenario, new(Scenario), wishes).MostValue(double.PositiveInfinity, work, 1, cancel).IsImpossible;

    /// <summary>
    /// Of wishes that cannot be kept together, some that cannot either, while each of them left out would do for the proof: found by leaving out one after
    /// another for as long as it stays proven.
    /// </summary>
    /// <param name="work">How much to think on each question, in the solver's own count.</param>
    /// <param name="cancel">Ends it; what is left then cannot be kept together, but more might be left out.</param>
    /// <returns>In the order given; empty when it is not proven that they cannot be kept together.</returns>
    public ImmutableArray<Wish> InConflict(double work, CancellationToken cancel)
    {
        if (!CannotBe(work, cancel)) return [];
        ImmutableArray<Wish> left = wishes;
        // From the end: what was wished for last is the first that goes.
        for (int i = wishes.Length - 1; i >= 0 && !cancel.IsCancellationRequested; i--)
            if (new Wishes(plain, left.Remove(wishes[i])).CannotBe(work, cancel)) left = left.Remove(wishes[i]);
        return left;
    }

    /// <summary>An outline with nothing but the pinned legs in it, each in the list of somebody who may do it; null when nothing is pinned.</summary>
    private Outline? Pinned()
    {
        (LegId Leg, Pins Pins)[] pinned = [.. wishes.SelectMany(wish => wish.Pinned).GroupBy(one => one.Leg).Select(own => (own.Key, own.Select(one => one.Pins).Aggregate(Join)))];
        if (pinned.Length == 0) return null;
        Person[] outside = [.. Scenario.Outside];
        PersonId DoerOf(Leg leg) => (outside.FirstOrDefault(person => (leg.Who.IsEmpty || leg.Who.Contains(person.Id)) && leg.Training.All(person.TrainedFor.Contains)) ?? outside[0]).Id;
        ILookup<PersonId, Entry> entries = pinned.ToLookup(one => DoerOf(Scenario.Legs.First(leg => leg.Id == one.Leg)), one => (Entry)new LegEntry(one.Leg, one.Pins, Way.Auto, ByHand: true));
        return new(Scenario.Id, null, null, [.. outside.Select(person => new PersonOutline(person.Id, [.. entries[person.Id]]))], [], [], [], null, []);
    }

    private static Pins Join(Pins one, Pins other) => new(one.At ?? other.At, Later(one.NotBefore, other.NotBefore), Sooner(one.NotAfter, other.NotAfter), one.Who || other.Who, one.Keep || other.Keep);

    private static Pet? Later(Pet? one, Pet? other) => one is { } a && other is { } b ? (a > b ? a : b) : one ?? other;

    private static Pet? Sooner(Pet? one, Pet? other) => one is { } a && other is { } b ? (a < b ? a : b) : one ?? other;
}
