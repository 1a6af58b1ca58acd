using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace Sallyport.Planning;

/// <summary>How long the solver may think, and with what.</summary>
/// <param name="Seconds">By the clock; what comes out then depends on the machine. Infinity for no such end.</param>
/// <param name="Work">In the solver's own count of work, about a second each on a quiet core; with one thread the same answer on every machine.
/// Infinity for no such end.</param>
/// <param name="Threads">How many threads.</param>
/// <param name="Cancel">Ends it at once; what was proven until then stays.</param>
internal sealed record SolverLimits(double Seconds, double Work, int Threads, CancellationToken Cancel)
{
    /// <summary>Whether the question is a small one, which the solver does not look over for long before it begins.</summary>
    public bool IsSmall { get; init; }

    /// <summary>Whether what is wanted is a bound, and a solution is not looked for first.</summary>
    public bool PushesBound { get; init; }
}

/// <summary>What the solver says of a question.</summary>
internal enum SolverWord
{
    /// <summary>Found, and nothing better can be.</summary>
    Closed,
    /// <summary>Found; whether it is the best is not known.</summary>
    Found,
    /// <summary>Nothing meets the conditions: proven.</summary>
    Impossible,
    /// <summary>Neither found nor proven impossible.</summary>
    Open,
}

/// <summary>An answer.</summary>
/// <param name="Word">What the solver says.</param>
/// <param name="Best">The value of the best found; null when nothing was.</param>
/// <param name="Bound">Nothing is better than this: as the solver reports it, whole, and not rounded to what was hoped for.</param>
/// <param name="Valuation">Gives the value of a number in the best found; null when nothing was.</param>
internal sealed record SolverAnswer(SolverWord Word, long? Best, long Bound, Func<IntVar, long>? Valuation);

/// <summary>
/// Questions about whole numbers with conditions, put to the constraint solver CP-SAT. This is the one place that knows the solver:
/// what it is told here in the words of a timetable, and what of its answers may be believed.
/// </summary>
internal sealed class ConstraintModel
{
    private readonly CpModel model = new();
    private bool least;
    private bool asked;

    /// <summary>A whole number between two others, both included.</summary>
    public IntVar Number(long from, long to, string name) => model.NewIntVar(from, to, name);

    /// <summary>A whole number in one of some ranges, ends included; at least one range.</summary>
    public IntVar Number(IEnumerable<(long From, long To)> ranges, string name) =>
        model.NewIntVarFromDomain(Domain.FromIntervals([.. ranges.Select(range => (long[])[range.From, range.To])]), name);

    /// <summary>A yes or no.</summary>
    public BoolVar Choice(string name) => model.NewBoolVar(name);

    /// <summary>Whatever holds only if all of some choices are taken is written <c>Holds(…).OnlyEnforceIf(…)</c>.</summary>
    public Constraint Holds(BoundedLinearExpression condition) => model.Add(condition);

    /// <summary>Exactly one of some choices.</summary>
    public void ExactlyOne(IEnumerable<ILiteral> choices) => model.AddExactlyOne(choices);

    /// <summary>At least one of some choices.</summary>
    public void AtLeastOne(IEnumerable<ILiteral> choices) => model.AddBoolOr(choices);

    /// <summary>The first choice brings the second with it.</summary>
    public void Brings(ILiteral first, ILiteral second) => model.AddImplication(first, second);

    /// <summary>One round trip from stop to stop; the choice of an arc from a stop to itself leaves that stop out.</summary>
    public void RoundTrip(IEnumerable<(int From, int To, ILiteral Taken)> arcs)
    {
        CircuitConstraint circuit = model.AddCircuit();
        foreach ((int from, int to, ILiteral taken) in arcs) circuit.AddArc(from, to, taken);
    }

    /// <summary>What takes up some of a thing that there is only so much of: never more at once than there is.</summary>
    public void Shares(IEnumerable<(LinearExpr Start, long Length, ILiteral? Taken, long Amount)> uses, long there)
    {
        CumulativeConstraint shared = model.AddCumulative(there);
        foreach ((LinearExpr start, long length, ILiteral? taken, long amount) in uses)
            shared.AddDemand(taken is null ? model.NewFixedSizeIntervalVar(start, length, "") : model.NewOptionalFixedSizeIntervalVar(start, length, taken, ""), amount);
    }

    /// <summary>The same of uses that last as long as they do.</summary>
    public void Shares(IEnumerable<(LinearExpr Start, LinearExpr End, ILiteral Taken)> uses, long there, long longest)
    {
        CumulativeConstraint shared = model.AddCumulative(there);
        foreach ((LinearExpr start, LinearExpr end, ILiteral taken) in uses)
            shared.AddDemand(model.NewOptionalIntervalVar(start, model.NewIntVar(0, longest, ""), end, taken, ""), 1);
    }

