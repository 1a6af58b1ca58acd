using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads features and what refers to their states.</summary>
internal static class Features
{
    public static Feature Feature(MapReader r)
    {
        string id = r.Id("id", Kinds.Feature);
        ImmutableArray<TextNode> states = r.FilledTexts("states");
        foreach (TextNode state in states) r.Give(state, Kinds.State(id), blanks: true);
        string ofThis = Kinds.State(id);
        return new(new(id), [.. states.Select(state => state.Text)], r.Ref("start", ofThis), r.OptionalRef("ready", ofThis), r.OptionalRef("back", ofThis));
    }

    /// <summary><c>{feature: plugs, in: [mated], after_abort: [apart], why: bare pins}</c>.</summary>
    public static MayBeLeft MayBeLeft(MapReader r)
    {
        FeatureId feature = new(r.Ref("feature", Kinds.Feature));
        string ofThis = Kinds.State(feature.Value);
        ImmutableArray<string> safe = r.FilledRefs("in", ofThis, name => name), afterAbort = r.Refs("after_abort", ofThis, name => name);
        if (r.Find("feature") is TextNode { Empty: false } node && !r.Binding.Names.Give(Kinds.MayBeLeft, feature.Value, node.Place, out Place first))
            r.Binding.Report(NameProblems.Twice(node.Place, Kinds.MayBeLeft, feature.Value, first));
        foreach (string both in afterAbort.Intersect(safe)) r.Binding.Report(ScenarioProblems.SafeAnyway(r.Place, feature, both));
        return new(feature, safe, afterAbort, r.Text("why"));
    }

    /// <summary><c>{feature: latch, is: [sticky, free]}</c>.</summary>
    public static FeatureCondition Condition(MapReader r)
    {
        FeatureId feature = new(r.Ref("feature", Kinds.Feature));
        return new(feature, r.FilledRefs("is", Kinds.State(feature.Value), name => name));
    }

    /// <summary><c>{latch: free, jets: held}</c>; none when the key is missing.</summary>
    public static ImmutableArray<FeatureState> States(MapReader r, string key) => r.Entries(key, (name, value) =>
    {
        r.Use(name, Kinds.Feature);
        return r.AsText(value, name.Text) is { } state ? new FeatureState(new(name.Text), r.Use(state, Kinds.State(name.Text))) : null;
    });
}
