using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The texts of problems with outlines and timelines.</summary>
internal static class PlanProblems
{
    public static Problem OtherScenario(TextNode node, string what, Scenario scenario) =>
        FileProblems.At(node.Place, "scenario.other", $"{what} of {node.Shown}", $"{what} of '{scenario.Id}'", $"give the scenario '{node.Text}', or {what} of '{scenario.Id}'.");

    public static Problem LegTwice(Place place, string leg, Place first) =>
        FileProblems.At(place, "leg.twice", $"{leg} again; it stands already at {first}", "each leg once", "keep one of the two.");

    public static Problem MeetingAlone(Place place, string meeting, PersonId with) =>
        FileProblems.At(place, "meeting.alone", $"the meeting '{meeting}' with {with}, whose list has no such meeting", "the same meeting in the list of everybody who takes part",
            $"add the meeting to the list of {with}, or take {with} out of 'with'.");

    public static Problem MeetingElsewhere(Place place, string meeting, GripId here, GripId there) =>
        FileProblems.At(place, "meeting.elsewhere", $"the meeting '{meeting}' at {here}, and at {there} in another list", "one place for a meeting", "write the same grip in both.");

    public static Problem GiftToAbsent(Place place, PersonId to) =>
        FileProblems.At(place, "meeting.gift", $"something given to {to}, who is not at the meeting", "a receiver named in 'with'", $"add {to} to 'with', or give it to somebody who is there.");

    public static Problem CheckUntold(Place place) =>
        FileProblems.At(place, "check.untold", "a check of gloves, in a scenario that does not say how long one takes", "'checks: {gloves: …}' in the scenario",
            "add it there, or take the check out of the list.");

    public static Problem DoneAndLeftOut(Place place, JobId job) =>
        FileProblems.At(place, "job.both", $"the job '{job}' left out, while a leg of it stands in a list", "a job either done or left out", "take one of the two out.");

    public static Problem ActivityShort(Place place, ActivityId id) =>
        FileProblems.At(place, "activity.short", $"the activity '{id}', which ends no later than it starts", "at least 1 s", "mend 'start' or 'end'.");

    public static string DigestNote(string file) => $"{file} was made from other inputs: what has changed in the scenario since may not suit it.";

    public static string KeptEdited(string edited, string written) => $"{edited} has been edited since it was written, or was written by hand, and stays as it is; the new outline is {written}.";
}
