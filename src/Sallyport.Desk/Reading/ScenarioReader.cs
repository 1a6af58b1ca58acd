using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Sallyport.Model;
using Sallyport.Physics;

namespace Sallyport.Desk;

/// <summary>A scenario as read, with the orbit and the times that its sky was computed from; neither when its sky is given by hand.</summary>
internal sealed record ScenarioRead(Scenario Scenario, ScenarioOrbit? Orbit, SkyTimes? Times)
{
    /// <summary>The station's model for pictures, a whole .glb file; null for none.</summary>
    public byte[]? Model { get; init; }
}

/// <summary>Reads the folder of a scenario.</summary>
public static class ScenarioReader
{
    /// <summary>The version of the file format that this program reads.</summary>
    public const int FormatVersion = 1;

    /// <summary>Reads every file of the folder whose name ends in <c>.yaml</c>, in ordinal order of the names; folders inside it are not
    /// looked at.</summary>
    /// <param name="folder">The folder, as the user gave it.</param>
    /// <returns>The scenario, or every problem of every file: the first syntax error of each, and all others. When a file could not be
    /// read at all, names that may stand in it are not looked up.</returns>
    public static ReadResult<Scenario> Read(string folder)
    {
        ReadResult<ScenarioRead> read = ReadWhole(folder);
        return new(read.Value?.Scenario, read.Problems, read.Notes);
    }

    /// <summary>The same, and the orbit that its sky was computed from.</summary>
    /// <param name="folder">The folder, as the user gave it.</param>
    /// <param name="held">What its files whose name ends in <c>.yaml</c> hold, by name, in place of what stands on the disk; null to read them.</param>
    /// <param name="binding">What takes the names that the files give; null where nobody asks for them.</param>
    internal static ReadResult<ScenarioRead> ReadWhole(string folder, IReadOnlyDictionary<string, byte[]>? held = null, Binding? binding = null)
    {
        binding ??= new();
        if (held is { Count: 0 }) binding.Report(FileProblems.NoFiles(folder));
        if ((held is null ? Files(folder, binding) : [.. held.Keys.Order(StringComparer.Ordinal).Select(name => Path.Combine(folder, name))]) is not { Length: > 0 } paths) return binding.Failed<ScenarioRead>();
        using IncrementalHash digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        List<MapNode> files = [];
        foreach (string path in paths)
        {
            int before = binding.Count;
            byte[]? bytes = held is null ? SourceText.Bytes(path, path, binding.Report) : held[Path.GetFileName(path)];
            if (bytes is not null) Add(digest, Path.GetFileName(path), bytes);
            SourceText? source = bytes is null ? null : SourceText.From(bytes, path, binding.Report);
            Node? root = source is null ? null : YamlReader.Read(source, binding.Report);
            if (root is MapNode map) files.Add(map);
            else if (root is not null) binding.Report(ValueProblems.Shape(root, "a file of a scenario", "sections, such as 'grips:'", "begin with the name of a section and a colon."));
            if (root is not MapNode && binding.Count > before) binding.Partial = true;
        }
        (Scenario bound, OrbitGiven? given, TextNode? drawn) = BindWhole(binding, folder, files);
        byte[]? model = drawn is null ? null : ModelOf(binding, folder, drawn);
        ScenarioOrbit? orbit = given is null ? null : Elements(binding, folder, bound, given, digest);
        if (binding.Any) return binding.Failed<ScenarioRead>();
        Scenario scenario = bound with { Digest = Convert.ToHexStringLower(digest.GetHashAndReset()) };
        if (orbit is null) return new(new(scenario, null, null) { Model = model }, [], [.. binding.Notes]);
        (SkyTimes? times, Scenario? lit, Problem? problem) = orbit.Over(scenario);
        return problem is null ? new(new(lit!, orbit, times) { Model = model }, [], [.. binding.Notes]) : new(null, [problem], [.. binding.Notes]);
    }

