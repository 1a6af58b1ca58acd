using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Something that must hold.</summary>
/// <param name="Rule">The rule that a failure concerns.</param>
/// <param name="Holds">Whether it holds now.</param>
/// <param name="What">What was needed and what is found, as a sentence without its full stop; asked for only on failure.</param>
/// <param name="Mend">What would mend it; asked for only on failure too.</param>
/// <param name="Figures">Measured, limit and margin, when there are any.</param>
internal sealed record Condition(string Rule, Func<bool> Holds, Func<string> What, Func<string> Mend, Func<Figures>? Figures = null);

/// <summary>What a rule measured, its limit, and how far inside (or, negative, outside) it is; each with its unit.</summary>
internal readonly record struct Figures(string Measured, string Limit, string Margin)
{
    public static Figures None { get; } = new("", "", "");
}

/// <summary>What an activity asks of the world, and what it does to it.</summary>
internal sealed class Deed(Activity activity)
{
    private static readonly Action Nothing = static () => { };

    public Activity Activity { get; } = activity;

    /// <summary>The people outside who take part, each once.</summary>
    public ImmutableArray<PersonId> Who { get; } = activity is PersonActivity one ? one.People : [.. activity.People.Distinct()];

    /// <summary>Must hold at its start, before its start effects.</summary>
    public List<Condition> AtStart { get; } = [];

    /// <summary>Must hold from its start to its end.</summary>
    public List<Condition> Throughout { get; } = [];

    /// <summary>Must hold at its end, before its end effects.</summary>
    public List<Condition> AtEnd { get; } = [];

    /// <summary>Its start effects.</summary>
    public Action Begin { get; set; } = Nothing;

    /// <summary>What it looks at as it ends, before anything that ends in the same instant takes effect: so it sees the same in any order.</summary>
    public Action Look { get; set; } = Nothing;

    /// <summary>Its end effects.</summary>
    public Action Finish { get; set; } = Nothing;

    public void Needs(string rule, Func<bool> holds, Func<string> what, Func<string> mend, Func<Figures>? figures = null) =>
        AtStart.Add(new Condition(rule, holds, what, mend, figures));

    public void NeedsThroughout(string rule, Func<bool> holds, Func<string> what, Func<string> mend, Func<Figures>? figures = null) =>
        Throughout.Add(new Condition(rule, holds, what, mend, figures));

    public void NeedsAtEnd(string rule, Func<bool> holds, Func<string> what, Func<string> mend) => AtEnd.Add(new Condition(rule, holds, what, mend));

    /// <summary>That the activity is not shorter than the scenario says such a thing takes.</summary>
    public void NeedsTime(Duration least, Func<string> what, string rule = "time.short") => Needs(
        rule, () => Activity.Length >= least,
        () => $"{what()} takes {least}, but is given {Activity.Length}",
        () => $"Give it {least}.",
        () => new(Activity.Length.ToString(), least.ToString(), Duration.FromSeconds(Activity.Length.Seconds - least.Seconds).ToString()));

    /// <summary>That a person is at a grip.</summary>
    public void NeedsAt(World world, PersonId person, GripId grip, Func<string> toDo) => Needs(
        "way.none", () => world.Place(person) == Places.At(grip),
        () => $"{person} is to {toDo()} at {grip}, but is {PlaceInWords(world, person)}",
        () => $"Bring {person} to {grip} first.");

    /// <summary>That a person is in no restraint and on no arm.</summary>
    public void NeedsFree(World world, PersonId person, Func<string> toDo) => Needs(
        "restraint.absent", () => world.Footing(person) is Places.Free or Places.BodyTether,
        () => $"{person} is to {toDo()} while still held in {world.Footing(person)}",
        () => $"Let {person} get out of {world.Footing(person)} first.");

    /// <summary>That a thing can hang on a carry point.</summary>
    public void NeedsCarry(World world, PersonId person, CarryPointId carry, GearId gear) => Needs(
        "hands.busy", () => world.CarryProblem(person, carry, gear) is null,
        () => $"{gear} cannot hang there: {world.CarryProblem(person, carry, gear)}",
        () => $"Put something down first, or use another carry point or another person for {gear}.");

    public static string PlaceInWords(World world, PersonId person) => world.Place(person) switch
    {
        Places.Inside => "inside",
        string place when place.EndsWith("/moving", StringComparison.Ordinal) => $"riding {place[..place.IndexOf('/')]}",
        string place => $"at {place}",
    };
}
