using System.Collections.Immutable;

namespace Sallyport.Model;

/// <summary>In which states a feature may be left when everybody goes in before the work is done.</summary>
/// <param name="Feature">Which.</param>
/// <param name="In">The states that are safe to leave behind.</param>
/// <param name="AfterAbort">Further states that may be left by an abort, until the next walk; empty for none.</param>
/// <param name="Why">What is wrong with any other state, in words that follow "because".</param>
public sealed record MayBeLeft(FeatureId Feature, ImmutableArray<string> In, ImmutableArray<string> AfterAbort, string Why);
