using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Tests.Damage;

/// <summary>Who does it.</summary>
internal static class PeopleDamage
{
    public static ImmutableArray<Damage> All { get; } =
    [
        new("untrained", "Whoever does a leg has not learnt it in the world as played.", "person.untrained",
            "The leg names the training.",
            plan => plan.Done.Where(leg => !plan.Legs[leg].Training.IsEmpty).Select(leg => plan.WithPerson(plan.StepsOf(leg)[0].Person, person => person with { TrainedFor = [] }))),
        new("another person", "A leg is done by somebody who may not do it or has not learnt it.", "person.untrained",
            "The leg names who may do it and what must be learnt.",
            plan => plan.Done.SelectMany(leg => plan.Scenario.Outside.Where(person => !May(person, plan.Legs[leg]) && person.Id != plan.StepsOf(leg)[0].Person).Take(1)
                .Select(person => plan.With(one => [one is DoStep step && step.Leg == leg ? step with { Person = person.Id } : one])))),
        new("switched halfway", "The last step of a leg is done by somebody else.", "job.order",
            "One person does all steps of a leg.",
            plan => plan.Done.Where(leg => plan.StepsOf(leg).Length > 1).SelectMany(leg => plan.Outside.Where(other => other != plan.StepsOf(leg)[0].Person).Take(1)
                .Select(other => plan.Instead(plan.StepsOf(leg)[^1], plan.StepsOf(leg)[^1] with { Person = other })))),
        new("one alone", "All others stay inside.", "person.alone",
            "One person is outside, away from the hatch, with nobody else.",
            plan => plan.Outside.Where(person => plan.All<Translate>().Any(walk => walk.Person == person)).Select(person => plan.With(one => one switch
            {
                AirlockPhase phase => phase.Who.Contains(person) ? [phase with { Who = [person] }] : [],
                _ => one.People.IsEmpty || one.People.All(who => who == person) ? [one] : ImmutableArray<Activity>.Empty,
            }))),
        new("both legs by one", "Two legs that two people do together are done by one.", "job.order",
            "The job asks for different people.",
            plan => Together(plan).Select(pair => plan.With(one => [one is DoStep step && step.Leg == pair.Other ? step with { Person = plan.StepsOf(pair.One)[0].Person } : one]))),
    ];

    /// <summary>Legs of one job that start together and are done, in pairs.</summary>
    public static IEnumerable<(LegId One, LegId Other)> Together(CleanPlan plan) => plan.Done.SelectMany(one => plan.Done
        .Where(other => other != one && plan.Legs[one].Together.Length > 0 && plan.Legs[other].Together == plan.Legs[one].Together && plan.Legs[other].Job == plan.Legs[one].Job)
        .Select(other => (one, other)));

    private static bool May(Person person, Leg leg) => (leg.Who.IsEmpty || leg.Who.Contains(person.Id)) && leg.Training.All(person.TrainedFor.Contains);
}