    /// <summary>Where the solver begins to look: a number in a solution that is known.</summary>
    public void Suggest(IntVar number, long value) => model.AddHint(number, value);

    /// <summary>Asks for the least of an expression; asked once.</summary>
    public void Least(LinearExpr of) => Ask(of, isLeast: true);

    /// <summary>Asks for the most of an expression; asked once.</summary>
    public void Most(LinearExpr of) => Ask(of, isLeast: false);

    private void Ask(LinearExpr of, bool isLeast)
    {
        if (asked) throw new InvalidOperationException("a model is asked one question");
        (asked, least) = (true, isLeast);
        if (isLeast) model.Minimize(of);
        else model.Maximize(of);
    }

    /// <summary>Makes a whole solution of what was suggested, and suggests that; what it comes to of what is asked, or null when it is none.</summary>
    public long? Complete()
    {
        // Little is left to find, so it is not prepared for long; where that little is much, it is left.
        using CpSolver solver = new() { StringParameters = "catch_sigint_signal:false,num_workers:1,random_seed:7,fix_variables_to_their_hinted_value:true,cp_model_probing_level:0,linearization_level:0,max_deterministic_time:1" };
        if (solver.Solve(model) is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible)) return null;
        PartialVariableAssignment whole = new();
        whole.Vars.AddRange(Enumerable.Range(0, solver.Response!.Solution.Count));
        whole.Values.AddRange(solver.Response.Solution);
        model.Model.SolutionHint = whole;
        return (long)Math.Round(solver.ObjectiveValue);
    }

    /// <summary>Solves.</summary>
    /// <param name="limits">How long.</param>
    /// <param name="bounded">Told each better bound while it thinks; null for nobody. Called from a thread of the solver.</param>
    /// <exception cref="InvalidOperationException">The model itself is wrong: a fault of this program.</exception>
    public SolverAnswer Solve(SolverLimits limits, Action<long>? bounded = null)
    {
        using CpSolver solver = new();
        // Left to itself the solver takes Ctrl-C over, and hands it back so that it ends the program.
        List<string> settings = ["catch_sigint_signal:false", $"num_workers:{limits.Threads}", "linearization_level:2", "random_seed:7"];
        if (!double.IsInfinity(limits.Seconds)) settings.Add(FormattableString.Invariant($"max_time_in_seconds:{Math.Max(0.01, limits.Seconds)}"));
        if (!double.IsInfinity(limits.Work)) settings.Add(FormattableString.Invariant($"max_deterministic_time:{limits.Work}"));
        // On two threads one of both does so anyway.
        if (limits is { PushesBound: true, Threads: 1 }) settings.Add("optimize_with_lb_tree_search:true");
        if (limits.IsSmall) settings.Add("cp_model_probing_level:0");
        // One that pushes the bound up and one that reasons by linear relaxation: on three cases of the frozen family better than other pairs.
        if (limits.Threads == 2) settings.Add("subsolvers:'lb_tree_search',subsolvers:'max_lp'");
        solver.StringParameters = string.Join(',', settings);
        if (bounded is not null) solver.SetBestBoundCallback(bound => bounded(Whole(bound)));
        using CancellationTokenRegistration registration = limits.Cancel.Register(solver.StopSearch);
        CpSolverStatus status = limits.Cancel.IsCancellationRequested ? CpSolverStatus.Unknown : solver.Solve(model);
        return status switch
        {
            CpSolverStatus.Optimal => new(SolverWord.Closed, Found(), Found(), solver.Value),
            CpSolverStatus.Feasible => new(SolverWord.Found, Found(), Whole(solver.BestObjectiveBound), solver.Value),
            CpSolverStatus.Infeasible => new(SolverWord.Impossible, null, least ? long.MaxValue : long.MinValue, null),
            CpSolverStatus.Unknown => new(SolverWord.Open, null, limits.Cancel.IsCancellationRequested && solver.Response is null ? Nothing : Whole(solver.BestObjectiveBound), null),
            _ => throw new InvalidOperationException($"the constraint model is wrong: {status}: {model.Validate()}"),
        };

        long Found() => (long)Math.Round(solver.ObjectiveValue);
    }

    private long Nothing => least ? long.MinValue : long.MaxValue;

    /// <summary>A bound as a whole number that is surely still one: towards the side that claims less, a hair's breadth of rounding forgiven.</summary>
    private long Whole(double bound) => Math.Abs(bound) > 1e15 ? Nothing : (long)(least ? Math.Ceiling(bound - 1e-6) : Math.Floor(bound + 1e-6));
}
