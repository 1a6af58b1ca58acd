using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

// What an edit makes of the texts, and two sets of texts as one.
public sealed partial class OpenSortie
{
    /// <summary>The texts with an edit done on them.</summary>
    /// <param name="edit">The edit.</param>
    /// <param name="on">What it was made on.</param>
    /// <param name="complete">Whether an outline gets what its legs need at once; not when it is merged with others' changes first.</param>
    /// <exception cref="CannotEdit">It cannot be done.</exception>
    private (Texts Texts, ImmutableArray<string> Changes) Do(SortieEdit edit, Evaluated on, bool complete)
    {
        Texts texts = on.Texts;
        switch (edit)
        {
            case Together together:
                ImmutableArray<string> all = [];
                foreach (SortieEdit one in together.Edits)
                {
                    if (one is Together) throw new CannotEdit("Edits are joined once, not within each other.");
                    // Each goes on from what the one before made; only outline edits need to know what that comes to.
                    (Texts next, ImmutableArray<string> changes) = Do(one, OutlineEdits.Kind(one).IsOne && !texts.Same(on.Texts) ? Evaluate(texts, on) : on with { Texts = texts }, complete);
                    (texts, all) = (next, all.AddRange(changes));
                }
                return (texts, all);
            case SetValue set:
                return (OnText(texts, set.File, text => YamlEdits.Set(set.File, text, set.Path, set.Text)), []);
            case SetList set:
                return (OnText(texts, set.File, text => YamlEdits.SetList(set.File, text, set.Path, set.Items)), []);
            case AddItem add:
                return (OnText(texts, add.File, text => YamlEdits.Add(add.File, text, add.Path, add.Text, add.Before)), []);
            case RemoveItem remove:
                return (OnText(texts, remove.File, text => YamlEdits.Remove(remove.File, text, remove.Path)), []);
            case MoveItem move:
                return (OnText(texts, move.File, text => YamlEdits.Move(move.File, text, move.Path, move.Later)), []);
            case ReplaceText replace:
                return (Replace(texts, replace), []);
            case TakeOutline take:
                return (Keep(texts, take), []);
            default:
                if (on.Outline is not { } outline) throw new CannotEdit(texts.Chosen is null ? "There is no outline to edit: search one, or begin one by hand." : "The outline cannot be read, so it can only be edited as text.", on.Problems);
                (Outline edited, ImmutableArray<string> told) = OutlineEdits.Do(edit, outline, on.Desk!, on.Plan, job => LastWith(job, on));
                if (!complete) return (Written(on, outline, edited), told);
                (Texts completed, ImmutableArray<string> more) = Complete(on, outline, edited, OutlineEdits.Kind(edit).MovesLegs);
                return (completed, [.. told, .. more]);
        }
    }

    /// <summary>What some edits of the files would come to, without doing them.</summary>
    /// <param name="edits">The edits, each made on what the one before left; with none, what stands is looked at.</param>
    public SortiePreview Preview(ImmutableArray<SortieEdit> edits)
    {
        Evaluated on;
        lock (gate) on = now;
        try
        {
            Texts texts = edits.IsEmpty ? on.Texts : Do(new Together(edits), on, complete: false).Texts;
            Binding binding = new();
            ReadResult<ScenarioRead> read = texts.Unfit is { } unfit ? new(null, [unfit], [])
                : ScenarioReader.ReadWhole(folder, texts.Files.Where(file => !SortieFiles.IsOutline(file.Key)).ToDictionary(file => file.Key, file => file.Value.Bytes), binding);
            return new([.. texts.Files.Select(file => new SortieFile(file.Key, file.Value.Text))], [.. read.Problems.Select(Short)], new(binding.Names, read.Value?.Scenario ?? on.Desk?.Scenario), null);
        }
        catch (CannotEdit why)
        {
            return new([], [.. why.Problems.Select(Short)], KnownNames.None, why.Message);
        }
    }

    /// <summary>The outline as it was when a job was in it last, as far as the changes since this was opened know; null when they do not.</summary>
    private Outline? LastWith(JobId id, Evaluated on)
    {
        if (on.Desk!.Scenario.Jobs.FirstOrDefault(one => one.Id == id) is not { } job) return null;
        string file = SortieFiles.OutlinePath(on.Texts.Chosen!);
        foreach (Texts texts in history.Values.Reverse())
            if (texts.Files.TryGetValue(file, out HeldFile? held) && job.Legs.All(leg => held.Text.Contains(leg.Id.Value, StringComparison.Ordinal))
                && OutlineFile.Read(held.Bytes, file, on.Desk.Scenario).Value is { } outline
                && job.Legs.All(leg => OutlineEdits.ListsOf(outline).Any(list => OutlineEdits.Has(list, leg.Id))))
                return outline;
        return null;
    }

    /// <summary>The texts with an outline in place of the one told, and with what its legs need.</summary>
    private static (Texts Texts, ImmutableArray<string> Changes) Complete(Evaluated on, Outline told, Outline edited, bool anew)
    {
        Planning.Completed completed = on.Desk!.Complete(edited, anew);
        return (Written(on, told, completed.Outline), [.. completed.Changes, .. completed.Notes]);
    }

