using System.Collections.Immutable;
using System.Globalization;

namespace Sallyport.Desk.Tests;

/// <summary>An effect: a literal, and what must hold for it, if anything.</summary>
internal sealed record RefereeEffect(Term? When, string Atom, bool Adds);

/// <summary>What a happening does to an amount, and what must hold for it, if anything.</summary>
internal sealed record RefereeChange(Term? When, string Fluent, string How, decimal By);

/// <summary>What is so at a moment: facts, and amounts.</summary>
internal sealed record RefereeState(HashSet<string> Facts, Dictionary<string, decimal> Amounts);

/// <summary>What an action does at one of its ends.</summary>
internal sealed record RefereeDoing(ImmutableArray<RefereeEffect> Facts, ImmutableArray<RefereeChange> Amounts);

/// <summary>A durative action without parameters.</summary>
internal sealed record RefereeAction(
    string Name, decimal Least, ImmutableArray<Term> AtStart, ImmutableArray<Term> Between, ImmutableArray<Term> AtEnd,
    RefereeDoing Begins, RefereeDoing Ends);

/// <summary>A domain read strictly: every name is declared, every atom has the number and types of arguments that its predicate has, and
/// what the requirements do not announce is not used.</summary>
internal sealed class RefereeDomain
{
    private static readonly string[] Known = [":adl", ":durative-actions", ":duration-inequalities", ":timed-initial-literals", ":numeric-fluents"];

    private readonly Dictionary<string, string> parents = new() { ["object"] = "" };
    private readonly Dictionary<string, string> constants = [];
    private readonly Dictionary<string, ImmutableArray<string>> predicates = [];
    private readonly Dictionary<string, ImmutableArray<string>> functions = [];

    public RefereeDomain(Term domain)
    {
        Expect(domain.Head == "define" && domain.List[1].Head == "domain", "no domain is defined");
        Name = domain.List[1].Tail[0].Word;
        foreach (Term requirement in domain.Part(":requirements").Tail) Expect(Known.Contains(requirement.Word), $"this reader knows no {requirement}");
        foreach ((string name, string type) in Typed(domain.Part(":types").Tail)) Expect(parents.TryAdd(name, type), $"type {name} twice");
        foreach (string parent in parents.Values.Where(parent => parent.Length > 0).ToList()) parents.TryAdd(parent, "object");
        foreach ((string name, string type) in Typed(domain.Part(":constants").Tail))
        {
            Expect(parents.ContainsKey(type), $"{name} has the unknown type {type}");
            Expect(constants.TryAdd(name, type), $"constant {name} twice");
        }
        foreach (Term predicate in domain.Part(":predicates").Tail)
            Expect(predicates.TryAdd(predicate.Head, [.. Typed(predicate.Tail).Select(pair => pair.Type)]), $"predicate {predicate.Head} twice");
        foreach (Term function in domain.List.Where(part => part.Head == ":functions").SelectMany(part => part.Tail))
            Expect(functions.TryAdd(function.Head, [.. Typed(function.Tail).Select(pair => pair.Type)]), $"function {function.Head} twice");
        foreach (Term action in domain.List.Where(part => part.Head == ":durative-action"))
            Expect(Actions.TryAdd(action.List[1].Word, Read(action)), $"action {action.List[1]} twice");
    }

    public string Name { get; }

    public Dictionary<string, RefereeAction> Actions { get; } = [];

    /// <summary>An atom as text, once it is seen to be well formed.</summary>
    public string Atom(Term term) => Declared(term, predicates, "predicate");

    /// <summary>An amount as text, once it is seen to be well formed.</summary>
    public string Fluent(Term term) => Declared(term, functions, "function");

    public static decimal Number(Term term)
    {
        Expect(decimal.TryParse(term.Word, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal number), $"{term} is no number");
        return number;
    }

    private string Declared(Term term, Dictionary<string, ImmutableArray<string>> declared, string what)
    {
        Expect(declared.TryGetValue(term.Head, out ImmutableArray<string> types), $"{term} has no declared {what}");
        Expect(types.Length == term.Tail.Length, $"{term} has {term.Tail.Length} arguments, not {types.Length}");
        foreach ((Term argument, string type) in term.Tail.Zip(types))
        {
            Expect(argument.IsWord && constants.ContainsKey(argument.Word), $"{argument} in {term} is not declared");
            string? at = constants[argument.Word];
            while (at != type && parents.TryGetValue(at, out string? parent)) at = parent;
            Expect(at == type, $"{argument} in {term} is no {type}");
        }
        return term.ToString();
    }

