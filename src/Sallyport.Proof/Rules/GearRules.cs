namespace Sallyport.Proof;

/// <summary>What is needed is there.</summary>
internal sealed class GearAbsent : FactRule
{
    public override RuleCard Card { get; } = new(new("gear.absent"),
        "a person at the worksite without the tool",
        "where each thing is when it is taken, put, handed over, used or moved: on the person, in a bag there, hooked or installed at the worksite",
        RuleCard.NoFigure,
        Guard.Decoder("everything that a leg needs is fetched before it; completion does it again after an edit"));
}

/// <summary>Hands are free for holding on.</summary>
internal sealed class HandsBusy : FactRule
{
    public override RuleCard Card { get; } = new(new("hands.busy"),
        "translating with something in hand, and a thing on a carry point that cannot hold it",
        "what hangs on each carry point, by size and by mass with contents; what is in hand when a way begins",
        "the carry points as the scenario states them",
        Guard.Decoder("a thing is taken only where a carry point is free that holds it"));
}

/// <summary>Stock lasts.</summary>
internal sealed class StockOut : FactRule
{
    public override RuleCard Card { get; } = new(new("stock.out"),
        "running out of what a step uses up",
        "pieces left when a step uses some",
        "at least what the step uses",
        Guard.Proof("what is used up follows from which jobs are in, not from their order"));
}
