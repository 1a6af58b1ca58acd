using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads the section clocks.</summary>
internal static class ClockSections
{
    public static HeatClock Clock(MapReader r)
    {
        ClockId id = new(r.Id("id", Kinds.Clock, blanks: true));
        ClockKind kind = r.Choice("runs", ("cold", ClockKind.Cold), ("hot", ClockKind.Hot));
        ImmutableArray<WorldCondition> whiles = r.FilledList("while", "a condition", Condition);
        int before = r.Binding.Count;
        ImmutableArray<ClockRate> lasts = r.FilledList("lasts", "a time that it lasts", Rate);
        // Of rates that were not read whole nothing can be said.
        if (r.Binding.Count == before)
            for (int i = 0; i < lasts.Length; i++)
                if (lasts[i].When.IsEmpty != (i == lasts.Length - 1)) r.Binding.Report(PowerProblems.Rates(r.Binding.PlaceOf(lasts[i]), id, isLast: i == lasts.Length - 1));
        return new(id, kind, whiles, lasts, r.Flag("may_run_on"), r.Text("source"));
    }

    private static ClockRate Rate(MapReader r) => new(r.List("when", "a condition", Condition), r.LimitTime("time"));

    private static WorldCondition? Condition(MapReader r)
    {
        switch (r.OneOf("feature", "gear", "light", "shutdown"))
        {
            case "feature":
                return new FeatureIs(Features.Condition(r));
            case "gear":
                GearId gear = new(r.Ref("gear", Kinds.Gear));
                return new GearIsIn(gear, r.RequiredText("in", "bag gyro-bag") is { } place ? Locations.Read(r, place, "in") : Location.Inside);
            case "light":
                return new LightIs(r.Choice("light", ("day", LightCondition.Day), ("night", LightCondition.Night)));
            case "shutdown":
                return new IsShutDown(new(r.Ref("shutdown", Kinds.Shutdown)));
            default:
                r.Know("is", "in");
                return null;
        }
    }
}
