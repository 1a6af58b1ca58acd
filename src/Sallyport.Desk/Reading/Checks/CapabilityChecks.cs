using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Checks that somebody outside can do each leg of a must-job: allowed, trained, and able to carry what it asks for.</summary>
internal static class CapabilityChecks
{
    public static void Run(Scenario scenario, Binding binding)
    {
        if (!binding.Sound("people", "sizes", "gear")) return;
        binding.Section = "jobs";
        Person[] outside = [.. scenario.Outside];
        Dictionary<GearId, Gear> gear = scenario.Gear.ToDictionary(thing => thing.Id);
        foreach (Job job in scenario.Jobs)
        {
            List<(Leg Leg, Person[] Can)> legs = [];
            foreach (Leg leg in job.Legs)
            {
                if (Uncarried(leg, outside, gear, binding) || job.Worth != Worth.Must || !NamesKnown(leg, binding)) continue;
                Person[] can = [.. outside.Where(person => WhyNot(person, leg, gear) is null)];
                if (can.Length > 0) legs.Add((leg, can));
                else binding.Report(ScenarioProblems.NobodyCan(binding.PlaceOf(leg), job, leg, outside.Select(person => $"{person.Id} {WhyNot(person, leg, gear)}")));
            }
            foreach (IGrouping<string, (Leg Leg, Person[] Can)> group in legs.Where(leg => leg.Leg.Together.Length > 0).GroupBy(leg => leg.Leg.Together))
                if (!EachGetsOne([.. group], leg => leg.Can))
                    binding.Report(ScenarioProblems.TooFewPeople(binding.PlaceOf(group.First().Leg), job, group.Select(leg => leg.Leg), group.Key));
        }
    }

    private static bool Uncarried(Leg leg, Person[] outside, Dictionary<GearId, Gear> gear, Binding binding)
    {
        IEnumerable<GearId> carried = leg.With.Concat(leg.PicksUp);
        if (leg.Restraint is { } restraint) carried = carried.Append(restraint);
        Gear[] uncarried = [.. carried.Where(gear.ContainsKey).Select(id => gear[id])
            .Where(thing => !outside.Any(person => person.CarryPoints.Any(point => Takes(point, thing))))];
        foreach (Gear thing in uncarried) binding.Report(ScenarioProblems.NoCarryPoint(binding.PlaceOf(leg), leg, thing));
        return uncarried.Length > 0;
    }

    // An unknown name is told where it stands; what would follow from it is not told again.
    private static bool NamesKnown(Leg leg, Binding binding) =>
        leg.Who.All(person => binding.Names.Knows(Kinds.Outside, person.Value)) && leg.Training.All(training => binding.Names.Knows(Kinds.Training, training))
        && leg.With.Concat(leg.PicksUp).All(thing => binding.Names.Knows(Kinds.Gear, thing.Value));

    private static string? WhyNot(Person person, Leg leg, Dictionary<GearId, Gear> gear)
    {
        if (leg.Who.Length > 0 && !leg.Who.Contains(person.Id)) return "is not among 'who'";
        string[] missing = [.. leg.Training.Except(person.TrainedFor)];
        if (missing.Length > 0) return $"is not trained for {string.Join(", ", missing)}";
        if (!Carries(person, leg.With)) return $"cannot carry {string.Join(", ", leg.With)} at once";
        GearId[] after = [.. leg.With.Except(leg.LeavesBehind).Union(leg.PicksUp)];
        if (!Carries(person, after)) return $"cannot carry {string.Join(", ", after)} away at once";
        if (leg.Restraint is { } restraint && !Carries(person, [restraint])) return $"cannot carry {restraint}";
        return null;

        bool Carries(Person who, IEnumerable<GearId> things) =>
            EachGetsOne([.. things.Where(gear.ContainsKey).Select(id => gear[id])], thing => who.CarryPoints.Where(point => Takes(point, thing)));
    }

    private static bool Takes(CarryPoint point, Gear thing) => point.Sizes.Contains(thing.Size) && thing.Mass <= point.MaxMass;

    // Whether each can have one of its choices for itself: grows a matching one by one along augmenting paths.
    private static bool EachGetsOne<T, TChoice>(T[] each, Func<T, IEnumerable<TChoice>> choices) where TChoice : class
    {
        Dictionary<TChoice, int> holder = new(ReferenceEqualityComparer.Instance);
        return Enumerable.Range(0, each.Length).All(index => Find(index, new(ReferenceEqualityComparer.Instance)));

        bool Find(int index, HashSet<TChoice> tried)
        {
            foreach (TChoice choice in choices(each[index]))
            {
                if (!tried.Add(choice)) continue;
                if (holder.TryGetValue(choice, out int other) && !Find(other, tried)) continue;
                holder[choice] = index;
                return true;
            }
            return false;
        }
    }
}