    private static Texts Written(Evaluated on, Outline told, Outline wanted)
    {
        string file = SortieFiles.OutlinePath(on.Texts.Chosen!);
        HeldFile held = Text(on.Texts, file);
        string? merged = OutlineFile.Merge(held.Text.TrimStart('\uFEFF'), told, wanted, on.Desk!.Scenario);
        if (merged is not null) return on.Texts.With(file, HeldFile.Of(file, LineText.InTheFormOf(held.Text, merged)));
        // What this program wrote and nobody edited holds nothing that could be lost.
        if (OutlineFile.IsAsWritten(held.Bytes)) return on.Texts.With(file, new(OutlineFile.Marked(OutlineFile.Write(wanted))));
        throw new CannotEdit($"{file} is written in a form that cannot be changed line by line, such as several entries on one line. Put each entry on a line of its own, or edit the text.");
    }

    private static Texts OnText(Texts texts, string file, Func<string, string> change)
    {
        HeldFile held = Text(texts, file);
        string changed = change(held.Text);
        return changed == held.Text ? texts : texts.With(file, HeldFile.Of(file, changed));
    }

    private static HeldFile Text(Texts texts, string file) =>
        !texts.Files.TryGetValue(file, out HeldFile? held) ? throw new CannotEdit($"There is no file '{file}' in this scenario.")
        : held.IsText ? held : throw new CannotEdit($"{file} is not UTF-8 text, so it can only be replaced as a whole.");

    private static Texts Replace(Texts texts, ReplaceText replace)
    {
        bool isThere = texts.Files.TryGetValue(replace.File, out HeldFile? held);
        if (!isThere && !SortieFiles.IsFileName(replace.File)) throw new CannotEdit($"'{replace.File}' cannot name a file here.", [FileProblems.BadName(replace.File)]);
        // A browser has its own line ends; what did not change keeps those of the file.
        string plain = replace.Text.ReplaceLineEndings("\n").TrimStart('\uFEFF');
        return texts.With(replace.File, HeldFile.Of(replace.File, isThere && held!.IsText ? LineText.InTheFormOf(held.Text, plain) : plain));
    }

    private static Texts Keep(Texts texts, TakeOutline take)
    {
        if (!SortieFiles.IsName(take.Name) || take.Name.EndsWith(".yaml", StringComparison.Ordinal)) throw new CannotEdit($"'{take.Name}' cannot name an outline.", [FileProblems.BadName(take.Name)]);
        string name = take.Name;
        for (int number = 2; texts.Files.ContainsKey(SortieFiles.OutlinePath(name)); number++) name = $"{take.Name}-{number}";
        string path = SortieFiles.OutlinePath(name);
        return texts.With(path, HeldFile.Of(path, take.Text.ReplaceLineEndings("\n"))) with { Chosen = name };
    }

    /// <summary>Two changes of the same texts as one; null, and the first conflict, where both touch the same lines.</summary>
    private Texts? Join(Texts made, Texts mine, Texts theirs, string by, out Conflict? conflict)
    {
        conflict = null;
        Texts joined = theirs;
        foreach (string file in Different(made, mine))
        {
            HeldFile? before = made.Files.GetValueOrDefault(file), own = mine.Files.GetValueOrDefault(file), other = theirs.Files.GetValueOrDefault(file);
            bool unchanged = ReferenceEquals(before, other) || (before is not null && other is not null && before.Bytes.AsSpan().SequenceEqual(other.Bytes));
            if (unchanged) joined = joined.With(file, own);
            else if (before is { IsText: true } && own is { IsText: true } && other is { IsText: true } && LineText.Merge(before.Text, own.Text, other.Text) is { } merged) joined = joined.With(file, HeldFile.Of(file, merged));
            else
            {
                conflict = new(file, before?.Text, own?.Text, other?.Text, lastBy.TryGetValue(file, out (long, string By) last) ? last.By : by);
                return null;
            }
        }
        return made.Chosen == mine.Chosen ? joined : joined with { Chosen = mine.Chosen };
    }

    private static IEnumerable<string> FilesIn(SortieEdit edit) => edit switch
    {
        Together together => together.Edits.SelectMany(FilesIn),
        SetValue set => [set.File],
        SetList set => [set.File],
        AddItem add => [add.File],
        RemoveItem remove => [remove.File],
        MoveItem move => [move.File],
        ReplaceText replace => [replace.File],
        _ => [],
    };

    private static string Told(SortieEdit edit) => edit switch
    {
        MoveLeg { Before: { } before } move => $"{move.Person} does {move.Leg} before {before}",
        MoveLeg move => $"{move.Person} does {move.Leg} last",
        MoveLegTo move => $"{move.Person} does {move.Leg} near PET {move.Moment}",
        Pin { Moment: { } moment } pin => $"{pin.Leg} pinned to PET {moment}",
        Pin pin => $"{pin.Leg} pinned where it is",
        Unpin unpin => $"{unpin.Leg} unpinned",
        PinPerson pin => $"{pin.Leg} pinned to who does it",
        LeaveOut leave => $"{leave.Job} left out",
        BringBack back => $"{back.Job} brought back",
        TakeOutline take => $"outline {take.Name} taken",
        SetValue { Text: null } set => $"{set.Path} taken out of {set.File}",
        SetValue set => $"{set.Path} in {set.File} set to {set.Text}",
        SetList set => $"{set.Path} in {set.File} set to {string.Join(", ", set.Items)}",
        AddItem add => $"an item added to {add.Path} in {add.File}",
        RemoveItem remove => $"{remove.Path} taken out of {remove.File}",
        MoveItem move => $"{move.Path} in {move.File} moved {(move.Later ? "down" : "up")}",
        ReplaceText replace => $"{replace.File} edited as text",
        Together { Edits: [var first, ..] } together => together.Edits.Length == 1 ? Told(first) : $"{Told(first)}, and {together.Edits.Length - 1} more",
        _ => "nothing",
    };
}
