using CsCheck;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Outlines read and written.</summary>
public sealed class OutlineFileTests
{
    private static readonly Scenario Every = Folders.EveryKeyScenario;

    private static ReadResult<Outline> Read(string text) => OutlineFile.Read(Folders.Bytes(text), "o.yaml", Every);

    private static string Entry(string entry) => $"scenario: islet/first-light\npeople:\n  EV1:\n  - {entry}\n";

    private static Entry Single(string entry) => Assert.Single(Folders.Good(Read(Entry(entry))).People[0].Entries);

    [Fact]
    public void ByHand_Read_IsAsWritten()
    {
        Scenario skerry = Folders.Good(ScenarioReader.Read(Folders.SkerryShort));
        Outline outline = Folders.Good(OutlineFile.Read(Path.Combine(Folders.SkerryShort, "outlines", "by-hand.yaml"), skerry));
        Assert.Equal(("skerry/short", null, null), (outline.Scenario, outline.Digest, outline.Made));
        Assert.Equal(["EV1", "EV2"], outline.People.Select(person => person.Person.Value));
        LegId free = new("latch/free"), look = new("latch/look");
        Way atLock = new([], new GripId("lock"));
        Entry[] first =
        [
            new EgressEntry(new("lock")), new TakeEntry(new("latch-bag"), new("lock"), new("waist"), Way.Auto, free, false),
            new LegEntry(free, Pins.None, atLock, false), new IngressEntry(new("lock"), atLock),
        ];
        Entry[] second = [new EgressEntry(new("lock")), new LegEntry(look, Pins.None, atLock, false), new IngressEntry(new("lock"), atLock)];
        Assert.Equal(StructureText.Of(first), StructureText.Of(outline.People[0].Entries));
        Assert.Equal(StructureText.Of(second), StructureText.Of(outline.People[1].Entries));
        Assert.Empty(outline.Ground);
        Assert.Null(outline.Decision);
    }

    [Fact]
    public void Entries_OfEachForm_AreReadAsWritten()
    {
        Way way = new([new("door"), new("rail-1")], new GripId("door"));
        LegId look = new("look/look");
        Check("{take: lamp-bag, from: door, carry: chest, way: [door, rail-1], anchor: door, for: look/look, by: hand}", new TakeEntry(new("lamp-bag"), new("door"), new("chest"), way, look, true));
        Check("{put: lamp-bag, at: door}", new PutEntry(new("lamp-bag"), new("door"), Way.Auto, null, false));
        Check("{plug: restraint-2, into: socket-2, setting: \"B6\", for: look/look}", new PlugEntry(new("restraint-2"), new("socket-2"), "B6", Way.Auto, look, false));
        Check("{unplug: spare, from: socket-2, carry: waist, way: auto}", new UnplugEntry(new("spare"), new("socket-2"), new("waist"), Way.Auto, null, false));
        Check("{leg: look/look, at: \"3:10\", not_before: \"3:00:30\", not_after: \"-0:05\", who: pinned, keep: true, way: auto, anchor: rail-2, by: hand}",
            new LegEntry(look, new(Pet.FromSeconds(11400), Pet.FromSeconds(10830), Pet.FromSeconds(-300), true, true), new([], new GripId("rail-2")), true));
        Check("{mount: boom, at: rail-1}", new MountEntry(new("boom"), new("rail-1"), Way.Auto, null, false));
        Check("{dismount: boom, at: rail-1, by: hand}", new DismountEntry(new("boom"), new("rail-1"), null, true));
        Check("{wait: night}", new WaitEntry(WaitFor.Night, null, false));
        Check("{wait: \"3:10\", by: hand}", new WaitEntry(WaitFor.Moment, Pet.FromSeconds(11400), true));
        Check("{check: gloves, for: look/look, by: hand}", new CheckEntry(look, true));
        Check("{rest: 5 min}", new RestEntry(Duration.FromMinutes(5), null, false));
        Check("{ingress: door, way: auto, anchor: door}", new IngressEntry(new("door"), new([], new GripId("door"))));

        static void Check(string text, Entry expected) => Assert.Equal(StructureText.Of(expected), StructureText.Of(Single(text)));
    }