    /// <summary>Reads the file of elements that a scenario names; null, and told, when it cannot be used.</summary>
    private static ScenarioOrbit? Elements(Binding binding, string folder, Scenario scenario, OrbitGiven given, IncrementalHash digest)
    {
        binding.Section = "elements";
        if (given.File is not { } file || !binding.Sound("orbit", "sortie", "limits")) return null;
        string path = Path.Combine(folder, file.Text);
        if (!File.Exists(path))
        {
            binding.Report(OrbitProblems.NoFile(file, path));
            return null;
        }
        if (SourceText.Bytes(path, path, binding.Report) is not { } bytes) return null;
        Add(digest, file.Text, bytes);
        ReadResult<OrbitElements> read = OrbitReader.Read(bytes, path, ScenarioOrbit.UseAt(scenario.Sortie.PetZero, ScenarioOrbit.SpanOf(scenario), given.NoteAfter, given.RefuseAfter));
        foreach (Problem problem in read.Problems) binding.Report(problem);
        binding.Notes.AddRange(read.Notes);
        return read.Value is { } elements
            ? new(elements, path, given.NoteAfter, given.RefuseAfter, given.Stations, given.Relays, given.Regions, given.Attitude, scenario.Sky)
            : null;
    }

    /// <summary>Reads the model of the station that a scenario names; null, and told, when it cannot be drawn. It is for the eye alone, so that no plan depends on it.</summary>
    private static byte[]? ModelOf(Binding binding, string folder, TextNode file)
    {
        string path = Path.Combine(folder, file.Text);
        if (!binding.Sound("model")) return null;
        if (!File.Exists(path))
        {
            binding.Report(ModelProblems.NoFile(file, path));
            return null;
        }
        if (new FileInfo(path).Length > GlbFile.MostBytes)
        {
            binding.Report(ModelProblems.TooLarge(file, new FileInfo(path).Length));
            return null;
        }
        if (SourceText.Bytes(path, path, binding.Report) is not { } bytes) return null;
        if (GlbFile.Fault(bytes) is not { } fault) return bytes;
        binding.Report(ModelProblems.Broken(file, path, fault));
        return null;
    }

    /// <summary>Reads a file with a prebreathe alone: the section <c>prebreathe</c>, and <c>limits</c> of its rules.</summary>
    /// <param name="path">The file, as the user gave it.</param>
    /// <param name="scenario">What the suit pressure and limits are taken from where the file does not say them; may be null.</param>
    public static ReadResult<PrebreatheSheet> ReadPrebreathe(string path, Scenario? scenario)
    {
        Binding binding = new();
        byte[]? bytes = SourceText.Bytes(path, path, binding.Report);
        SourceText? source = bytes is null ? null : SourceText.From(bytes, path, binding.Report);
        Node? root = source is null ? null : YamlReader.Read(source, binding.Report);
        if (root is not MapNode map)
        {
            if (root is not null) binding.Report(ValueProblems.Shape(root, "a file with a prebreathe", "the section 'prebreathe:'", "begin with 'prebreathe:'."));
            return binding.Failed<PrebreatheSheet>();
        }
        Sections sections = new(binding, path, [map]);
        PrebreathePlan? plan = sections.Map("prebreathe", "the parts of the prebreathe", SuitSections.Prebreathe);
        ImmutableArray<Limit> limits = sections.List("limits", "a limit", null, SortieSections.Limit);
        Limit? Of(string rule) => limits.FirstOrDefault(limit => limit.Rule.Value == rule) ?? scenario?.LimitOf(rule);
        SuitChecks.Prebreathe(plan, limits.FirstOrDefault(limit => limit.Rule.Value == "prebreathe.break"), binding);
        double? suit = plan?.SuitPascals ?? scenario?.LowestSuitPressure;
        if (plan is not null && suit is null) binding.Report(SuitProblems.NothingToHold(path, "suit pressure", "add 'suit_pressure: 4.3 psi' to the section, or name a scenario before --prebreathe."));
        return binding.Any ? binding.Failed<PrebreatheSheet>() : binding.Result(PrebreatheSheet.Of(plan!, suit!.Value, Of("prebreathe.ratio"), Of("prebreathe.break")));
    }

    /// <summary>Makes the scenario of the files read, and checks it; null when there are problems.</summary>
    internal static Scenario? Bind(Binding binding, string folder, IReadOnlyList<MapNode> files) =>
        BindWhole(binding, folder, files).Scenario is var scenario && binding.Any ? null : scenario;

