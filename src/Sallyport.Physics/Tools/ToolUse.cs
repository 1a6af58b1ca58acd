using Sallyport.Model;

namespace Sallyport.Physics;

/// <summary>What a step takes out of a battery tool.</summary>
public static class ToolUse
{
    /// <summary>Turns driven with the tool, of all bolts alike that the step drives; or one use for a step that needs the tool.</summary>
    /// <param name="tool">A tool with a battery.</param>
    /// <param name="step">The step.</param>
    /// <param name="bolts">The fasteners of the scenario.</param>
    /// <returns>Turns or uses, as the tool's charge is counted; 0 when the step leaves the tool alone.</returns>
    public static double Of(Gear tool, Step step, IEnumerable<Bolt> bolts)
    {
        bool drives = step.Fastener?.Tool == tool.Id;
        if (tool.Charge is not { } charge) return 0;
        if (!charge.ByTurns) return drives || step.Needs.OfType<NeedGear>().Any(need => need.Gear == tool.Id) ? 1 : 0;
        if (!drives) return 0;
        int number = bolts.FirstOrDefault(bolt => bolt.Id == step.Fastener!.Bolt)?.Number ?? 1;
        return Math.Abs(step.Fastener!.Turns) * number;
    }
}
