using System.Xml.Linq;
using Xunit;

namespace Sallyport.Tests.Architecture;

/// <summary>Data never turns back: each project references only what the way of the data allows.</summary>
public class LayerTests
{
    [Theory]
    [InlineData("Model")]
    [InlineData("Physics", "Model")]
    [InlineData("Planning", "Physics", "Model")]
    [InlineData("Proof", "Physics", "Model")]
    [InlineData("Draw", "Model")]
    [InlineData("Desk", "Draw", "Planning", "Proof", "Physics", "Model")]
    [InlineData("Web", "Desk", "Draw", "Planning", "Proof", "Physics", "Model")]
    [InlineData("Cli", "Web", "Desk", "Draw", "Planning", "Proof", "Physics", "Model")]
    public void Project_Layer_ReachesOnlyTheLayersBelow(string project, params string[] allowed)
    {
        Assert.Contains(project, Projects);
        Assert.Empty(Reached(project).Except(allowed));
    }

    [Fact]
    public void Project_EveryOneUnderSrc_HasARowAbove()
    {
        IEnumerable<string> rows = typeof(LayerTests).GetMethod(nameof(Project_Layer_ReachesOnlyTheLayersBelow))!
            .GetCustomAttributes(typeof(InlineDataAttribute), false).Cast<InlineDataAttribute>().Select(row => (string)row.Data[0]!);
        Assert.Equal(Projects.Order(), rows.Order());
    }

    // What everything rests on rests on the platform alone.
    [Theory]
    [InlineData("Model")]
    [InlineData("Physics")]
    public void Project_ModelAndPhysics_UseNoPackage(string project) => Assert.Empty(Includes(project, "PackageReference"));

    [Fact]
    public void Solution_EveryProjectFile_IsListed()
    {
        IEnumerable<string> listed = XDocument.Parse(Repository.Texts["Sallyport.slnx"]).Descendants("Project")
            .Select(project => project.Attribute("Path")!.Value);
        Assert.Equal(Repository.Under("", ".csproj").Select(file => file.Key).Order(), listed.Order());
    }

    private static List<string> Projects { get; } =
        [.. Repository.Under("src/", ".csproj").Select(file => Name(file.Key))];

    private static HashSet<string> Reached(string project)
    {
        HashSet<string> reached = [];
        Stack<string> open = new([project]);
        while (open.TryPop(out string? next))
            foreach (string reference in Includes(next, "ProjectReference").Select(Name))
                if (reached.Add(reference)) open.Push(reference);
        return reached;
    }

    private static IEnumerable<string> Includes(string project, string kind) =>
        XDocument.Parse(Repository.Texts[$"src/Sallyport.{project}/Sallyport.{project}.csproj"]).Descendants(kind)
            .Select(item => item.Attribute("Include")!.Value);

    private static string Name(string path) => Path.GetFileNameWithoutExtension(path).Replace("Sallyport.", "");
}
