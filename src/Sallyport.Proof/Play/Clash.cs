using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>One phase of one instant. All conditions are checked before any effect is applied, and it is seen whether two activities
/// write one variable, or one writes what another reads: then their order would matter, and the plan does not say it.</summary>
internal sealed class Clash(World world, Record record)
{
    private readonly List<(int Variable, Activity Activity)> readers = [];
    private readonly SortedDictionary<int, List<Activity>> writers = [];
    private readonly HashSet<(ActivityId, ActivityId, string)> told = [];
    private readonly List<int> reads = [];
    private Pet now;
    private bool several;

    /// <summary>A phase begins.</summary>
    /// <param name="moment">When.</param>
    /// <param name="does">How many things are done in it: one alone clashes with nothing, and what it reads and writes need not be noted.</param>
    public void Open(Pet moment, int does)
    {
        now = moment;
        several = does > 1;
        readers.Clear();
        writers.Clear();
        told.Clear();
    }

    /// <summary>Checks conditions, and notes those that fail.</summary>
    public void Check(Activity activity, params ReadOnlySpan<Condition> conditions)
    {
        foreach (Condition condition in conditions)
        {
            bool holds;
            if (several)
            {
                reads.Clear();
                holds = world.Holds(condition, reads);
                Note(activity, reads);
            }
            else holds = condition.Holds();
            if (!holds) record.Fails(activity, condition, now);
        }
    }

    /// <summary>Notes what an activity read in this phase.</summary>
    public void Note(Activity activity, IReadOnlyList<int> reads)
    {
        if (!several) return;
        for (int i = 0; i < reads.Count; i++) readers.Add((reads[i], activity));
    }

    /// <summary>Applies an effect. What it looks at while it is applied counts as read too.</summary>
    public void Apply(Activity activity, Action effect)
    {
        if (several) Noting(activity, effect);
        else record.By(activity.Id, effect);
    }

    private void Noting(Activity activity, Action effect)
    {
        reads.Clear();
        world.NotingReads(reads, () => record.By(activity.Id, effect, variable => Writes(variable, activity)));
        Note(activity, reads);
    }

    /// <summary>Tells of every clash; of two activities that clash over several variables, of the first.</summary>
    public void Tell()
    {
        foreach ((int variable, List<Activity> by) in writers)
        {
            string name = world.Register.Variables[variable].Name;
            for (int i = 0; i < by.Count; i++)
            {
                for (int j = i + 1; j < by.Count; j++) Tell(by[i], by[j], name, "change");
                foreach ((int read, Activity reader) in readers)
                    if (read == variable && reader.Id != by[i].Id && !by.Contains(reader)) Tell(by[i], reader, name, "change and look at");
            }
        }
    }

    private void Tell(Activity one, Activity other, string variable, string does)
    {
        // Named in a fixed order, so that the order of play does not show.
        (Activity first, Activity second) = string.CompareOrdinal(one.Id.Value, other.Id.Value) <= 0 ? (one, other) : (other, one);
        if (!told.Add((first.Id, second.Id, does))) return;
        record.Tell(new Fact(
            new RuleId("time.clash"), now, first.Id, [.. first.People.Union(second.People)],
            $"{first.Id} and {second.Id} {does} '{variable}' in the same instant, so that it matters which comes first.",
            $"Let {second.Id} start or end at least one second apart from {first.Id}."));
    }

    private void Writes(int variable, Activity activity)
    {
        if (!writers.TryGetValue(variable, out List<Activity>? list)) writers[variable] = list = [];
        if (!list.Contains(activity)) list.Add(activity);
    }
}
