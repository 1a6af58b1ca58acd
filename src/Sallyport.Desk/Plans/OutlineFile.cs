using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>Reads, writes and saves outlines: the files that people edit.</summary>
public static partial class OutlineFile
{
    /// <summary>Reads an outline and looks up every name in it.</summary>
    /// <param name="path">The file, as the user gave it.</param>
    /// <param name="scenario">The scenario it must belong to.</param>
    public static ReadResult<Outline> Read(string path, Scenario scenario)
    {
        Binding binding = new();
        byte[]? bytes = SourceText.Bytes(path, path, binding.Report);
        return bytes is null ? binding.Failed<Outline>() : Read(bytes, path, scenario, binding);
    }

    /// <summary>Reads an outline from its text.</summary>
    /// <param name="bytes">The text, UTF-8.</param>
    /// <param name="name">The name that problems give to it.</param>
    /// <param name="scenario">The scenario it must belong to.</param>
    public static ReadResult<Outline> Read(byte[] bytes, string name, Scenario scenario) => Read(bytes, name, scenario, new());

    private static ReadResult<Outline> Read(byte[] bytes, string name, Scenario scenario, Binding binding)
    {
        SourceText? source = SourceText.From(bytes, name, binding.Report);
        Node? root = source is null ? null : YamlReader.Read(source, binding.Report);
        if (root is null && !binding.Any) binding.Report(FileProblems.Empty(name));
        return root is null ? binding.Failed<Outline>() : Bind(root, name, scenario, binding);
    }

    /// <summary>Makes an outline of the tree of its file, and checks it.</summary>
    internal static ReadResult<Outline> Bind(Node root, string name, Scenario scenario, Binding binding)
    {
        ScenarioNames.Give(binding.Names, scenario);
        Outline? outline = binding.Map(root, "an outline", r => Outline(r, scenario, name));
        if (outline is not null) OutlineChecks.Run(outline, scenario, binding);
        binding.LookUpNames();
        return outline is null ? binding.Failed<Outline>() : binding.Result(outline);
    }

    private static Outline Outline(MapReader r, Scenario scenario, string name)
    {
        TextNode? id = r.RequiredText("scenario", scenario.Id);
        if (id is not null && id.Text != scenario.Id) r.Binding.Report(PlanProblems.OtherScenario(id, "an outline", scenario));
        string? digest = r.OptionalText("digest");
        if (digest is not null && digest != scenario.Digest) r.Binding.Notes.Add(PlanProblems.DigestNote(name));
        if (!r.Has("people")) r.Required("people", "{…}");
        return new(
            scenario.Id, digest,
            r.OptionalMap("made", "how it was made", made => new MadeBy(made.Whole("effort", 0, int.MaxValue), made.Whole("seed", int.MinValue, int.MaxValue))),
            People(r, "people"), r.Entries("hands", (gear, holders) => Hands(r, gear, holders)),
            r.Entries("arms", (arm, sessions) => Arm(r, arm, sessions)),
            r.List("ground", "a command", ground => new GroundEntry(
                new(ground.Ref("do", Kinds.Command)), OptionalLeg(ground, "after"), OptionalLeg(ground, "before"), ground.Flag("late"))),
            r.OptionalMap("decide", "a decision", decide => new Decision(
                new(decide.Ref("after", Kinds.Leg)), decide.Pet("if_before"), People(decide, "then"), People(decide, "else"))),
            r.List("left_out", "a job left out", left => new LeftOut(new(left.Ref("job", Kinds.Job)), left.Text("why"))))
        {
            Voice = r.List("voice", "a sequence of conversations", voice => new VoiceOutline(voice.FilledRefs("legs", Kinds.Leg, name => new LegId(name)))),
        };
    }

    private static ImmutableArray<PersonOutline> People(MapReader r, string key)
    {
        return r.Entries(key, (name, entries) =>
        {
            PersonId person = new(r.Use(name, Kinds.Outside));
            return new PersonOutline(person, r.Binding.List(entries, name.Text, "an entry", entry => EntryReader.Read(entry, person)));
        });
    }

    private static HandsOutline? Hands(MapReader r, TextNode gear, Node holders)
    {
        r.Use(gear, Kinds.Gear);
        if (holders is not ListNode list)
        {
            r.Binding.Report(ValueProblems.Shape(holders, $"the hands of '{gear.Text}'", "a list of people", "write [EV1, EV2]."));
            return null;
        }
        return new(new(gear.Text), [.. list.Items.Select(item => r.AsText(item, gear.Text)).OfType<TextNode>().Select(name => new PersonId(r.Use(name, Kinds.Outside)))]);
    }

    private static ArmOutline? Arm(MapReader r, TextNode arm, Node sessions)
    {
        string pose = Kinds.Pose(r.Use(arm, Kinds.Arm));
        return new(new(arm.Text), r.Binding.List(sessions, arm.Text, "a session of the arm", inner => new ArmSession(
            new(inner.Ref("rider", Kinds.Outside)), new(inner.Ref("mount", Kinds.Grip)), inner.Refs("poses", pose, name => new PoseId(name), once: false),
            new(inner.Ref("dismount", Kinds.Grip)))));
    }

    private static LegId? OptionalLeg(MapReader r, string key) => r.OptionalRef(key, Kinds.Leg) is { } leg ? new(leg) : null;
}
