using Sallyport.Model;

namespace Sallyport.Planning;

public sealed partial class Expander
{
    /// <summary>The order in which people are led from inside.</summary>
    private sealed partial class Builder
    {
        private void ConnectVoices()
        {
            string free = $"{string.Join(" or ", scenario.People.Where(person => person.Role == Role.Inside).Select(person => person.Id.Value).DefaultIfEmpty("somebody inside"))} is free to lead";
            foreach (VoiceOutline voice in outline.Voice)
            {
                List<(EventNode Node, int Before, EventNode Last, Part Ends)> earlier = [];
                foreach (LegId id in voice.Legs)
                {
                    // A leg that the branch taken leaves out, or that nobody leads any more, has no part in the order.
                    List<(EventNode Node, int Before, EventNode Last, Part Ends)> led = [.. StartingWith(id).SelectMany(Led)];
                    if (led.Count == 0) continue;
                    foreach ((_, _, EventNode last, Part ends) in earlier)
                        foreach ((EventNode node, int before, _, _) in led)
                            events.Connect(last, node, EndOf(last, ends) - before, free, (ends.Id, -before));
                    earlier = led;
                }
            }
        }

        /// <summary>A leg with all that start together with it.</summary>
        private IEnumerable<Leg> StartingWith(LegId id)
        {
            Leg leg = LegOf(id);
            return leg.Together.Length == 0 ? [leg] : scenario.Legs.Where(other => other.Job == leg.Job && other.Together == leg.Together);
        }

        /// <summary>The event in which a leg's first led step lies, with the seconds before it there, and the event and part of its last one.</summary>
        private IEnumerable<(EventNode Node, int Before, EventNode Last, Part Ends)> Led(Leg leg)
        {
            if (VoiceStretch.Of(leg) is not { } voice || !legNodes.TryGetValue(leg.Id, out List<EventNode>? nodes)) yield break;
            // A leg that may wait has an event for each step, any other one event for all of them.
            // One that is left halfway ends the conversation with its last step, if it came so far.
            int last = Math.Min(voice.Last, (leg.MayWait ? nodes.Count : nodes[0].Parts.Length) - 1);
            if (last < voice.First) yield break;
            if (leg.MayWait) yield return (nodes[voice.First], 0, nodes[last], nodes[last].Parts[0]);
            else yield return (nodes[0], voice.Before, nodes[0], nodes[0].Parts[last]);
        }

        private static int EndOf(EventNode node, Part part)
        {
            int seconds = 0;
            foreach (Part one in node.Parts)
            {
                seconds += one.Seconds;
                if (one == part) break;
            }
            return seconds;
        }
    }
}
