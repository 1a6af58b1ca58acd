using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Sallyport.Desk.Tests;

/// <summary>
/// Says whether a plan is valid, by the semantics of Fox and Long (PDDL2.1, JAIR 20, 2003, section 5) and timed initial literals
/// (Edelkamp and Hoffmann, 2004). It shares nothing with the program but the text of the three files.
/// What happens at one moment is one happening: everything in it is asked of the state before, and no two things in it may touch one
/// atom unless both only read it, both add it or both delete it. What holds over all is asked of every state after the start and before the end.
/// </summary>
internal sealed class Referee
{
    /// <summary>Moments closer than this are one moment. The files keep theirs at least a quarter of an epsilon apart.</summary>
    private const decimal Tolerance = 0.0002m;

    private static readonly Regex Line = new(@"^(?<time>\d+(\.\d+)?): \((?<name>[a-z0-9-]+)\) \[(?<length>\d+(\.\d+)?)\]$");

    private readonly RefereeDomain domain;
    private readonly RefereeState state = new([], []);
    private readonly List<Point> points = [];
    private readonly List<(RefereeAction Action, decimal Start, decimal End)> taken = [];
    private readonly ImmutableArray<Term> goals;

    private Referee(RefereeDomain domain, PddlImage image)
    {
        this.domain = domain;
        Term problem = Term.Parse(image.Problem);
        RefereeDomain.Expect(problem.Head == "define" && problem.List[1].Head == "problem", "no problem is defined");
        RefereeDomain.Expect(problem.Part(":domain").Tail.Single().Word == domain.Name, "the problem is of another domain");
        foreach (Term fact in problem.Part(":init").Tail)
        {
            if (fact.Head == "at" && decimal.TryParse(fact.List[1].Word, CultureInfo.InvariantCulture, out decimal time))
            {
                (string atom, bool adds) = domain.Literal(fact.List[2]);
                points.Add(new(time, $"the clock at {time}", "", [], new([new(null, atom, adds)], [])));
            }
            else if (fact.Head == "=") RefereeDomain.Expect(state.Amounts.TryAdd(domain.Fluent(fact.List[1]), RefereeDomain.Number(fact.List[2])), $"{fact} twice");
            else RefereeDomain.Expect(state.Facts.Add(domain.Atom(fact)), $"{fact} twice");
        }
        goals = problem.Part(":goal").Tail.Single() is { Head: "and" } all ? all.Tail : [problem.Part(":goal").Tail.Single()];
        foreach (Term goal in goals) domain.WellFormed(goal);
        foreach (string line in image.Plan.Split('\n').Where(line => line.Length > 0 && line[0] != ';')) Take(line);
    }

    /// <summary>Null when the plan is valid, else the first thing that is wrong with it.</summary>
    public static string? Refuses(PddlImage image) => Refuses(null, image);

    /// <summary>The same for another plan of a domain that was read already.</summary>
    public static string? Refuses(RefereeDomain? domain, PddlImage image)
    {
        try
        {
            return new Referee(domain ?? new(Term.Parse(image.Domain)), image).Run();
        }
        catch (FormatException malformed)
        {
            return $"malformed: {malformed.Message}";
        }
    }

    private void Take(string line)
    {
        Match match = Line.Match(line);
        RefereeDomain.Expect(match.Success, $"'{line}' is no line of a plan");
        decimal start = decimal.Parse(match.Groups["time"].Value, CultureInfo.InvariantCulture), length = decimal.Parse(match.Groups["length"].Value, CultureInfo.InvariantCulture);
        RefereeDomain.Expect(domain.Actions.TryGetValue(match.Groups["name"].Value, out RefereeAction? action), $"no action {match.Groups["name"].Value}");
        taken.Add((action!, start, start + length));
        points.Add(new(start, action!.Name, "at start", action.AtStart, action.Begins));
        points.Add(new(start + length, action.Name, "at end", action.AtEnd, action.Ends));
    }

