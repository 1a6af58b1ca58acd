using Sallyport.Model;
using Sallyport.Physics;
using Xunit;
using static Sallyport.Tests.Physics.SuitExamples;

namespace Sallyport.Tests.Physics;

public class CrewDayTests
{
    [Fact]
    public void Length_FromWakingToSuitOff_LeavesWhatIsLeft()
    {
        CrewDay day = new(new("EV1"), At("-5:30"), At("8:00"));
        Assert.Equal(Duration.FromMinutes(810), day.Length);
        Assert.Equal(Duration.FromMinutes(90), day.LeftOf(Duration.FromMinutes(900)));
        Assert.Equal(Duration.FromMinutes(0), day.LeftOf(Duration.FromMinutes(810)));
        Assert.Equal(Duration.FromMinutes(-10), day.LeftOf(Duration.FromMinutes(800)));
    }

    [Fact]
    public void Length_SuitOffBeforeWaking_IsRefused() =>
        Assert.Contains("before waking", Assert.Throws<InvalidOperationException>(() => new CrewDay(new("EV1"), At("1:00"), At("0:00")).Length).Message);
}
