using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Planning;

/// <summary>What of a plan is done or under way at a moment: a decode goes on from there.</summary>
/// <param name="Deeds">What was done and what runs on, in order of time.</param>
/// <param name="Units">By unit, whether it is among that.</param>
/// <param name="Entries">By person, the entries that stand for it, as they were.</param>
/// <param name="Now">The moment, s of PET: a window that was ended before it is not opened again by joining.</param>
internal sealed record PlanSoFar(IReadOnlyList<Deed> Deeds, bool[] Units, ImmutableArray<Entry>[] Entries, int Now);

/// <summary>The plan that a new one stays close to: by leg, who does it and what that person did before; -1 for none.</summary>
/// <param name="Doer">By leg, who; -1 where the plan leaves it out.</param>
/// <param name="Before">By leg, the leg before it in the same list; -1 for the first.</param>
/// <param name="Weight">What each leg that somebody else does, is dropped or is new, and each new neighbour, counts; s of the end.</param>
internal sealed record StayClose(int[] Doer, int[] Before, int Weight);
