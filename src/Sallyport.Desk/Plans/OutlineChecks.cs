using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Checks of an outline as a document: each leg once, meetings in the lists of all who take part. What the plan is worth is not
/// asked here.</summary>
internal static class OutlineChecks
{
    public static void Run(Outline outline, Scenario scenario, Binding binding)
    {
        // Either branch follows the main lists; the two never meet.
        Dictionary<LegId, Place> done = [];
        LegsOnce(outline.People, done, binding);
        Meetings(outline.People, binding);
        if (outline.Decision is { } decision)
        {
            foreach (ImmutableArray<PersonOutline> branch in new[] { decision.Then, decision.Else })
            {
                LegsOnce(branch, new(done), binding);
                Meetings(branch, binding);
            }
        }
        if (scenario.Checks?.Gloves is null)
            foreach (CheckEntry check in outline.People.Concat(outline.Decision?.Then ?? []).Concat(outline.Decision?.Else ?? []).SelectMany(list => list.Entries).OfType<CheckEntry>())
                binding.Report(PlanProblems.CheckUntold(binding.PlaceOf(check)));
        Dictionary<LegId, Place> led = [];
        foreach (VoiceOutline voice in outline.Voice)
            foreach (LegId leg in voice.Legs)
                if (!led.TryAdd(leg, binding.PlaceOf(voice))) binding.Report(PlanProblems.LegTwice(binding.PlaceOf(voice), leg.Value, led[leg]));
        HashSet<string> begun = [.. outline.People.SelectMany(person => person.Entries).OfType<LegEntry>().Select(entry => entry.Leg.Value.Split('/')[0])];
        foreach (LeftOut left in outline.LeftOut)
            if (begun.Contains(left.Job.Value)) binding.Report(PlanProblems.DoneAndLeftOut(binding.PlaceOf(left), left.Job));
    }

    private static void LegsOnce(ImmutableArray<PersonOutline> lists, Dictionary<LegId, Place> done, Binding binding)
    {
        foreach (LegEntry entry in lists.SelectMany(list => list.Entries).OfType<LegEntry>())
        {
            Place place = binding.PlaceOf(entry);
            if (!done.TryAdd(entry.Leg, place)) binding.Report(PlanProblems.LegTwice(place, entry.Leg.Value, done[entry.Leg]));
        }
    }

    private static void Meetings(ImmutableArray<PersonOutline> lists, Binding binding)
    {
        foreach (PersonOutline list in lists)
            foreach (MeetEntry meet in list.Entries.OfType<MeetEntry>())
            {
                Place place = binding.PlaceOf(meet);
                foreach (PersonId with in meet.With)
                {
                    MeetEntry? other = lists.Where(other => other.Person == with).SelectMany(other => other.Entries).OfType<MeetEntry>().FirstOrDefault(other => other.Id == meet.Id);
                    if (other is null) binding.Report(PlanProblems.MeetingAlone(place, meet.Id, with));
                    else if (other.At != meet.At) binding.Report(PlanProblems.MeetingElsewhere(place, meet.Id, meet.At, other.At));
                }
                foreach (Gift gift in meet.Gives)
                    if (!meet.With.Contains(gift.To)) binding.Report(PlanProblems.GiftToAbsent(place, gift.To));
            }
    }
}
