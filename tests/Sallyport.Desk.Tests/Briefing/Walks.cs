using System.Collections.Immutable;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Desk.Tests;

/// <summary>Plans that are told and played: Skerry as a search once left it, with a decision near the end and so two branches, and the short walk that was worked by hand.</summary>
internal static class Walks
{
    private static readonly Lazy<Walk> SkerryMade = new(() => Of("skerry", Path.Combine(AppContext.BaseDirectory, "skerry-outline.yaml")));
    private static readonly Lazy<Walk> ShortMade = new(() => Of("skerry-short", Path.Combine(Folders.SkerryShort, "outlines", "by-hand.yaml")));

    public static Walk Skerry => SkerryMade.Value;

    public static Walk Short => ShortMade.Value;

    public static Walk Named(string name) => name == "skerry" ? Skerry : Short;

    private static Walk Of(string name, string outline)
    {
        SortieDesk desk = Folders.Good(SortieDesk.Open(RepositoryFolder.Of("scenarios", name)));
        Outline read = Folders.Good(OutlineFile.Read(outline, desk.Scenario));
        return new(desk, desk.Scenario, desk.ProveShort(read) ?? throw new InvalidOperationException($"{outline} cannot be expanded"));
    }
}

/// <summary>A plan with its scenario.</summary>
internal sealed record Walk(SortieDesk Desk, Scenario Scenario, ProvenPlan Plan)
{
    public Trace Trace => Plan.Played[0].Trace;

    /// <summary>The plan as what is told of it sees it.</summary>
    public BriefedPlan Briefed => new(Scenario, Plan, Wording.English.Closing);

    public Told Told => Narration.Of(Briefed);

    public ImmutableArray<Cue> Cues => Told.Likely;

    public Playback Playback => PlaybackBuilder.Of(Briefed, Desk.Orbit, Told, new ChartFrame(0, 1, Trace.From, Trace.To, 0));

    /// <summary>The same walk with other names: of the sortie, the station and everybody.</summary>
    public Walk Renamed(string name) => this with
    {
        Scenario = Scenario with
        {
            Sortie = Scenario.Sortie with { Title = name },
            Station = Scenario.Station with { Name = name, Sites = [.. Scenario.Station.Sites.Select(site => site with { Title = name })] },
            People = [.. Scenario.People.Select(person => person with { Name = name })],
            Gear = [.. Scenario.Gear.Select(gear => gear with { Title = name })],
            Jobs = [.. Scenario.Jobs.Select(job => job with
            {
                Title = name, For = name,
                Legs = [.. job.Legs.Select(leg => leg with { Title = name, Steps = [.. leg.Steps.Select(step => step with { Title = name, For = name })] })],
            })],
        },
    };
}
