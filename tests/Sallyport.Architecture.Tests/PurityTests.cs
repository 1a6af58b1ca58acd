using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using Sallyport.Model;
using Sallyport.Physics;
using Xunit;

namespace Sallyport.Tests.Architecture;

/// <summary>Model and Physics read no file, no clock and no random number: the same input gives the same answer, anywhere.</summary>
/// <remarks>Read from the tables of the built assembly, which name every outside type and member that its code mentions.</remarks>
public class PurityTests
{
    private static readonly string[] ForbiddenNamespaces = ["System.IO", "System.Net", "System.Security.Cryptography"];

    private static readonly HashSet<string> ForbiddenTypes =
    [
        "System.Console", "System.Environment", "System.Random", "System.TimeProvider", "System.AppContext",
        "System.Diagnostics.Process", "System.Diagnostics.Stopwatch", "System.Threading.Thread", "System.Threading.Timer",
    ];

    private static readonly HashSet<string> ForbiddenMembers =
    [
        "System.DateTime.get_Now", "System.DateTime.get_UtcNow", "System.DateTime.get_Today",
        "System.DateTimeOffset.get_Now", "System.DateTimeOffset.get_UtcNow",
        "System.Guid.NewGuid", "System.TimeZoneInfo.get_Local",
    ];

    [Fact]
    public void Model_EverythingItUses_IsPure() => Assert.Empty(Impurities(typeof(Pet).Assembly));

    [Fact]
    public void Physics_EverythingItUses_IsPure() => Assert.Empty(Impurities(typeof(Walking).Assembly));

    // The check itself, seen to work: this assembly reads files, a clock and a random number.
    [Fact]
    public void Impurities_OfThisAssembly_AreSeen()
    {
        Assert.True(Impure().Ticks != 0);
        IReadOnlyList<string> seen = Impurities(typeof(PurityTests).Assembly);
        Assert.Contains("System.IO.File", seen);
        Assert.Contains("System.Random", seen);
        Assert.Contains("System.DateTime.get_UtcNow", seen);
        Assert.DoesNotContain("System.DateTime.get_Now", seen);
    }

    private static DateTime Impure() => DateTime.UtcNow.AddTicks(Random.Shared.Next(1));

    private static List<string> Impurities(Assembly assembly)
    {
        using PEReader file = new(File.OpenRead(assembly.Location));
        MetadataReader reader = file.GetMetadataReader();
        List<string> found = [];
        foreach (TypeReferenceHandle handle in reader.TypeReferences)
        {
            (string space, string name) = Outer(reader, handle);
            if (ForbiddenTypes.Contains(name) || ForbiddenNamespaces.Any(part => space == part || space.StartsWith(part + ".", StringComparison.Ordinal)))
                found.Add(name);
        }
        foreach (MemberReferenceHandle handle in reader.MemberReferences)
        {
            MemberReference member = reader.GetMemberReference(handle);
            if (member.Parent.Kind != HandleKind.TypeReference) continue;
            string name = Outer(reader, (TypeReferenceHandle)member.Parent).Name + "." + reader.GetString(member.Name);
            if (ForbiddenMembers.Contains(name)) found.Add(name);
        }
        return found;
    }

    /// <summary>The namespace and full name of a type; of the one around it when it is nested.</summary>
    private static (string Space, string Name) Outer(MetadataReader reader, TypeReferenceHandle handle)
    {
        TypeReference type = reader.GetTypeReference(handle);
        while (type.ResolutionScope.Kind == HandleKind.TypeReference)
            type = reader.GetTypeReference((TypeReferenceHandle)type.ResolutionScope);
        string space = reader.GetString(type.Namespace);
        return (space, space + "." + reader.GetString(type.Name));
    }
}
