using Xunit.Sdk;

namespace Sallyport.Desk.Tests;

/// <summary>One change to a good scenario that makes it bad, and every problem that is then told: place and code, found, expected, fix.</summary>
public sealed class BadInput : IXunitSerializable
{
    private string name = "", scenario = "", file = "", from = "", to = "";
    private string[] problems = [];

    /// <summary>For the test runner only.</summary>
    public BadInput()
    {
    }

    public BadInput(string name, string scenario, string file, string from, string to, params string[] problems) =>
        (this.name, this.scenario, this.file, this.from, this.to, this.problems) = (name, scenario, file, from, to, problems);

    public void Check()
    {
        string folder = scenario == "every-key" ? Folders.EveryKey : Folders.SkerryShort;
        ReadResult<Model.Scenario> result = Folders.ReadChanged(folder, file, from, to);
        Assert.Null(result.Value);
        Assert.Equal(problems, result.Problems.Select(Told));
    }

    public static string Told(Problem problem) =>
        (problem.Line > 0 ? $"{problem.File}:{problem.Line}:{problem.Column}: {problem.Code}" : $"{problem.File}: {problem.Code}")
        + $" | {problem.Found} | {problem.Expected} | {problem.Fix}";

    public void Deserialize(IXunitSerializationInfo info)
    {
        (name, scenario, file) = (info.GetValue<string>("name")!, info.GetValue<string>("scenario")!, info.GetValue<string>("file")!);
        (from, to, problems) = (info.GetValue<string>("from")!, info.GetValue<string>("to")!, info.GetValue<string[]>("problems")!);
    }

    public void Serialize(IXunitSerializationInfo info)
    {
        info.AddValue("name", name);
        info.AddValue("scenario", scenario);
        info.AddValue("file", file);
        info.AddValue("from", from);
        info.AddValue("to", to);
        info.AddValue("problems", problems);
    }

    public override string ToString() => name;
}
