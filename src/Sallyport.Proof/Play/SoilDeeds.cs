using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Proof;

/// <summary>What a spill soils, what makes it clean again, and that nothing soiled comes in.</summary>
internal static class SoilDeeds
{
    public const string Clean = "clean";
    public const string Soiled = "soiled";

    private const string Rule = "fluid.carried";

    /// <summary>What a step soils or tests. Called before the step's effects are added.</summary>
    public static void Of(World world, Deed deed, DoStep act, Step step, Site site)
    {
        if (!world.Register.Spills) return;
        List<(Disconnect One, string To)> moved = [.. step.Makes.OfType<MakeFeature>()
            .Select(make => (One: world.Fluid.Disconnect(make.State.Feature)!, To: make.State.State)).Where(pair => pair.One is not null)];
        if (moved.Count > 0 || step.Fluid is { Opens: true })
        {
            List<int> reached = [];
            // Where the step does not say how far a spill reaches, it reaches everybody and everything.
            deed.Look += () => reached = [.. Reached(world, act, step, site, step.Fluid?.Spills ?? [Model.Soiled.Person, Model.Soiled.Tool, Model.Soiled.Bag])];
            deed.Finish += () =>
            {
                List<FluidLine> opened = [.. moved.Where(pair => FluidDeeds.IsOpening(world, pair.One, pair.To)).SelectMany(pair => world.Fluid.Touching(pair.One.Feature))];
                if (step.Fluid is { Opens: true } touch) opened.Add(world.Fluid.Line(touch.Line));
                if (opened.All(line => line.Harmless)) return;
                foreach (int one in reached)
                {
                    world.Become(one, Soiled);
                    world.SoiledAt[one] = act.End;
                }
            };
        }
        if (step.Fluid is { Tests: { IsEmpty: false } tests } && world.Scenario.Station.BakeOut is { } bakeOut) Tests(world, deed, act, step, site, tests, bakeOut);
    }

    /// <summary>That a person comes in clean, with clean things.</summary>
    public static void NeedsClean(World world, Deed deed, PersonId person)
    {
        if (!world.Register.Spills) return;
        IEnumerable<int> Brought() => new[] { world.Register.PersonSoil[person] }.Concat(Within(world, outermost => world.PeekSpotOf(outermost.Id).IsWith(person)));
        deed.Needs(Rule, () => !Brought().Any(one => IsSoiled(world, one)),
            () => $"{person} comes in with {Words(world, Brought())}",
            () => $"Bake out in the sun outside and test before {person} comes in, or leave what is soiled outside.");
    }

    /// <summary>That the bags handed in are clean, with what is in them.</summary>
    public static void NeedsCleanBags(World world, Deed deed, GripId hatch)
    {
        if (!world.Register.Spills) return;
        IEnumerable<int> Brought() => Within(world, outermost => outermost.End == Location.Inside && world.PeekSpotOf(outermost.Id) == Spot.At(hatch) && !StaysOutside(world, outermost));
        deed.AtEnd.Add(new(Rule, () => !Brought().Any(one => IsSoiled(world, one)),
            () => $"What is handed in at {hatch} holds {Words(world, Brought())}",
            () => "Bake it out in the sun and test it before it is handed in, or leave it outside."));
    }

    /// <summary>Whether a thing hung at the hatch is left there although it is wanted inside: everybody goes in early, and it or something in it is soiled.</summary>
    public static bool StaysOutside(World world, Gear thing) => world.Trouble is { GoesOn: GoingOn.EndsInOrder } && world.Register.Spills
        && Within(world, outermost => outermost.Id == thing.Id).Any(one => IsSoiled(world, one));

    private static void Tests(World world, Deed deed, DoStep act, Step step, Site site, IReadOnlyCollection<Soiled> tests, BakeOut bakeOut)
    {
        deed.NeedsTime(bakeOut.Test, () => "The test after a bake-out", Rule);
        List<int> Soilt() => [.. Reached(world, act, step, site, tests).Where(one => IsSoiled(world, one))];
        int Least() => Soilt().Min(Sunlit);
        int Sunlit(int one) => Sunlight.Seconds(world.Scenario.Sky.Night, world.SoiledAt[one], act.Start);
        deed.Needs(Rule, () => Soilt().All(one => Sunlit(one) >= bakeOut.Sunlit.Seconds),
            () => $"{act.Person}'s step {act.Step} of {act.Leg} tests {Words(world, Soilt())}, which has been in the sun for {Duration.FromSeconds(Least())}, and a bake-out takes {bakeOut.Sunlit} of sunlight",
            () => "Test later, or spend the time until then in the sun.",
            () => new(Duration.FromSeconds(Least()).ToString(), bakeOut.Sunlit.ToString(), Duration.FromSeconds(Least() - bakeOut.Sunlit.Seconds).ToString()));
        List<int> tested = [];
        deed.Look += () => tested = Soilt();
        deed.Finish += () =>
        {
            foreach (int one in tested) world.Become(one, Clean);
        };
    }

    /// <summary>Who and what is meant at this moment: the person, what the step needs or the person carries, and bags at hand. Things are only
    /// scanned: this is asked before anything of an instant takes effect.</summary>
    private static IEnumerable<int> Reached(World world, DoStep act, Step step, Site site, IReadOnlyCollection<Soiled> who)
    {
        if (who.Contains(Model.Soiled.Person)) yield return world.Register.PersonSoil[act.Person];
        HashSet<GearId> needed = [.. step.Needs.OfType<NeedGear>().Select(need => need.Gear)];
        foreach (Gear gear in world.Scenario.Gear)
        {
            bool bag = gear.Kind == GearKind.Bag;
            Spot spot = world.PeekSpotOf(Outermost(world, gear).Id);
            bool tool = !bag && (needed.Contains(gear.Id) || spot.IsWith(act.Person));
            bool atHand = spot.IsWith(act.Person) || (site.Grip is { } grip && spot == Spot.At(grip)) || spot == new Spot(SpotKind.Site, site.Id.Value);
            if ((bag && atHand && who.Contains(Model.Soiled.Bag)) || (tool && who.Contains(Model.Soiled.Tool))) yield return world.Register.GearSoil[gear.Id];
        }
    }

    /// <summary>The things which are of a kind by themselves, or by the outermost bag that holds them. What is elsewhere is only scanned: whether
    /// another hatch takes it in meanwhile makes no difference here.</summary>
    private static IEnumerable<int> Within(World world, Func<Gear, bool> which) => world.Scenario.Gear.Where(gear => which(Outermost(world, gear))).Select(gear => world.Register.GearSoil[gear.Id]);

    public static bool IsSoiled(World world, int one) => world.State(one) == Soiled;

    private static Gear Outermost(World world, Gear gear)
    {
        for (int depth = 0; world.PeekSpotOf(gear.Id) is { Kind: SpotKind.Bag } spot && depth < world.Lookup.Bags.Length; depth++)
            gear = world.Lookup.Gear(new(spot.Name));
        return gear;
    }

    private static string Words(World world, IEnumerable<int> all) => string.Join(", ", all.Where(one => IsSoiled(world, one))
        .Select(one => $"{world.Register.Variables[one].Subject} (soiled at {world.SoiledAt[one]})"));
}
