using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>How a contingency of a leg in the plan comes out.</summary>
/// <param name="Branch">The branch of the plan that it happens in.</param>
/// <param name="Trouble">The contingency, and the way on that was proven; unproven, the way that breaks least.</param>
/// <param name="Who">Who meets it.</param>
/// <param name="Do">What is done, in the words of the job.</param>
/// <param name="Tools">What must be at hand for it.</param>
/// <param name="Absent">What of that is not at hand when it happens.</param>
/// <param name="Proven">Whether that way plays clean.</param>
/// <param name="LeftOut">The jobs of the plan that are left out on that way.</param>
/// <param name="End">When everybody is in and the hatch closed on that way; null when it could not be played.</param>
/// <param name="Margin">The least of its margins; null when it could not be played or has none.</param>
/// <param name="MarginOf">What that is the margin of, in words.</param>
/// <param name="Broken">For each way tried and not proven, what it breaks: one sentence a way.</param>
public sealed record ContingencyProof(
    Branch Branch, Trouble Trouble, PersonId Who, string Do, ImmutableArray<GearId> Tools, ImmutableArray<GearId> Absent, bool Proven,
    ImmutableArray<JobId> LeftOut, Pet? End, Duration? Margin, string MarginOf, ImmutableArray<string> Broken);
