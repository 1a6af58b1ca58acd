using System.Collections.Immutable;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>What some edits would come to.</summary>
/// <param name="Files">The files as they would be.</param>
/// <param name="Problems">What would keep them from being used.</param>
/// <param name="Names">The names that they would give.</param>
/// <param name="Why">Why the edits cannot be done at all, in words; null when they can.</param>
public sealed record SortiePreview(ImmutableArray<SortieFile> Files, ImmutableArray<Problem> Problems, KnownNames Names, string? Why);

/// <summary>A name that may be chosen, and what people call what it names; empty where there is no more to say.</summary>
public sealed record KnownName(string Name, string Title);

/// <summary>The names that the files of a scenario give, to be chosen from.</summary>
public sealed class KnownNames
{
    private readonly Names names;
    private readonly Dictionary<string, string> titles = new(StringComparer.Ordinal);

    internal KnownNames(Names names, Scenario? scenario)
    {
        this.names = names;
        if (scenario is null) return;
        foreach (Site site in scenario.Station.Sites) titles[$"{Kinds.Site} {site.Id}"] = site.Title;
        foreach (Gear gear in scenario.Gear) titles[$"{Kinds.Gear} {gear.Id}"] = gear.Title;
        foreach (Person person in scenario.People) titles[$"{Kinds.Person} {person.Id}"] = person.Name;
        foreach (Leg leg in scenario.Legs) titles[$"{Kinds.Leg} {leg.Id}"] = leg.Title;
        foreach (Bolt bolt in scenario.Bolts) titles[$"{Kinds.Bolt} {bolt.Id}"] = bolt.Title;
    }

    /// <summary>No names.</summary>
    public static KnownNames None { get; } = new(new(), null);

    /// <summary>The names of a kind, as <see cref="FormField.Refers"/> says it, in the order of the files.</summary>
    public ImmutableArray<KnownName> Of(string kind)
    {
        if (kind.Length == 0) return [];
        if (kind is References.PlaceBefore or References.PlaceInStep)
            return
            [
                .. (kind == References.PlaceInStep ? new[] { "person", "site", "inside", "spent" } : ["inside", "spent"]).Select(word => new KnownName(word, "")),
                .. new[] { Kinds.Bag, Kinds.Grip, Kinds.Site, Kinds.Socket, Kinds.Person, Kinds.Arm }.SelectMany(of => names.All(of).Select(name => new KnownName($"{of} {name}", TitleOf(of, name)))),
            ];
        // Within a job its own legs go by their short names.
        if (kind.StartsWith(References.LegIn, StringComparison.Ordinal))
        {
            string job = kind[References.LegIn.Length..] + "/";
            return [.. names.All(Kinds.Leg).OrderByDescending(leg => leg.StartsWith(job, StringComparison.Ordinal)).Select(leg => new KnownName(leg.StartsWith(job, StringComparison.Ordinal) ? leg[job.Length..] : leg, TitleOf(Kinds.Leg, leg)))];
        }
        return [.. names.All(kind).Select(name => new KnownName(name, TitleOf(kind, name)))];
    }

    private string TitleOf(string kind, string name) =>
        titles.GetValueOrDefault($"{(kind is Kinds.Bag or Kinds.Restraint or Kinds.Stock or Kinds.Tool ? Kinds.Gear : kind == Kinds.Outside ? Kinds.Person : kind)} {name}") is { } title && title != name ? title : "";
}

/// <summary>Which kind of name stands under which key of a scenario file: the reader's own kinds, which a test holds this to.</summary>
internal static class References
{
    public const string PlaceBefore = "a place", PlaceInStep = "a place, told in a step", LegIn = "leg in ";

