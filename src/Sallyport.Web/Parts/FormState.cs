using Sallyport.Desk;

namespace Sallyport.Web.Parts;

/// <summary>What the fields of a form share: the names to choose from, and the new item that is being filled in, if there is one.</summary>
public sealed record FormState(KnownNames Names)
{
    /// <summary>Whether the form is that of a new item, which is in no file yet.</summary>
    public bool IsDraft { get; init; }

    /// <summary>The new item; null for none.</summary>
    public ItemDraft? Draft { get; init; }

    /// <summary>What it comes to.</summary>
    public DraftSight? Sight { get; init; }

    /// <summary>Why it was not added when that was asked for.</summary>
    public EditOutcome? Outcome { get; init; }

    /// <summary>Begins a new item of a list.</summary>
    public Func<string, Task> Begin { get; init; } = _ => Task.CompletedTask;

    /// <summary>Changes a field of the new item.</summary>
    public Func<Func<string, SortieEdit>, Task<EditOutcome>> Change { get; init; } = _ => Task.FromResult<EditOutcome>(new Refused("There is no new item.", []));

    /// <summary>Puts the new item into its file.</summary>
    public Func<Task> Add { get; init; } = () => Task.CompletedTask;

    /// <summary>Throws the new item away.</summary>
    public Func<Task> Forget { get; init; } = () => Task.CompletedTask;
}
