using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The names of a scenario that is read already, for files that refer to them.</summary>
internal static class ScenarioNames
{
    public static void Give(Names names, Scenario scenario)
    {
        Station station = scenario.Station;
        GiveAll(names, Kinds.Grip, station.Grips, grip => grip.Id.Value);
        GiveAll(names, Kinds.Socket, station.Sockets, socket => socket.Id.Value);
        GiveAll(names, Kinds.Airlock, station.Airlocks, airlock => airlock.Id.Value);
        GiveAll(names, Kinds.Person, scenario.People, person => person.Id.Value);
        GiveAll(names, Kinds.Outside, scenario.Outside, person => person.Id.Value);
        GiveAll(names, Kinds.Gear, scenario.Gear, gear => gear.Id.Value);
        GiveAll(names, Kinds.Restraint, scenario.Gear.Where(gear => gear.Kind == GearKind.Restraint), gear => gear.Id.Value);
        GiveAll(names, Kinds.Job, scenario.Jobs, job => job.Id.Value);
        GiveAll(names, Kinds.Leg, scenario.Legs, leg => leg.Id.Value);
        GiveAll(names, Kinds.Console, scenario.Consoles, console => console.Id.Value);
        GiveAll(names, Kinds.Command, scenario.Consoles.SelectMany(console => console.Commands), command => command.Id.Value);
        GiveAll(names, Kinds.Arm, scenario.Arms, arm => arm.Id.Value);
        foreach (Arm arm in scenario.Arms) GiveAll(names, Kinds.Pose(arm.Id.Value), arm.Poses, pose => pose.Id.Value);
        foreach (Person person in scenario.Outside) GiveAll(names, Kinds.CarryPointOf(person.Id.Value), person.CarryPoints, point => point.Id.Value);
        foreach (Leg leg in scenario.Legs) GiveAll(names, Kinds.Step(leg.Id.Value), leg.Steps, step => step.Id.Value);
    }

    private static void GiveAll<T>(Names names, string kind, IEnumerable<T> things, Func<T, string> name)
    {
        foreach (T thing in things) names.Give(kind, name(thing), default, out _);
    }
}
