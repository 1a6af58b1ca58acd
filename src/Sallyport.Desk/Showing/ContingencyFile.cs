using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The file of contingencies: how each comes out, with the timeline that follows it. Such a timeline can be judged as told.</summary>
internal sealed record ContingencyFile(string Scenario, string PlanId, ImmutableArray<FollowedContingency> Contingencies);

/// <summary>A contingency and what follows it; no timeline where none could be made.</summary>
internal sealed record FollowedContingency(ContingencyProof Proof, Timeline? Timeline);
