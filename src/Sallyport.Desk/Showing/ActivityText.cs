using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Activities in the words of a running sheet.</summary>
public static class ActivityText
{
    /// <summary>What goes on, as said to one person, or about everybody.</summary>
    public static string Of(Scenario scenario, Activity activity, PersonId? to) => activity switch
    {
        AirlockPhase phase => phase.Phase switch
        {
            AirlockPhaseKind.Out => $"out through the hatch of {phase.Airlock}",
            AirlockPhaseKind.WaitInside => "wait inside for the turn to go out",
            AirlockPhaseKind.BagsOut => "bags out",
            AirlockPhaseKind.Check => "mutual check",
            AirlockPhaseKind.Inventory => "clean-up and inventory at the hatch",
            AirlockPhaseKind.BagsIn => "bags in",
            AirlockPhaseKind.In => "in through the hatch, onto station supply",
            AirlockPhaseKind.SafeInside => "safe inside, others coming in",
            _ => "close the hatch, begin repress",
        },
        Translate walk => $"go {string.Join(" › ", walk.Spans.Select(span => span.To))}",
        SwapReel swap => swap.Onto == swap.At ? $"hook the next reel at {swap.At}" : $"back onto the reel from {swap.Onto}, at {swap.At}",
        Take take => $"take {take.Gear} at {take.At}, onto {take.Carry}",
        Put put => $"hook {put.Gear} at {put.At}",
        Give give => give.From == to ? $"hand {give.Gear} to {give.To} at {give.At}" : $"get {give.Gear} from {give.From} at {give.At}, onto {give.Carry}",
        Plug plug => $"plug {plug.Gear} into {plug.Socket}, setting {plug.Setting}",
        Unplug unplug => $"take {unplug.Gear} out of {unplug.Socket}, onto {unplug.Carry}",
        EnterRestraint enter => $"get into the restraint in {enter.Socket}",
        LeaveRestraint leave => $"get out of the restraint in {leave.Socket}",
        MountArm mount => $"get onto {mount.Arm} at {mount.At}",
        ArmMove move => $"ride {move.Arm} from {move.From} to {move.To}",
        DismountArm dismount => $"get off {dismount.Arm} at {dismount.At}",
        DoStep { LeftBy: { } left } step => $"[{step.Leg}] leave step {step.Step} by {left.ToString().ToLowerInvariant()}",
        DoStep step => $"[{step.Leg}] {scenario.Legs.First(leg => leg.Id == step.Leg).Steps.First(one => one.Id == step.Step).Title}",
        Await wait => $"wait until {wait.Until}",
        CheckGloves => "look over gloves and helmet and say what you see",
        Rest => "rest",
        SendCommand command => $"{command.Console}: {command.Command}",
        _ => activity.Id.Value,
    };
}
