using System.Collections.Immutable;

namespace Sallyport.Proof;

/// <summary>Every rule that this version applies.</summary>
public static class RuleBook
{
    /// <summary>The rules, in the order in which help lists them.</summary>
    public static ImmutableArray<Rule> All { get; } =
    [
        new TimeClash(), new TimeTwice(), new TimeShort(),
        new WayNone(), new WayShort(),
        new TetherNone(), new TetherReach(), new TetherWrap(), new TetherRider(),
        new TetherSwap(), new TetherCrossed(), new TetherSwept(),
        new ZoneEntered(), new StructureMoving(), new JetsArmed(), new BeamLive(), new TouchTemperature(), new EdgeSharp(), new GlareEyes(),
        new GearAbsent(), new GearNested(), new GearVolume(), new HandsBusy(), new ItemUntied(), new ItemLost(), new StockOut(),
        new BoltTurns(), new ToolBattery(), new ToolSpare(), new FootingLoad(),
        new RestraintAbsent(), new ArmShared(), new ArmRider(),
        new ArmBrakesOn(), new ArmSwept(), new ArmVoice(),
        new FeatureWrong(), new ThermalClock(),
        new InhibitFew(), new InhibitCommon(), new InhibitUnseen(), new ConnectorUncapped(), new ConnectorBleed(),
        new GoMissing(),
        new LinePressure(), new LineTrapped(), new FluidCarried(), new BakeoutBudget(),
        new ReturnOne(), new ReturnBoth(), new ReturnArmless(), new ReturnHelp(), new HelpArmless(),
        new PersonAlone(), new PersonUntrained(), new GloveChecks(), new WorkRest(),
        new WorkRate(), new SuitReserve(), new CarbonDioxide(), new WaterPressure(), new PrebreatheRatio(), new PrebreatheBreak(), new CrewDayLength(),
        new LightNeeded(), new RadioNeeded(), new RadiationHigh(), new VoiceCrowded(),
        new JobOrder(), new JobLate(), new JobMissing(), new PinMissed(),
        new BranchUnproven(), new JobHalfway(),
        new AirlockOrder(), new AirlockVolume(), new StationUnready(), new PetLimit(), new HatchEnd(),
    ];

    /// <summary>The rule of this name; null when there is none.</summary>
    public static Rule? Find(string id) => All.FirstOrDefault(rule => rule.Card.Id.Value == id);
}
