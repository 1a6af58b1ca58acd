using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>A trace read as one history a variable. Rules ask it what was so at a moment, and from when to when.</summary>
public sealed class History
{
    private readonly Dictionary<string, int> byName;
    private readonly List<Change>[] changes;

    /// <summary>Sorts a trace's changes by variable.</summary>
    public History(Trace trace)
    {
        Trace = trace;
        byName = trace.Variables.Select((variable, index) => (variable.Name, index)).ToDictionary(pair => pair.Name, pair => pair.index, StringComparer.Ordinal);
        int[] counts = new int[trace.Variables.Length];
        foreach (Change change in trace.Changes) counts[change.Variable]++;
        changes = [.. counts.Select(count => new List<Change>(count))];
        foreach (Change change in trace.Changes) changes[change.Variable].Add(change);
    }

    /// <summary>The trace.</summary>
    public Trace Trace { get; }

    /// <summary>The variable of this name; null when the trace has none.</summary>
    public int? Find(string name) => byName.TryGetValue(name, out int variable) ? variable : null;

    /// <summary>The variable of this name, which must exist.</summary>
    public int this[string name] => Find(name) ?? throw new ArgumentException($"the trace has no variable '{name}'");

    /// <summary>The changes of one variable, in order of time.</summary>
    public IReadOnlyList<Change> Changes(int variable) => changes[variable];

    /// <summary>The changes of one variable between two moments, in neither of them.</summary>
    public IEnumerable<Change> Changes(int variable, Pet after, Pet before)
    {
        List<Change> own = changes[variable];
        for (int i = After(own, after); i < own.Count && own[i].At < before; i++) yield return own[i];
    }

    /// <summary>The value from this moment on: after everything that happens in it.</summary>
    public int At(int variable, Pet moment)
    {
        List<Change> own = changes[variable];
        int next = After(own, moment);
        return next == 0 ? Trace.Start[variable] : own[next - 1].Value;
    }

    /// <summary>The place of the first change after a moment.</summary>
    private static int After(List<Change> own, Pet moment)
    {
        int low = 0, high = own.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (own[middle].At <= moment) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    /// <summary>The state from this moment on.</summary>
    public string StateAt(int variable, Pet moment) => Trace.Variables[variable].States[At(variable, moment)];

    /// <summary>The value at the very end.</summary>
    public int Last(int variable) => changes[variable].Count == 0 ? Trace.Start[variable] : changes[variable][^1].Value;

    /// <summary>The state at the very end.</summary>
    public string LastState(int variable) => Trace.Variables[variable].States[Last(variable)];

    /// <summary>The stretches in which the value keeps the same, from the start of the trace to its end; none is empty.</summary>
    public IEnumerable<(Pet From, Pet To, int Value)> Stretches(int variable)
    {
        Pet from = Trace.From;
        int value = Trace.Start[variable];
        foreach (Change change in changes[variable])
        {
            if (change.At > from) yield return (from, change.At, value);
            (from, value) = (change.At, change.Value);
        }
        if (Trace.To > from) yield return (from, Trace.To, value);
    }

    /// <summary>The stretches in which the state is as asked, joined where they touch.</summary>
    public ImmutableArray<PetInterval> While(int variable, Func<string, bool> state)
    {
        ImmutableArray<string> states = Trace.Variables[variable].States;
        return Intervals.Join(Stretches(variable).Where(one => state(states[one.Value])).Select(one => new PetInterval(one.From, one.To)));
    }
}