    [Fact]
    public void Meeting_InBothLists_IsReadAsWritten()
    {
        Outline outline = Folders.Good(Read("""
            scenario: islet/first-light
            people:
              EV1:
              - {meet: m1, at: door, with: [EV2], give: [{gear: lamp-bag, to: EV2, carry: waist}], for: look/look}
              EV2:
              - {meet: m1, at: door, with: [EV1]}
            """));
        MeetEntry meet = Assert.IsType<MeetEntry>(outline.People[0].Entries[0]);
        Assert.Equal([new Gift(new("lamp-bag"), new("EV2"), new("waist"))], meet.Gives);
        Assert.Empty(Assert.IsType<MeetEntry>(outline.People[1].Entries[0]).Gives);
        Assert.Equal(StructureText.Of(outline), StructureText.Of(Folders.Good(Read(OutlineFile.Write(outline)))));
    }

    [Fact]
    public void Outline_Written_IsOneLineAnEntry()
    {
        Outline outline = new(
            "islet/first-light", "abc", new(40, 7),
            [new(new("EV1"), [new EgressEntry(new("door")), new LegEntry(new("look/look"), Pins.None with { At = Pet.FromSeconds(11400), Keep = true }, new([], new GripId("door")), true)]), new(new("EV2"), [])],
            [new(new("lamp-bag"), [new("EV1"), new("EV2")])], [new(new("boom"), [new(new("EV1"), new("rail-1"), [new("lamp-high")], new("rail-1"))])],
            [new(new("branch-a off"), new LegId("look/look"), null, true)],
            new(new("look/look"), Pet.FromSeconds(19200), [new(new("EV1"), [new WaitEntry(WaitFor.Day, null, false)])], []),
            [new(new("valve"), "12 min \"too\" long")]);
        Assert.Equal("""
            # Planning aid only: flight rules, safety, the flight surgeon and licensed practice decide.
            scenario: islet/first-light
            digest: abc
            made: {effort: 40, seed: 7}
            people:
              EV1:
              - {egress: door}
              - {leg: look/look, at: "3:10", keep: true, way: auto, anchor: door, by: hand}
              EV2: []
            hands:
              lamp-bag: [EV1, EV2]
            arms:
              boom:
              - {rider: EV1, mount: rail-1, poses: [lamp-high], dismount: rail-1}
            ground:
            - {do: branch-a off, after: look/look, late: true}
            decide:
              after: look/look
              if_before: "5:20"
              then:
                EV1:
                - {wait: day}
              else: {}
            left_out:
            - {job: valve, why: "12 min \"too\" long"}

            """, OutlineFile.Write(outline));
    }

    [Fact]
    public void Outline_WrittenAndRead_IsTheSame() =>
        Outlines.All.Sample(outline =>
        {
            string text = OutlineFile.Write(outline);
            Outline back = Folders.Good(Read(text));
            Assert.Equal(StructureText.Of(outline), StructureText.Of(back));
            Assert.Equal(text, OutlineFile.Write(back));
        }, iter: 400);

    [Fact]
    public void Outline_OfOtherInputs_IsNoted()
    {
        ReadResult<Outline> result = Read("scenario: islet/first-light\ndigest: 0123\npeople: {}\n");
        Assert.True(result.Ok);
        Assert.Equal("o.yaml was made from other inputs: what has changed in the scenario since may not suit it.", Assert.Single(result.Notes));
        Assert.Empty(Read($"scenario: islet/first-light\ndigest: {Every.Digest}\npeople: {{}}\n").Notes);
    }

