using System.Text.Json.Nodes;
using Sallyport.Model;

namespace Sallyport.Desk;

/// <summary>The shapes of the sections about what can hurt somebody near it: joints, jets, beams.</summary>
internal static class HazardShapes
{
    public static JsonNode Joint() => new MapShape("A joint of the structure that moves unless it is locked.")
        .Must("id", Shapes.Name("Its name.", "sail-joint"))
        .Must("feature", Shapes.Text("The feature that says whether it is locked.", "sail-joint"))
        .Must("locked", Shapes.Texts("The states in which it is locked; in every other one it may move.", "locked", filled: true))
        .Must("moves", Shapes.Texts("The grips that move with it, and those within reach of what moves.", "sail-root", filled: true));

    public static JsonNode Emitter(string about) => new MapShape(about)
        .Must("id", Shapes.Name("Its name.", "bow-jets"))
        .Must("feature", Shapes.Text("The feature that says whether it is safe.", "jets"))
        .Must("safe", Shapes.Texts("The states in which it is safe; in every other one it is not.", "held", filled: true))
        .Must("at", Shapes.Point("Where it sends from."))
        .May("around", Shapes.FigureFromZero("The radius round that point that counts as the thing itself; zero when missing.", Dimension.Length, "0.5 m"))
        .May("cone", new MapShape("Where it sends to: a cone with a round end; nothing but the thing itself when missing.")
            .Must("along", Shapes.Point("The direction of its axis, as a point seen from the tip; its length does not matter."))
            .Must("half_angle", Shapes.PositiveFigure("Between axis and side, at most a right angle.", Dimension.Angle, "20 deg"))
            .Must("reach", Shapes.PositiveFigure("From tip to end.", Dimension.Length, "12 m")));
}