    private string? Run()
    {
        foreach ((RefereeAction action, decimal start, decimal end) in taken)
        {
            if (end - start < action.Least) return $"{action.Name}: duration {end - start} is less than {action.Least}";
            if (taken.Any(other => other.Action == action && other.Start > start && other.Start <= end)) return $"{action.Name}: overlaps itself";
        }
        foreach (List<Point> happening in Happenings())
        {
            if (Happen(happening) is { } refused) return refused;
            decimal now = happening[0].Time;
            foreach ((RefereeAction action, decimal start, decimal end) in taken.Where(one => one.Start <= now && now + Tolerance <= one.End))
                if (action.Between.FirstOrDefault(goal => !domain.Holds(goal, state)) is { } broken) return $"{action.Name}: over all {broken} fails after {now}";
        }
        return goals.FirstOrDefault(goal => !domain.Holds(goal, state)) is { } missing ? $"goal: {missing} does not hold at the end" : null;
    }

    private List<List<Point>> Happenings()
    {
        List<List<Point>> happenings = [];
        foreach (Point point in points.OrderBy(point => point.Time))
        {
            if (happenings.Count > 0 && point.Time - happenings[^1][^1].Time < Tolerance) happenings[^1].Add(point);
            else happenings.Add([point]);
        }
        return happenings;
    }

    private string? Happen(List<Point> happening)
    {
        foreach (Point point in happening)
            if (point.Needs.FirstOrDefault(goal => !domain.Holds(goal, state)) is { } broken) return $"{point.Name}: {point.Where} {broken} fails at {point.Time}";
        for (int i = 0; i < happening.Count; i++)
            for (int j = i + 1; j < happening.Count; j++)
                if ((Interfere(happening[i], happening[j]) ?? Interfere(happening[j], happening[i])) is { } atom)
                    return $"{happening[i].Name}: interferes with {happening[j].Name} over {atom} at {happening[i].Time}";
        HashSet<string> added = [], deleted = [];
        Dictionary<string, decimal> amounts = [];
        foreach (RefereeEffect effect in happening.SelectMany(point => point.Does.Facts).Where(effect => effect.When is not { } when || domain.Holds(when, state)))
            (effect.Adds ? added : deleted).Add(effect.Atom);
        foreach (RefereeChange change in happening.SelectMany(point => point.Does.Amounts).Where(change => change.When is not { } when || domain.Holds(when, state)))
        {
            if (!state.Amounts.TryGetValue(change.Fluent, out decimal before)) return $"{happening[0].Name}: {change.Fluent} has no amount at {happening[0].Time}";
            if (!amounts.TryAdd(change.Fluent, change.How switch { "assign" => change.By, "increase" => before + change.By, _ => before - change.By }))
                return $"{happening[0].Name}: {change.Fluent} is changed twice at {happening[0].Time}";
        }
        if (added.Intersect(deleted).FirstOrDefault() is { } both) return $"{happening[0].Name}: {both} is added and deleted at {happening[0].Time}";
        state.Facts.ExceptWith(deleted);
        state.Facts.UnionWith(added);
        foreach ((string fluent, decimal amount) in amounts) state.Amounts[fluent] = amount;
        return null;
    }

    /// <summary>An atom that one writes and the other reads, or that one adds and the other deletes. Effects that hang on conditions count
    /// whether or not they come about.</summary>
    private string? Interfere(Point one, Point other)
    {
        HashSet<string> reads = [.. other.Needs.Concat(other.Does.Facts.Select(effect => effect.When).Concat(other.Does.Amounts.Select(change => change.When)).OfType<Term>()).SelectMany(domain.Atoms)];
        return one.Does.Facts.Select(effect => effect.Atom).Concat(one.Does.Amounts.Select(change => change.Fluent)).FirstOrDefault(reads.Contains)
            ?? one.Does.Amounts.Select(change => change.Fluent).Intersect(other.Does.Amounts.Select(change => change.Fluent)).FirstOrDefault()
            ?? one.Does.Facts.Where(effect => effect.Adds).Select(effect => effect.Atom).Intersect(other.Does.Facts.Where(effect => !effect.Adds).Select(effect => effect.Atom)).FirstOrDefault();
    }

    private sealed record Point(decimal Time, string Name, string Where, ImmutableArray<Term> Needs, RefereeDoing Does);
}