    private static (Scenario Scenario, OrbitGiven? Orbit, TextNode? Model) BindWhole(Binding binding, string folder, IReadOnlyList<MapNode> files)
    {
        (Scenario scenario, OrbitGiven? orbit, TextNode? model) = Bind(new Sections(binding, folder, files), binding);
        binding.LookUpNames();
        StationChecks.Run(scenario, binding);
        JobChecks.Run(scenario, binding);
        PowerChecks.Run(scenario, binding);
        GearChecks.Run(scenario, binding);
        CapabilityChecks.Run(scenario, binding);
        WalkingChecks.Run(scenario, binding);
        PauseChecks.Run(scenario, binding);
        FluidChecks.Run(scenario, binding);
        SuitChecks.Run(scenario, binding);
        return (scenario, orbit, model);
    }

    private static string[]? Files(string folder, Binding binding)
    {
        try
        {
            if (!Directory.Exists(folder)) binding.Report(FileProblems.NoFolder(folder));
            else
            {
                string[] all = [.. Directory.GetFiles(folder).Order(StringComparer.Ordinal)];
                foreach (string other in all.Where(path => path.EndsWith(".yml", StringComparison.Ordinal))) binding.Notes.Add($"{other} was not read: only names that end in .yaml are.");
                foreach (string inner in Directory.GetDirectories(folder, "*.yaml").Order(StringComparer.Ordinal)) binding.Notes.Add($"{inner} was not read: it is a folder.");
                string[] paths = [.. all.Where(path => path.EndsWith(".yaml", StringComparison.Ordinal))];
                if (paths.Length > 0) return paths;
                binding.Report(FileProblems.NoFiles(folder));
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            binding.Report(FileProblems.CannotRead(folder, e.Message));
        }
        return null;
    }

    // Lengths before the parts: no two folders with different files feed the same bytes.
    private static void Add(IncrementalHash digest, string name, byte[] bytes)
    {
        Span<byte> length = stackalloc byte[4];
        foreach (byte[] part in new[] { Encoding.UTF8.GetBytes(name), bytes })
        {
            BinaryPrimitives.WriteInt32LittleEndian(length, part.Length);
            digest.AppendData(length);
            digest.AppendData(part);
        }
    }

    private static (Scenario Scenario, OrbitGiven? Orbit, TextNode? Model) Bind(Sections sections, Binding binding)
    {
        Version(sections, binding);
        string id = Id(sections, binding);
        Sortie? sortie = sections.Map("sortie", "who, when and how long", SortieSections.Sortie);
        OrbitGiven? orbit = sections.Map("orbit", null, OrbitSections.Orbit);
        Sky? sky = sections.Map("sky", orbit is null ? "day, night and link" : null, SortieSections.Sky) ?? (orbit is null ? null : new([], [], orbit.Source));
        TetherRules? tether = sections.Map("tether", "the tether rules", SortieSections.Tether);
        Handling? handling = sections.Map("handling", "handling times", SortieSections.Handling);
        ImmutableArray<Limit> limits = sections.List("limits", "a limit", "the limits of the rules", SortieSections.Limit);
        Checks? checks = sections.Map("checks", null, CheckSections.Checks);
        HelpTimes? help = sections.Map("help", null, CheckSections.Help);
        Body? body = sections.Map("body", null, SuitSections.Body);
        ImmutableArray<SuitInUse> suits = sections.List("suits", "a suit in use", null, SuitSections.Suit);
        PrebreathePlan? prebreathe = sections.Map("prebreathe", null, SuitSections.Prebreathe);
        ImmutableArray<WorkDay> days = sections.List("days", "a day", null, SuitSections.Day);
        Station station = Station(sections);
        TextNode? model = sections.Text("model", null);
        if (model is not null) OrbitSections.CheckFileName(binding, model, "model", "station.glb");
        ImmutableArray<Person> people = sections.List("people", "a person", "the people of the sortie", PeopleSections.Person);
        ImmutableArray<SizeClass> sizes = sections.List("sizes", "a size class", null, PeopleSections.Size);
        ImmutableArray<Gear> gear = sections.List("gear", "a thing", null, PeopleSections.Gear);
        ImmutableArray<Bolt> bolts = sections.List("bolts", "a bolt", null, ToolSections.Bolt);
        ImmutableArray<FootingStrength> footings = sections.List("footings", "a footing", null, ToolSections.Footing);
        ImmutableArray<Arm> arms = sections.List("arms", "an arm", null, NetSections.Arm);
        ImmutableArray<GroundConsole> consoles = sections.List("consoles", "a console", null, NetSections.Console);
        ImmutableArray<HeatClock> clocks = sections.List("clocks", "a clock", null, ClockSections.Clock);
        ImmutableArray<MayBeLeft> mayBeLeft = sections.List("may_be_left", "what a feature may be left in", null, Features.MayBeLeft);
        ImmutableArray<Job> jobs = sections.List("jobs", "a job", "what is asked for", JobSections.Job);
        // What is missing here was told, so the scenario is never handed out: checks only need something to look at.
        Scenario scenario = new(id, "", sortie!, station, people, sizes, gear, handling!, tether!, arms, consoles, sky!, jobs, limits)
        {
            Bolts = bolts,
            Footings = footings,
            Checks = checks,
            Help = help,
            Body = body,
            Suits = suits,
            Prebreathe = prebreathe,
            Days = days,
            Clocks = clocks,
            MayBeLeft = mayBeLeft,
        };
        return (scenario, orbit, model);
    }

    private static void Version(Sections sections, Binding binding)
    {
        if (sections.Text("sallyport", $"the version of the format, {FormatVersion}") is { } version && version.Text != "1") binding.Report(ValueProblems.Version(version, FormatVersion));
    }

    private static string Id(Sections sections, Binding binding)
    {
        if (sections.Text("scenario", "the scenario's name, such as skerry/short") is not { } node) return "";
        if (!node.Text.Split('/').All(part => MapReader.WellFormed(part, blanks: false))) binding.Report(NameProblems.Form(node.Place, "scenario", node.Text, blanks: false));
        return node.Text;
    }

    private static Station Station(Sections sections)
    {
        string name = sections.Text("station", "the station's name")?.Text ?? "";
        ImmutableArray<Module> modules = sections.List("modules", "a module", null, StationSections.Module);
        ImmutableArray<Grip> grips = sections.List("grips", "a grip", "the points where a person can be", StationSections.Grip);
        ImmutableArray<Span> spans = sections.List("spans", "a span", null, StationSections.Span);
        ImmutableArray<Site> sites = sections.List("sites", "a site", "the worksites", StationSections.Site);
        ImmutableArray<Socket> sockets = sections.List("sockets", "a socket", null, StationSections.Socket);
        ImmutableArray<Zone> zones = sections.List("zones", "a zone", null, StationSections.Zone);
        ImmutableArray<Joint> joints = sections.List("joints", "a joint", null, HazardSections.Joint);
        ImmutableArray<Emitter> jets = sections.List("jets", "a set of jets", null, HazardSections.Emitter);
        ImmutableArray<Emitter> beams = sections.List("beams", "a beam", null, HazardSections.Emitter);
        ImmutableArray<Feature> features = sections.List("features", "a feature", null, Features.Feature);
        NetSections.PowerNet? power = sections.Map("power", null, NetSections.Power);
        FluidSections.FluidNet? fluid = sections.Map("fluid", null, FluidSections.Fluid);
        ImmutableArray<Surface> surfaces = sections.List("surfaces", "a surface", null, FluidSections.Surface);
        ImmutableArray<Edge> edges = sections.List("edges", "an edge", null, FluidSections.Edge);
        ImmutableArray<Airlock> airlocks = sections.List("airlocks", "an airlock", "where people go out and come in", StationSections.Airlock);
        return new(name, grips, spans, sites, sockets, zones, features, power?.Lines ?? [], power?.Sources ?? [], fluid?.Lines ?? [], airlocks, modules)
        {
            Joints = joints,
            Jets = jets,
            Beams = beams,
            Capacitors = power?.Capacitors,
            Controllers = power?.Controllers ?? [],
            Valves = fluid?.Valves ?? [],
            Disconnects = fluid?.Disconnects ?? [],
            BakeOut = fluid?.BakeOut,
            Surfaces = surfaces,
            Edges = edges,
        };
    }
}
