using System.Collections.Immutable;
using Sallyport.Model;
using Sallyport.Physics;
using Sallyport.Proof;

namespace Sallyport.Desk;

/// <summary>What suits use over a plan: all that the command <c>suit</c> shows.</summary>
/// <param name="Outline">The outline's name.</param>
/// <param name="PlanId">The plan's.</param>
/// <param name="People">One a person whose suit and body are described.</param>
/// <param name="CutOff">By when the first reserve is reached at much use, whose, and of what; null when none ever is.</param>
/// <param name="Window">Over which rolling means of work are taken, the shorter one; the longer one is an hour.</param>
/// <param name="NotReckoned">What this says nothing of; never to be shown as clean.</param>
public sealed record SuitSheet(
    string Outline, string PlanId, ImmutableArray<SuitWalk> People, SuitCutOff? CutOff, Duration Window, ImmutableArray<string> NotReckoned)
{
    /// <summary>The sheet of a plan that was played; null when the scenario describes no suit in use.</summary>
    internal static SuitSheet? Of(Scenario scenario, string outline, Timeline timeline, Trace trace)
    {
        ImmutableArray<SuitWalk> people = SuitWalk.Of(scenario, timeline, trace);
        if (people.IsEmpty) return null;
        return new(
            outline, timeline.PlanId, people, SuitUse.CutOff([.. people.Select(walk => walk.Use)], Level.High), SuitWalk.ShortWindow,
            [
                .. scenario.Outside.Where(person => people.All(walk => walk.Profile.Person != person.Id)).Select(person => $"{person.Id}: suit or body not described"),
                .. people.SelectMany(walk => walk.Use.NotReckoned.Select(words => $"{walk.Profile.Person}: {words}")),
                .. SuitWalk.NeverReckoned,
            ]);
    }
}
