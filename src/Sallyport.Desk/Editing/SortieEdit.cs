using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>One thing that a person changes. It becomes a change of the text of a file, the smallest that says so.</summary>
public abstract record SortieEdit;

/// <summary>A leg goes into somebody's list, before another leg of it or at its end. What serves it is found anew.</summary>
public sealed record MoveLeg(LegId Leg, PersonId Person, LegId? Before) : SortieEdit;

/// <summary>A leg goes into somebody's list, into the order in which it begins nearest to a moment.</summary>
public sealed record MoveLegTo(LegId Leg, PersonId Person, Pet Moment) : SortieEdit;

/// <summary>A leg is pinned to a moment, or, without one, to the moment at which it begins now.</summary>
public sealed record Pin(LegId Leg, Pet? Moment) : SortieEdit;

/// <summary>Every pin of a leg is taken out.</summary>
public sealed record Unpin(LegId Leg) : SortieEdit;

/// <summary>A leg stays with the person who does it, also when search goes on from here.</summary>
public sealed record PinPerson(LegId Leg) : SortieEdit;

/// <summary>A job is left out.</summary>
public sealed record LeaveOut(JobId Job, string Why = "left out by hand") : SortieEdit;

/// <summary>A job that is left out comes back, its legs at the end of the lists of those who may do them.</summary>
public sealed record BringBack(JobId Job) : SortieEdit;

/// <summary>An outline is kept in a file of its own, under this name or the next free one, and chosen: an alternative, what search found.</summary>
public sealed record TakeOutline(string Name, string Text) : SortieEdit;

/// <summary>One value of a scenario file is set; with no text, it is taken out. A key that is not there yet is added.</summary>
/// <param name="File">The file, such as <c>jobs.yaml</c>.</param>
/// <param name="Path">Keys and items joined by '/', such as <c>jobs/latch/legs/free/steps/0/time</c>: an item is named by its number from 0 or by its id or name.</param>
/// <param name="Text">The value as a person says it, without quotes.</param>
public sealed record SetValue(string File, string Path, string? Text) : SortieEdit;

/// <summary>A list of single values is set, such as who may do a leg; with none, it is taken out.</summary>
public sealed record SetList(string File, string Path, ImmutableArray<string> Items) : SortieEdit;

/// <summary>An item is added to a list, before the one with this number or at the end; a list that is not there yet is made.</summary>
/// <param name="File">The file.</param>
/// <param name="Path">The list.</param>
/// <param name="Text">The item as YAML, one line or several, without the dash.</param>
/// <param name="Before">The number of the item that it goes before, from 0; null for the end.</param>
public sealed record AddItem(string File, string Path, string Text, int? Before = null) : SortieEdit;

/// <summary>An item is taken out of a list.</summary>
public sealed record RemoveItem(string File, string Path) : SortieEdit;

/// <summary>An item of a list goes one place earlier, or later.</summary>
public sealed record MoveItem(string File, string Path, bool Later) : SortieEdit;

/// <summary>The text of a file is replaced; it may be one that is not there yet.</summary>
public sealed record ReplaceText(string File, string Text) : SortieEdit;

/// <summary>Several edits as one: all of them, or none; undone as one.</summary>
public sealed record Together(ImmutableArray<SortieEdit> Edits) : SortieEdit;

/// <summary>What came of an edit.</summary>
public abstract record EditOutcome;

/// <summary>It is saved.</summary>
/// <param name="State">What stands now.</param>
public sealed record Accepted(SortieState State) : EditOutcome;

/// <summary>It was not done, and nothing changed.</summary>
/// <param name="Why">Why, one sentence or more.</param>
/// <param name="Problems">The problems it would have brought, with line and column; may be empty.</param>
public sealed record Refused(string Why, ImmutableArray<Problem> Problems) : EditOutcome;

/// <summary>It was made on an older state, and somebody else has changed the same lines since. Nothing changed.</summary>
/// <param name="File">The file.</param>
/// <param name="Before">What both began from.</param>
/// <param name="Mine">What the edit would have made of that.</param>
/// <param name="Theirs">What stands now.</param>
/// <param name="By">Who changed the file last.</param>
public sealed record Conflict(string File, string? Before, string? Mine, string? Theirs, string By) : EditOutcome;
