using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Sallyport.Desk;
using Sallyport.Model;

namespace Sallyport.Web.Parts;

/// <summary>What pages show of plans, made once for all who look at the same plan as large; forgotten with the plan.</summary>
internal static class ChartShelf
{
    private static readonly ConditionalWeakTable<ProvenPlan, ConcurrentDictionary<(ChartSize Size, bool IsWhole), Lazy<PlanView>>> Views = [];
    private static readonly ConditionalWeakTable<SortieState, ConcurrentDictionary<ChartSize, Lazy<(SortieMessage, byte[])>>> Told = [];
    // The whole verdict on a plan is another verdict on the same timeline.
    private static readonly ConditionalWeakTable<Timeline, Lazy<byte[]>> Besides = [];

    /// <summary>What is shown of a state; null where there is no plan.</summary>
    public static PlanView? Of(SortieState state, ChartSize size) => state is { Desk: { } desk, Plan: { } plan } ? Of(desk, plan, state.Proving == Proving.Whole, size) : null;

    /// <summary>What is shown of a plan.</summary>
    public static PlanView Of(SortieDesk desk, ProvenPlan plan, bool isWhole, ChartSize size) =>
        Views.GetValue(plan, _ => new()).GetOrAdd((size, isWhole), one => new(() => desk.ViewOf(plan, one.IsWhole, one.Size.Width, one.Size.Strip, "chart-"))).Value;

    /// <summary>What a state says to all, and as JSON.</summary>
    public static (SortieMessage Message, byte[] Json) ToldOf(SortieState state, ChartSize size) => Told.GetValue(state, _ => new()).GetOrAdd(size, one => new(() =>
    {
        SortieMessage message = SortieMessage.Of(state, one);
        return (message, SortieMessage.ToJson(message));
    })).Value;

    /// <summary>What is so at each moment of a plan, as JSON; empty where there is no plan.</summary>
    public static byte[] BesideOf(SortieState state) => state is { Desk: { } desk, Plan: { } plan } ? Besides.GetValue(plan.Likely, _ => new(() => SortieMessage.ToJson(desk.BesideOf(plan)))).Value : [];
}

/// <summary>How large a chart is drawn, in the units of the picture: few sizes, so that pages share it.</summary>
/// <param name="Width">How wide.</param>
/// <param name="Strip">How high the strip of a person is.</param>
internal readonly record struct ChartSize(int Width, int Strip)
{
    /// <summary>Before a page has told how large it is: as on a screen of 1280 by 720.</summary>
    public static ChartSize First { get; } = new(950, 80);

    /// <summary>For a place of a size, with so many strips.</summary>
    /// <param name="width">Its width, as the page measured it: whatever it tells is taken, within bounds.</param>
    /// <param name="height">Its height.</param>
    /// <param name="strips">How many people go outside.</param>
    public static ChartSize For(double width, double height, int strips)
    {
        const double rest = 270, between = 48;
        double strip = (height - rest) / Math.Max(1, strips) - between;
        return new((int)Math.Clamp(Math.Round(Finite(width, 950) / 50) * 50, 900, 2400), (int)Math.Clamp(Math.Round(Finite(strip, 80) / 20) * 20, 80, 300));
    }

    private static double Finite(double value, double otherwise) => double.IsFinite(value) ? Math.Clamp(value, -1e5, 1e5) : otherwise;
}
