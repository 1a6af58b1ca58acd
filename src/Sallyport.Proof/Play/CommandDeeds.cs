using Sallyport.Model;

namespace Sallyport.Proof;

/// <summary>Commands: on their way from the start, in effect at the end.</summary>
internal static class CommandDeeds
{
    public static Deed Of(World world, SendCommand send)
    {
        GroundConsole console = world.Scenario.Consoles.FirstOrDefault(one => one.Id == send.Console)
            ?? throw new ArgumentException($"the scenario has no console '{send.Console}'");
        Command command = console.Commands.FirstOrDefault(one => one.Id == send.Command)
            ?? throw new ArgumentException($"console '{send.Console}' has no command '{send.Command}'");
        Deed deed = new(send);
        deed.NeedsTime(command.Time, () => $"Command {command.Id}");
        if (command.NeedsLink)
            deed.NeedsThroughout("radio.needed", () => world.State(world.Register.Link) == "link",
                () => $"{console.Id} needs a link to see {command.Id} in telemetry, but there is none", () => $"Send {command.Id} while there is a link.");
        FluidDeeds.Changes(world, deed, $"Command {command.Id}", command.Makes);
        deed.Begin += () =>
        {
            if (world.State(world.Register.Link) == "link") world.SeenSoFar.Add(send.Id);
        };
        bool seen = false;
        deed.Finish += () =>
        {
            // Seen in telemetry with a link for the whole of it, or on board; and then read to the crew, where it has a GO.
            seen = world.SeenSoFar.Remove(send.Id) || command.SeenAboard;
            foreach (FeatureState make in command.Makes)
            {
                world.Make(make);
                if (seen && world.Register.Seen.TryGetValue(make.Feature, out int sight))
                    world.Become(sight, command.Go is null ? SwitchSight.Seen : SwitchSight.Read);
            }
            GoPoint.Read(world, command, send.End);
        };
        foreach (Shutdown shutdown in console.Shutdowns)
        {
            // Between sending and effect nobody may count on either state.
            int variable = world.Register.Shutdowns[shutdown.Id];
            if (shutdown.Off == command.Id) Passes(world, deed, variable, "going off", "off");
            if (shutdown.On == command.Id) Passes(world, deed, variable, "going on", "on");
            int known = world.Register.Known[shutdown.Id];
            deed.Finish += () =>
            {
                if (shutdown.Off == command.Id) world.Become(known, "off");
                if (shutdown.On == command.Id && seen) world.Become(known, "on");
            };
        }
        return deed;
    }

    private static void Passes(World world, Deed deed, int variable, string meanwhile, string then)
    {
        deed.Begin += () =>
        {
            // What is so already stays so: turning off what is off gives no link back meanwhile.
            if (world.State(variable) != then) world.Become(variable, meanwhile);
        };
        deed.Finish += () => world.Become(variable, then);
    }
}