    // By the end of the way to the key; the longest that fits counts. In braces, what stands under another key of the nearest map that has it.
    private static readonly Dictionary<string, string> Kinds = new(StringComparer.Ordinal)
    {
        ["feature"] = Desk.Kinds.Feature,
        ["covers"] = Desk.Kinds.Feature,
        ["ends"] = Desk.Kinds.Feature,
        ["leaves"] = Desk.Kinds.Feature,
        ["commands/makes"] = Desk.Kinds.Feature,
        ["is"] = "state of {feature}",
        ["becomes"] = "state of {feature}",
        ["closed"] = "state of {feature}",
        ["exposed"] = "state of {feature}",
        ["shut"] = "state of {feature}",
        ["mated"] = "state of {feature}",
        ["capped"] = "state of {feature}",
        ["locked"] = "state of {feature}",
        ["safe"] = "state of {feature}",
        ["may_be_left/in"] = "state of {feature}",
        ["after_abort"] = "state of {feature}",
        ["leaves/*"] = "state of {key}",
        ["commands/makes/*"] = "state of {key}",
        ["features/start"] = "state of {id}",
        ["features/ready"] = "state of {id}",
        ["features/back"] = "state of {id}",
        ["gear"] = Desk.Kinds.Gear,
        ["with"] = Desk.Kinds.Gear,
        ["picks_up"] = Desk.Kinds.Gear,
        ["leaves_behind"] = Desk.Kinds.Gear,
        ["ties"] = Desk.Kinds.Gear,
        ["tools"] = Desk.Kinds.Gear,
        ["use"] = Desk.Kinds.Restraint,
        ["stock"] = Desk.Kinds.Stock,
        ["spare_for"] = Desk.Kinds.Tool,
        ["fastener/tool"] = Desk.Kinds.Tool,
        ["bolt"] = Desk.Kinds.Bolt,
        ["size"] = Desk.Kinds.Size,
        ["sizes"] = Desk.Kinds.Size,
        ["hatch"] = Desk.Kinds.Size,
        ["before_people"] = Desk.Kinds.Size,
        ["dead"] = Desk.Kinds.Node,
        ["power/sources"] = Desk.Kinds.Node,
        ["capacitors/node"] = Desk.Kinds.Node,
        ["lines/controller"] = Desk.Kinds.Controller,
        ["needs/go"] = Desk.Kinds.Command,
        ["shutdowns/off"] = Desk.Kinds.Command,
        ["shutdowns/on"] = Desk.Kinds.Command,
        ["legs/shutdowns"] = Desk.Kinds.Shutdown,
        ["shutdown"] = Desk.Kinds.Shutdown,
        ["grip"] = Desk.Kinds.Grip,
        ["grips"] = Desk.Kinds.Grip,
        ["through"] = Desk.Kinds.Grip,
        ["moves"] = Desk.Kinds.Grip,
        ["climb/to"] = Desk.Kinds.Grip,
        ["spans/from"] = Desk.Kinds.Grip,
        ["spans/to"] = Desk.Kinds.Grip,
        ["site"] = Desk.Kinds.Site,
        ["sites"] = Desk.Kinds.Site,
        ["socket"] = Desk.Kinds.Socket,
        ["line"] = Desk.Kinds.FluidLine,
        ["minds"] = Desk.Kinds.Edge,
        ["arm"] = Desk.Kinds.Arm,
        ["sites/pose"] = "pose of {arm}",
        ["mounts/pose"] = "pose of {id}",
        ["arms/start"] = "pose of {id}",
        ["rides/from"] = "pose of {id}",
        ["rides/to"] = "pose of {id}",
        ["who"] = Desk.Kinds.Outside,
        ["order"] = Desk.Kinds.Outside,
        ["people"] = Desk.Kinds.Outside,
        ["factors/person"] = Desk.Kinds.Outside,
        ["operator"] = Desk.Kinds.Person,
        ["training"] = Desk.Kinds.Training,
        ["after/leg"] = LegIn + "{job}",
        ["contingencies/leg"] = LegIn + "{job}",
        ["contingencies/step"] = "step of {leg}",
        ["makes/to"] = PlaceInStep,
        ["gear/start"] = PlaceBefore,
        ["gear/end"] = PlaceBefore,
        ["while/in"] = PlaceBefore,
        ["when/in"] = PlaceBefore,
    };

    /// <summary>The kind of name that stands there; empty for none.</summary>
    /// <param name="where">The way to it: keys joined by '/', without the numbers of items; '*' for a name that the user gives.</param>
    /// <param name="key">Its last key.</param>
    /// <param name="near">What stands under a key in the nearest map around it; for <c>job</c>, the name of the job it is in.</param>
    public static string Of(string where, string key, Func<string, string?> near)
    {
        string[] words = where.Split('/');
        if (words.Length == 1) return "";
        for (int from = 0; from < words.Length; from++)
            if (Kinds.TryGetValue(string.Join('/', words[from..]), out string? kind)) return Filled(kind, key, near);
        return "";
    }

    private static string Filled(string kind, string key, Func<string, string?> near)
    {
        int open = kind.IndexOf('{', StringComparison.Ordinal);
        if (open < 0) return kind;
        string name = kind[(open + 1)..^1];
        // Whoever adds an entry fills its key in.
        if (name == "key") return key.Length == 0 ? kind : kind[..open] + key;
        if (near(name) is not { } value) return "";
        if (name == "leg" && !value.Contains('/')) value = $"{near("job")}/{value}";
        return kind[..open] + value;
    }
}
