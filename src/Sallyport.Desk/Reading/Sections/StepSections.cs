using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the steps of a leg: times, needs, effects, break-offs.</summary>
internal static class StepSections
{
    /// <summary>Reads a step.</summary>
    /// <param name="r">Its map.</param>
    /// <param name="leg">The leg it belongs to.</param>
    /// <param name="site">Where that leg is done.</param>
    /// <param name="source">Where the times of the job come from, unless the step says otherwise; empty when the job does not say.</param>
    public static Step Step(MapReader r, LegId leg, SiteId site, string source)
    {
        StepId id = new(r.Id("id", Kinds.Step(leg.Value)));
        string own = r.OptionalText("source") ?? source;
        if (own.Length == 0) r.Binding.Report(ScenarioProblems.NoSource(r.Place, id));
        Fastener? fastener = r.OptionalMap("fastener", "a fastener", Fastener);
        ImmutableArray<Need> needs = r.List("needs", "a need", Need);
        // What a fastener is driven with is needed all the while, whether or not that is said again.
        if (fastener?.Tool is { } driver && !needs.Contains(new NeedGear(NeedTime.Throughout, driver))) needs = needs.Add(new NeedGear(NeedTime.Throughout, driver));
        return new(
            id, r.Text("do"), r.OptionalText("for") ?? "", r.StepTime("time", own),
            needs, r.List("makes", "an effect", inner => Effect(inner, site)),
            BreakOff(r, "abort"), BreakOff(r, "terminate"),
            r.Choice("work", ("rest", WorkClass.Rest), ("light", WorkClass.Light), ("moderate", WorkClass.Moderate), ("heavy", WorkClass.Heavy)),
            fastener,
            r.OptionalMap("fluid", "work on a fluid line", FluidSections.Touch))
        {
            Force = r.Has("force") ? r.Measure("force", Dimension.Force) : null,
            Ties = r.Refs("ties", Kinds.Gear, name => new GearId(name)),
            Led = r.Flag("led"),
            Rough = r.Flag("rough"),
            NoGlare = r.Flag("no_glare"),
            ChecksGloves = r.OptionalChoice("checks", ("gloves", true)) ?? false,
        };
    }

    private static Need Need(MapReader r)
    {
        NeedTime when = r.OptionalChoice("when", ("start", NeedTime.Start), ("throughout", NeedTime.Throughout), ("end", NeedTime.End)) ?? NeedTime.Start;
        return r.OneOf("feature", "gear", "dead", "go") switch
        {
            "gear" => new NeedGear(when, new(r.Ref("gear", Kinds.Gear))),
            "dead" => new NeedDead(when, new(r.Ref("dead", Kinds.Node)), r.Count("inhibits", "inhibits", 1)),
            "go" => new NeedGo(when, new(r.Ref("go", Kinds.Command))),
            "feature" => new NeedFeature(when, Features.Condition(r)),
            _ => Undecided(r, new NeedGear(when, new("")), "is", "inhibits"),
        };
    }

    private static Effect Effect(MapReader r, SiteId site)
    {
        switch (r.OneOf("feature", "gear", "stock"))
        {
            case "feature":
                FeatureId feature = new(r.Ref("feature", Kinds.Feature));
                return new MakeFeature(new(feature, r.Ref("becomes", Kinds.State(feature.Value))));
            case "gear":
                GearId gear = new(r.Ref("gear", Kinds.Gear));
                return new MoveGear(gear, r.RequiredText("to", "person") is { } to ? Locations.Read(r, to, "to", site) : Location.Inside);
            case "stock":
                return new UseStock(new(r.Ref("stock", Kinds.Stock)), r.Count("uses", "pieces", 1));
            default:
                return Undecided(r, new UseStock(new(""), 1), "becomes", "to", "uses");
        }
    }

    // Which form was meant is told already: the keys of all forms pass.
    private static T Undecided<T>(MapReader r, T harmless, params ReadOnlySpan<string> keys)
    {
        r.Know(keys);
        return harmless;
    }

    private static BreakOff BreakOff(MapReader r, string key) =>
        r.Map(key, $"what it takes to {key}", inner => new BreakOff(inner.Time("time"), Features.States(inner, "leaves")), "{time: 1 min}")
        ?? new(Duration.FromSeconds(1), []);

    private static Fastener Fastener(MapReader r)
    {
        Quantity torque = r.Quantity("torque", Dimension.Torque, "14 ft-lbf") ?? default;
        Quantity turns = r.Quantity("turns", Dimension.Count, "6 turns") ?? default;
        return new(torque.Value, turns.Value, $"{torque.Text}, {turns.Text}")
        {
            Bolt = r.OptionalRef("bolt", Kinds.Bolt) is { } bolt ? new BoltId(bolt) : null,
            Tool = r.OptionalRef("tool", Kinds.Tool) is { } tool ? new GearId(tool) : null,
        };
    }
}
