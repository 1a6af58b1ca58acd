using Xunit.v3;

namespace Sallyport.Tests;

/// <summary>Marks a test that holds our figures against a published one: the card lies in <c>tests/References/&lt;id&gt;/card.md</c>.</summary>
/// <remarks>It is a trait, so that <c>--filter-trait Reference=units</c> runs every test that leans on one source.</remarks>
[AttributeUsage(AttributeTargets.Method | AttributeTargets.Class, AllowMultiple = true)]
internal sealed class ReferenceAttribute(string id) : Attribute, ITraitAttribute
{
    public IReadOnlyCollection<KeyValuePair<string, string>> GetTraits() => [new("Reference", id)];
}
