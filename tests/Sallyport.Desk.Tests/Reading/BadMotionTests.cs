namespace Sallyport.Desk.Tests;

/// <summary>Joints, jets, beams, rides and hooks that cannot be so: what is told, where, and how to mend it.</summary>
public sealed class BadMotionTests
{
    private const string Every = "every-key";

    public static TheoryData<BadInput> Cases =>
    [
        new BadInput("joint of an unknown feature", Every, "hazards.yaml", "feature: mirror, locked", "feature: miror, locked",
            "hazards.yaml:2:31: name.unknown | 'miror' | a known feature | write 'mirror' if that is meant, or add the feature 'miror'."),
        new BadInput("state that the feature does not have", Every, "hazards.yaml", "safe: [held]", "safe: [hold]",
            "hazards.yaml:6:10: name.unknown | 'hold' | a known state of jets | write 'held' if that is meant, or add the state of jets 'hold'."),
        new BadInput("cone without a direction", Every, "hazards.yaml", "along: \"2, 0, 0 m\"", "along: \"0, 0, 0 m\"",
            "hazards.yaml:9:17: value.range | '0, 0, 0 m' for 'along' | a direction: at least one figure other than zero | check the figure and its unit."),
        new BadInput("cone wider than a right angle", Every, "hazards.yaml", "half_angle: 20 deg", "half_angle: 91 deg",
            "hazards.yaml:9:42: value.range | '91 deg' for 'half_angle' | more than 0, at most 90 deg | check the figure and its unit."),
        new BadInput("two hazards of one name", Every, "hazards.yaml", "- {id: mast,", "- {id: stern-jets,",
            "hazards.yaml:11:8: name.twice | the joint, jets or beam 'stern-jets' again; the first stands at hazards.yaml:4:7 | each joint, jets or beam once | rename or delete one of the two."),
        new BadInput("guided for longer than the ride", Every, "arm.yaml", "guided: 5 s", "guided: 8 min",
            "arm.yaml:8:79: value.range | '8 min' for 'guided' | no more than the ride takes, 7 min | check the figure and its unit."),
        new BadInput("hook that takes the whole change", Every, "scenario.yaml", "hooked: 45 s", "hooked: 2 min",
            "scenario.yaml:25:47: value.range | '2 min' for 'hooked' | less than the whole change of reels, 2 min: the other hook is released after it | check the figure and its unit."),
    ];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Scenario_BadMotion_IsToldWithPlaceAndFix(BadInput bad) => bad.Check();
}
