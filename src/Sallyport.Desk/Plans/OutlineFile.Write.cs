using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Sallyport.Model;

namespace Sallyport.Desk;

// Writing: one form only, so that two equal outlines are equal text and a change shows as few lines.
public static partial class OutlineFile
{
    /// <summary>Writes an outline as text that <see cref="Read(string, Scenario)"/> reads back as the same outline.</summary>
    public static string Write(Outline outline)
    {
        StringBuilder text = new();
        text.Append($"# {Caution.Text}\n");
        text.Append($"scenario: {YamlText.Scalar(outline.Scenario)}\n");
        if (outline.Digest is { } digest) text.Append($"digest: {YamlText.Scalar(digest)}\n");
        if (outline.Made is { } made) text.Append(CultureInfo.InvariantCulture, $"made: {{effort: {made.Effort}, seed: {made.Seed}}}\n");
        People(text, "people", outline.People, "");
        if (outline.Hands.Length > 0) text.Append("hands:\n");
        foreach (HandsOutline hands in outline.Hands) text.Append($"  {YamlText.Scalar(hands.Gear.Value)}: {YamlText.List(hands.Holders.Select(holder => holder.Value))}\n");
        if (outline.Arms.Length > 0) text.Append("arms:\n");
        foreach (ArmOutline arm in outline.Arms) Entries(text, arm.Arm.Value, arm.Sessions.Select(Session), "  ");
        if (outline.Ground.Length > 0) Entries(text, "ground", outline.Ground.Select(Ground), "");
        if (outline.Voice.Length > 0) Entries(text, "voice", outline.Voice.Select(voice => new FlowMap().Add("legs", voice.Legs.Select(leg => leg.Value))), "");
        if (outline.Decision is { } decision)
        {
            text.Append($"decide:\n  after: {YamlText.Scalar(decision.After.Value)}\n  if_before: \"{decision.IfBefore}\"\n");
            People(text, "then", decision.Then, "  ");
            People(text, "else", decision.Else, "  ");
        }
        if (outline.LeftOut.Length > 0)
            Entries(text, "left_out", outline.LeftOut.Select(LeftOut), "");
        return text.ToString();
    }

    private static void People(StringBuilder text, string key, ImmutableArray<PersonOutline> people, string indent)
    {
        text.Append($"{indent}{key}:{(people.Length == 0 ? " {}" : "")}\n");
        foreach (PersonOutline person in people) Entries(text, person.Person.Value, person.Entries.Select(Entry), indent + "  ");
    }

    private static void Entries(StringBuilder text, string key, IEnumerable<FlowMap> entries, string indent)
    {
        FlowMap[] all = [.. entries];
        text.Append($"{indent}{YamlText.Scalar(key)}:{(all.Length == 0 ? " []" : "")}\n");
        foreach (FlowMap entry in all) text.Append($"{indent}- {entry}\n");
    }

    private static FlowMap Session(ArmSession session) => new FlowMap()
        .Add("rider", session.Rider.Value).Add("mount", session.Mount.Value).Add("poses", session.Poses.Select(pose => pose.Value)).Add("dismount", session.Dismount.Value);

    private static FlowMap Ground(GroundEntry entry) => new FlowMap()
        .Add("do", entry.Do.Value).Add("after", entry.After?.Value).Add("before", entry.Before?.Value).Add("late", entry.Late);

    private static FlowMap LeftOut(LeftOut left) => new FlowMap().Add("job", left.Job.Value).Quote("why", left.Why);

    private static FlowMap Entry(Entry entry)
    {
        FlowMap map = new();
        switch (entry)
        {
            case EgressEntry e: return map.Add("egress", e.Airlock.Value);
            case IngressEntry e: return Way(map.Add("ingress", e.Airlock.Value), e.Way);
            case TakeEntry e: map.Add("take", e.Gear.Value).Add("from", e.From.Value).Add("carry", e.Carry.Value); break;
            case PutEntry e: map.Add("put", e.Gear.Value).Add("at", e.At.Value); break;
            case PlugEntry e: map.Add("plug", e.Restraint.Value).Add("into", e.Socket.Value).Quote("setting", e.Setting); break;
            case UnplugEntry e: map.Add("unplug", e.Restraint.Value).Add("from", e.Socket.Value).Add("carry", e.Carry.Value); break;
            case LegEntry e: return Leg(map, e);
            case MeetEntry e: Meet(map, e); break;
            case MountEntry e: map.Add("mount", e.Arm.Value).Add("at", e.At.Value); break;
            case DismountEntry e: map.Add("dismount", e.Arm.Value).Add("at", e.At.Value); break;
            case CheckEntry e: return ByHand(map.Add("check", "gloves").Add("for", e.For?.Value), e);
            case RestEntry e: return ByHand(map.Add("rest", e.Time.Seconds % 60 == 0 ? $"{e.Time.Seconds / 60} min" : $"{e.Time.Seconds} s").Add("for", e.For?.Value), e);
            case WaitEntry { Until: WaitFor.Moment } e: return ByHand(map.Quote("wait", e.At.GetValueOrDefault().ToString()), e);
            case WaitEntry e: return ByHand(map.Add("wait", e.Until.ToString().ToLowerInvariant()), e);
            default: throw new ArgumentOutOfRangeException(nameof(entry), entry.GetType().Name, "expected an entry of a known kind");
        }
        return ByHand(Way(map, entry.Way).Add("for", entry.For?.Value), entry);
    }

    private static FlowMap Leg(FlowMap map, LegEntry entry)
    {
        map.Add("leg", entry.Leg.Value);
        if (entry.Pins.At is { } at) map.Quote("at", at.ToString());
        if (entry.Pins.NotBefore is { } notBefore) map.Quote("not_before", notBefore.ToString());
        if (entry.Pins.NotAfter is { } notAfter) map.Quote("not_after", notAfter.ToString());
        if (entry.Pins.Who) map.Add("who", "pinned");
        return ByHand(Way(map.Add("keep", entry.Pins.Keep), entry.Way), entry);
    }

    private static void Meet(FlowMap map, MeetEntry entry)
    {
        map.Add("meet", entry.Id).Add("at", entry.At.Value).Add("with", entry.With.Select(person => person.Value));
        if (entry.Gives.Length > 0)
            map.Add("give", entry.Gives.Select(gift => new FlowMap().Add("gear", gift.Gear.Value).Add("to", gift.To.Value).Add("carry", gift.Carry.Value)));
    }

    // The standard way is said only beside its anchor, where one might wonder.
    private static FlowMap Way(FlowMap map, Way way)
    {
        if (way.Grips.Length > 0) map.Add("way", way.Grips.Select(grip => grip.Value));
        else if (way.Anchor is not null) map.Add("way", "auto");
        return map.Add("anchor", way.Anchor?.Value);
    }

    private static FlowMap ByHand(FlowMap map, Entry entry) => entry.ByHand ? map.Add("by", "hand") : map;
}
