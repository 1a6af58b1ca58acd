namespace Sallyport.Proof;

/// <summary>Everybody gets everywhere over spans that exist.</summary>
internal sealed class WayNone : FactRule
{
    public override RuleCard Card { get; } = new(new("way.none"),
        "a person who is planned where nobody took that person, or who goes where nothing can be held on to",
        "each activity's place against where the person is; each span walked and each move of an arm against those that the scenario has",
        RuleCard.NoFigure,
        Guard.Expansion("a way is found or the outline is refused"));
}

/// <summary>Every way is given the time it takes.</summary>
internal sealed class WayShort : FactRule
{
    public override RuleCard Card { get; } = new(new("way.short"),
        "hurrying hand over hand, or a plan that falls behind on every way",
        "the time given to each span against the person's own pace with what is carried then, rounded up a span; each move of an arm against its table",
        "the person's pace and the arm's table, as the scenario states them",
        Guard.Expansion("each span gets the person's own pace with what is carried then"));
}
