namespace Sallyport.Desk.Tests;

public sealed class EveryKeyTests
{
    [Fact]
    public void EveryKey_Read_HasNoProblem()
    {
        Folders.Good(ScenarioReader.Read(Folders.EveryKey));
        Folders.Good(ScenarioReader.Read(Folders.SkerryShort));
    }
}
