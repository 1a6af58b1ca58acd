using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads one entry of a person's list; its kind is the key that only this kind has.</summary>
internal static class EntryReader
{
    private static readonly string[] Words = ["egress", "take", "put", "plug", "unplug", "leg", "meet", "mount", "dismount", "wait", "check", "rest", "ingress"];

    public static Entry? Read(MapReader r, PersonId person)
    {
        switch (r.OneOf(Words))
        {
            case "egress": return new EgressEntry(new(r.Ref("egress", Kinds.Airlock)));
            case "ingress": return new IngressEntry(new(r.Ref("ingress", Kinds.Airlock)), Way(r));
            case "take": return new TakeEntry(new(r.Ref("take", Kinds.Gear)), new(r.Ref("from", Kinds.Grip)), Carry(r, person), Way(r), For(r), ByHand(r));
            case "put": return new PutEntry(new(r.Ref("put", Kinds.Gear)), Grip(r), Way(r), For(r), ByHand(r));
            case "plug": return new PlugEntry(new(r.Ref("plug", Kinds.Restraint)), new(r.Ref("into", Kinds.Socket)), r.Text("setting", "\"B6\""), Way(r), For(r), ByHand(r));
            case "unplug": return new UnplugEntry(new(r.Ref("unplug", Kinds.Restraint)), new(r.Ref("from", Kinds.Socket)), Carry(r, person), Way(r), For(r), ByHand(r));
            case "leg": return new LegEntry(new(r.Ref("leg", Kinds.Leg)), Pins(r), Way(r), ByHand(r));
            case "meet": return Meet(r);
            case "mount": return new MountEntry(new(r.Ref("mount", Kinds.Arm)), Grip(r), Way(r), For(r), ByHand(r));
            case "dismount": return new DismountEntry(new(r.Ref("dismount", Kinds.Arm)), Grip(r), For(r), ByHand(r));
            case "wait": return Wait(r);
            case "check": r.Choice("check", ("gloves", true)); return new CheckEntry(For(r), ByHand(r));
            case "rest": return new RestEntry(r.Time("rest"), For(r), ByHand(r));
            default:
                // Which kind was meant is not known, so the keys of all kinds pass.
                r.Know("from", "at", "into", "carry", "setting", "with", "give", "way", "anchor", "for", "by", "not_before", "not_after", "who", "keep");
                return null;
        }
    }

    private static MeetEntry Meet(MapReader r) => new(
        r.Text("meet", "m1"), Grip(r), r.FilledRefs("with", Kinds.Outside, name => new PersonId(name)),
        r.List("give", "a thing handed over", give =>
        {
            GearId gear = new(give.Ref("gear", Kinds.Gear));
            PersonId to = new(give.Ref("to", Kinds.Outside));
            return new Gift(gear, to, Carry(give, to));
        }),
        Way(r), For(r), ByHand(r));

    private static WaitEntry Wait(MapReader r)
    {
        WaitFor? until = r.Find("wait") is TextNode { Text: var text } && text.Contains(':') ? WaitFor.Moment : null;
        if (until is not null) return new(WaitFor.Moment, r.Pet("wait"), ByHand(r));
        return new(r.Choice("wait", ("day", WaitFor.Day), ("night", WaitFor.Night), ("link", WaitFor.Link)), null, ByHand(r));
    }

    private static Pins Pins(MapReader r)
    {
        bool pinned = r.OptionalChoice("who", ("pinned", true)) ?? false;
        return new(r.OptionalPet("at"), r.OptionalPet("not_before"), r.OptionalPet("not_after"), pinned, r.Flag("keep"));
    }

    private static Way Way(MapReader r)
    {
        ImmutableArray<GripId> grips = [];
        if (r.Find("way") is TextNode text)
        {
            if (text.Text != "auto") r.Binding.Report(ValueProblems.Form(text, "way", "'auto', or the grips walked, both ends named", "[lock, quay-1, quay-2]"));
        }
        else grips = r.Refs("way", Kinds.Grip, name => new GripId(name), once: false);
        return new(grips, r.OptionalRef("anchor", Kinds.Grip) is { } anchor ? new(anchor) : null);
    }

    private static GripId Grip(MapReader r) => new(r.Ref("at", Kinds.Grip));

    private static CarryPointId Carry(MapReader r, PersonId person) => new(r.Ref("carry", Kinds.CarryPointOf(person.Value)));

    private static LegId? For(MapReader r) => r.OptionalRef("for", Kinds.Leg) is { } leg ? new(leg) : null;

    private static bool ByHand(MapReader r) => r.OptionalChoice("by", ("hand", true)) ?? false;
}