    public static TheoryData<string, string> Bad => new()
    {
        { "scenario: skerry/short\npeople: {}\n", "o.yaml:1:11: scenario.other | an outline of 'skerry/short' | an outline of 'islet/first-light' | give the scenario 'skerry/short', or an outline of 'islet/first-light'." },
        { "", "o.yaml: file.empty | nothing in it | a filled file | fill it, or give another file." },
        { "- a\n", "o.yaml:1:1: value.shape | a list of 1 for an outline | a map of keys and values | write it as {key: value, …}, or as indented lines 'key: value'." },
        { "scenario: islet/first-light\npeople: {}\ngruond: []\n", "o.yaml:3:1: key.unknown | the key 'gruond' | a key of an outline: scenario, digest, people, made, hands, arms, ground, decide, left_out, voice | write 'ground' if that is meant, or delete it." },
        { "scenario: islet/first-light\npeople:\n  EV3: []\n", "o.yaml:3:3: name.unknown | 'EV3' | a known person outside | write 'EV1' if that is meant, or add the person outside 'EV3'." },
        { "scenario: islet/first-light\npeople:\n  IV: []\n", "o.yaml:3:3: name.kind | 'IV', which is a known person but no person outside | a person outside | use one of: EV1, EV2." },
        { Entry("{leg: look/look}\n  EV2:\n  - {leg: look/look}"), "o.yaml:6:5: leg.twice | look/look again; it stands already at o.yaml:4:5 | each leg once | keep one of the two." },
        { Entry("{leg: look/loook}"), "o.yaml:4:11: name.unknown | 'look/loook' | a known leg | write 'look/look' if that is meant, or add the leg 'look/loook'." },
        { Entry("{take: lamp-bagg, from: door, carry: waist}"), "o.yaml:4:12: name.unknown | 'lamp-bagg' | a known gear item | write 'lamp-bag' if that is meant, or add the gear item 'lamp-bagg'." },
        { Entry("{put: lamp-bag, at: rail-3}"), "o.yaml:4:25: name.unknown | 'rail-3' | a known grip | write 'rail-1' if that is meant, or add the grip 'rail-3'." },
        { Entry("{take: lamp-bag, from: door, carry: back}"), "o.yaml:4:41: name.unknown | 'back' | a known carry point of EV1 | use one of: waist, chest." },
        { Entry("{plug: lamp-bag, into: socket-2, setting: a}"), "o.yaml:4:12: name.kind | 'lamp-bag', which is a known gear item but no restraint | a restraint | use one of: restraint-2, spare." },
        { Entry("{leg: look/look, way: [door, reil-1]}"), "o.yaml:4:34: name.unknown | 'reil-1' | a known grip | write 'rail-1' if that is meant, or add the grip 'reil-1'." },
        { Entry("{leg: look/look, way: short}"), "o.yaml:4:27: value.form | 'short' for 'way' | 'auto', or the grips walked, both ends named | write it like this: [lock, quay-1, quay-2]." },
        { Entry("{leg: look/look, at: 3h}"), "o.yaml:4:26: value.form | '3h' for 'at' | a moment of PET, hours and minutes | write it like this: \"3:10\" or \"3:10:30\"." },
        { Entry("{lge: look/look}"), "o.yaml:4:6: key.unknown | the key 'lge' | a key of an entry: egress, take, put, plug, unplug, leg, meet, mount, dismount, wait, check, rest, ingress, from, at, into, carry, setting, with, give, way, anchor, for, by, not_before, not_after, who, keep | write 'leg' if that is meant, or delete it." },
        { Entry("{at: door}"), "o.yaml:4:5: key.missing | an entry without any of: egress, take, put, plug, unplug, leg, meet, mount, dismount, wait, check, rest, ingress | exactly one of them | add the one that is meant." },
        { Entry("{take: lamp-bag, put: lamp-bag}"), "o.yaml:4:5: key.clash | an entry with more than one of: egress, take, put, plug, unplug, leg, meet, mount, dismount, wait, check, rest, ingress | exactly one of them | keep the one that is meant." },
        { Entry("{check: glove}"), "o.yaml:4:13: value.choice | 'glove' for 'check' | one of: gloves | write 'gloves' if that is meant." },
        { Entry("{rest: 0 s}"), "o.yaml:4:12: value.range | '0 s' for 'rest' | a time from 1 s to 24 h | check the figure and its unit." },
        { "scenario: islet/first-light\npeople: {}\nvoice:\n- {legs: [look/look]}\n- {legs: [valve/turn, look/look]}\n", "o.yaml:5:3: leg.twice | look/look again; it stands already at o.yaml:4:3 | each leg once | keep one of the two." },
        { "scenario: islet/first-light\npeople: {}\nvoice: [{legs: [look/loook]}]\n", "o.yaml:3:17: name.unknown | 'look/loook' | a known leg | write 'look/look' if that is meant, or add the leg 'look/loook'." },
        { Entry("{wait: dawn}"), "o.yaml:4:12: value.choice | 'dawn' for 'wait' | one of: day, night, link | write 'day' if that is meant." },
        { Entry("{meet: m1, at: door, with: [EV2]}"), "o.yaml:4:5: meeting.alone | the meeting 'm1' with EV2, whose list has no such meeting | the same meeting in the list of everybody who takes part | add the meeting to the list of EV2, or take EV2 out of 'with'." },
        { "scenario: islet/first-light\npeople: {}\nground: [{do: branch-b off}]\n", "o.yaml:3:15: name.unknown | 'branch-b off' | a known command | write 'branch-a off' if that is meant, or add the command 'branch-b off'." },
        { "scenario: islet/first-light\npeople: {}\narms: {boom: [{rider: EV1, mount: rail-1, poses: [lamp-hihg], dismount: rail-1}]}\n", "o.yaml:3:51: name.unknown | 'lamp-hihg' | a known pose of boom | write 'lamp-high' if that is meant, or add the pose of boom 'lamp-hihg'." },
        { Entry("{leg: look/look}\nleft_out: [{job: look, why: late}]"), "o.yaml:5:12: job.both | the job 'look' left out, while a leg of it stands in a list | a job either done or left out | take one of the two out." },
    };

