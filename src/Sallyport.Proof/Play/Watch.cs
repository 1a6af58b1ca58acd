using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>The conditions that must hold throughout what is running, each kept with the variables it read when looked at last.</summary>
internal sealed class Watch(World world, Record record)
{
    private readonly Dictionary<int, List<Watched>> watchers = [];
    private readonly Dictionary<ActivityId, List<Watched>> running = [];

    /// <summary>Checks an activity's throughout conditions for the first time and keeps watching them.</summary>
    /// <returns>What they read.</returns>
    public IReadOnlyList<int> Begin(Deed deed, Pet now)
    {
        if (deed.Throughout.Count == 0) return [];
        List<int> reads = [];
        List<Watched> all = running[deed.Activity.Id] = [];
        foreach (Condition condition in deed.Throughout)
        {
            Watched watched = new(deed.Activity, condition);
            all.Add(watched);
            Look(watched, now);
            foreach (int variable in watched.Reads)
                if (!reads.Contains(variable)) reads.Add(variable);
        }
        return reads;
    }

    /// <summary>Looks again at every condition that read one of these variables.</summary>
    public void Recheck(IReadOnlyList<int> changed, Pet now)
    {
        List<Watched>? due = null;
        for (int i = 0; i < changed.Count; i++)
            if (watchers.TryGetValue(changed[i], out List<Watched>? watching))
                foreach (Watched watched in watching)
                    if (!(due ??= []).Contains(watched)) due.Add(watched);
        if (due is null) return;
        foreach (Watched watched in due) Look(watched, now);
    }

    /// <summary>The activity has ended: its conditions need not hold any more.</summary>
    public void End(Deed deed)
    {
        if (!running.Remove(deed.Activity.Id, out List<Watched>? all)) return;
        foreach (Watched watched in all) Forget(watched);
    }

    private void Look(Watched watched, Pet now)
    {
        Forget(watched);
        watched.Reads.Clear();
        if (!world.Holds(watched.Condition, watched.Reads))
        {
            // Told once: what has failed is not watched further, so that one cause gives one finding.
            record.Fails(watched.Activity, watched.Condition, now);
            return;
        }
        foreach (int variable in watched.Reads)
        {
            if (!watchers.TryGetValue(variable, out List<Watched>? watching)) watchers[variable] = watching = [];
            watching.Add(watched);
        }
    }

    private void Forget(Watched watched)
    {
        foreach (int variable in watched.Reads)
            if (watchers.TryGetValue(variable, out List<Watched>? watching)) watching.Remove(watched);
    }

    private sealed class Watched(Activity activity, Condition condition)
    {
        public Activity Activity { get; } = activity;

        public Condition Condition { get; } = condition;

        public List<int> Reads { get; } = [];
    }
}