    /// <summary>A literal: an atom, or one negated.</summary>
    public (string Atom, bool Positive) Literal(Term term) => term.Head == "not" ? (Atom(term.Tail.Single()), false) : (Atom(term), true);

    /// <summary>Looks at every atom in a goal description.</summary>
    public void WellFormed(Term goal)
    {
        foreach (string atom in Atoms(goal)) Expect(atom.Length > 0, "an atom without a name");
    }

    /// <summary>Every atom and amount in a goal description.</summary>
    public IEnumerable<string> Atoms(Term goal) => goal.Head switch
    {
        "and" or "or" => goal.Tail.SelectMany(Atoms),
        "not" => Atoms(goal.Tail.Single()),
        ">=" when Number(goal.List[2]) >= 0 => [Fluent(goal.List[1])],
        _ => [Atom(goal)],
    };

    public bool Holds(Term goal, RefereeState state) => goal.Head switch
    {
        "and" => goal.Tail.All(part => Holds(part, state)),
        "or" => goal.Tail.Any(part => Holds(part, state)),
        "not" => !Holds(goal.Tail.Single(), state),
        ">=" => state.Amounts.TryGetValue(goal.List[1].ToString(), out decimal amount) && amount >= Number(goal.List[2]),
        _ => state.Facts.Contains(goal.ToString()),
    };

    public static void Expect(bool holds, string otherwise)
    {
        if (!holds) throw new FormatException(otherwise);
    }

    private RefereeAction Read(Term action)
    {
        string name = action.List[1].Word;
        Expect(action.List.Length == 10, $"{name} has not exactly parameters, duration, condition and effect");
        Term Field(string key) => action.List[action.List.IndexOf(new Term(key, default)) + 1];
        Expect(Field(":parameters") is { IsWord: false, List.IsEmpty: true }, $"{name} has parameters");
        Term duration = Field(":duration");
        Expect(duration.Head == ">=" && duration.List[1].Word == "?duration", $"{name} has another duration than a least one");
        List<(string When, Term Goal)> conditions = [.. Conjuncts(Field(":condition")).Select(Timed)];
        foreach ((_, Term goal) in conditions) WellFormed(goal);
        List<(string When, RefereeEffect? Fact, RefereeChange? Amount)> effects = [.. Conjuncts(Field(":effect")).Select(Effect)];
        ImmutableArray<Term> At(string when) => [.. conditions.Where(condition => condition.When == when).Select(condition => condition.Goal)];
        RefereeDoing By(string when) => new([.. effects.Where(effect => effect.When == when).Select(effect => effect.Fact).OfType<RefereeEffect>()],
            [.. effects.Where(effect => effect.When == when).Select(effect => effect.Amount).OfType<RefereeChange>()]);
        Expect(conditions.All(one => one.When is "start" or "all" or "end") && effects.All(one => one.When is "start" or "end"), $"{name} has something at no known time");
        return new(name, decimal.Parse(duration.List[2].Word, CultureInfo.InvariantCulture), At("start"), At("all"), At("end"), By("start"), By("end"));
    }

    private (string When, RefereeEffect? Fact, RefereeChange? Amount) Effect(Term term)
    {
        (string? when, Term? condition, Term timed) = (null, null, term);
        if (term.Head == "when")
        {
            ((when, condition), timed) = (Timed(term.List[1]), term.List[2]);
            WellFormed(condition);
        }
        (string at, Term literal) = Timed(timed);
        Expect(when is null || when == at, $"{term} has its condition at another time");
        if (literal.Head is "increase" or "decrease" or "assign") return (at, null, new(condition, Fluent(literal.List[1]), literal.Head, Number(literal.List[2])));
        (string atom, bool positive) = Literal(literal);
        return (at, new(condition, atom, positive), null);
    }

    private static (string When, Term What) Timed(Term term)
    {
        Expect(term.Head is "at" or "over" && term.List.Length == 3 && (term.Head == "over") == (term.List[1].Word == "all"), $"{term} is not timed");
        return (term.List[1].Word, term.List[2]);
    }

    private static IEnumerable<Term> Conjuncts(Term term) => term.Head == "and" ? term.Tail : [term];

    private static IEnumerable<(string Name, string Type)> Typed(IEnumerable<Term> terms)
    {
        List<string> waiting = [];
        Queue<Term> queue = new(terms);
        while (queue.TryDequeue(out Term? term))
        {
            if (term.Word != "-")
            {
                waiting.Add(term.Word);
                continue;
            }
            string type = queue.Dequeue().Word;
            foreach (string name in waiting) yield return (name, type);
            waiting.Clear();
        }
        foreach (string name in waiting) yield return (name, "object");
    }
}