    [Theory]
    [MemberData(nameof(Bad))]
    public void Outline_Bad_IsToldWithPlaceAndFix(string text, string told) => Assert.Equal([told], Read(text).Problems.Select(BadInput.Told));

    [Fact]
    public void Check_WhereTheScenarioSaysNothingOfChecks_IsTold()
    {
        ReadResult<Outline> read = OutlineFile.Read(System.Text.Encoding.UTF8.GetBytes(Entry("{check: gloves}")), "o.yaml", Every with { Checks = null });
        Assert.Equal("o.yaml:4:5: check.untold | a check of gloves, in a scenario that does not say how long one takes | 'checks: {gloves: …}' in the scenario | add it there, or take the check out of the list.",
            BadInput.Told(Assert.Single(read.Problems)));
    }

    [Fact]
    public void Outline_MissingFile_IsTold()
    {
        Problem problem = Assert.Single(OutlineFile.Read("no/such.yaml", Every).Problems);
        Assert.Equal(("no/such.yaml", "file.unreadable"), (problem.File, problem.Code));
    }

    [Fact]
    public void Leg_InBothBranches_IsNoProblem()
    {
        const string branches = "scenario: islet/first-light\npeople: {}\ndecide:\n  after: lamp/swap\n  if_before: \"5:20\"\n  then: {EV1: [{leg: look/look}]}\n  else: {EV2: [{leg: look/look}]}\n";
        Outline outline = Folders.Good(Read(branches));
        Assert.Equal(new LegId("look/look"), Assert.IsType<LegEntry>(outline.Decision!.Else[0].Entries[0]).Leg);
        Assert.Equal("leg.twice", Assert.Single(Read(branches.Replace("people: {}", "people: {EV1: [{leg: look/look}]}").Replace("else: {EV2: [{leg: look/look}]}", "else: {}")).Problems).Code);
    }
}
