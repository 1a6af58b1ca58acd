using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace Sallyport.Desk.Tests;

/// <summary>The schemas as documents: the demos pass, what is committed is what the command writes.</summary>
public sealed class SchemaTests
{
    public static JsonSchema Scenario { get; } = JsonSchema.FromText(Schemas.Scenario().ToJsonString());

    public static JsonSchema Outline { get; } = JsonSchema.FromText(Schemas.Outline().ToJsonString());

    public static bool Takes(JsonSchema schema, JsonNode? value)
    {
        using JsonDocument document = JsonDocument.Parse(value is null ? "null" : value.ToJsonString());
        return schema.Evaluate(document.RootElement).IsValid;
    }

    public static TheoryData<string> ScenarioFiles =>
    [
        .. new[] { "scenarios", "src/Sallyport.Desk/Starter", "tests/Sallyport.Desk.Tests/EveryKey" }
            .SelectMany(folder => Directory.EnumerateFiles(RepositoryFolder.Of(folder), "*.yaml", SearchOption.AllDirectories))
            .Where(path => Path.GetFileName(Path.GetDirectoryName(path)) is not ("outlines" or "out"))
            .Select(path => Path.GetRelativePath(RepositoryFolder.Root, path)).Order(StringComparer.Ordinal),
    ];

    public static TheoryData<string> OutlineFiles =>
    [
        .. Directory.EnumerateFiles(RepositoryFolder.Of("scenarios"), "*.yaml", SearchOption.AllDirectories)
            .Where(path => Path.GetFileName(Path.GetDirectoryName(path)) == "outlines").Select(path => Path.GetRelativePath(RepositoryFolder.Root, path)).Order(StringComparer.Ordinal),
    ];

    [Theory]
    [MemberData(nameof(ScenarioFiles))]
    public void Schema_AFileOfADemo_IsTaken(string file) => AssertTaken(Scenario, file);

    [Theory]
    [MemberData(nameof(OutlineFiles))]
    public void Schema_AnOutlineOfADemo_IsTaken(string file) => AssertTaken(Outline, file);

    // Which schema a file has shows where it stands; the path must lead to what is committed, from where the file is.
    [Theory]
    [MemberData(nameof(ScenarioFiles))]
    [MemberData(nameof(OutlineFiles))]
    public void File_OfADemo_PointsEditorsAtItsSchema(string file)
    {
        if (file.StartsWith("tests", StringComparison.Ordinal)) return;
        const string mark = "# yaml-language-server: $schema=";
        string path = RepositoryFolder.Of(file), first = File.ReadLines(path).First();
        Assert.StartsWith(mark, first);
        bool outline = Path.GetFileName(Path.GetDirectoryName(path)) == "outlines";
        // The starter's files are written beside schemas of their own.
        if (file.Contains("Starter", StringComparison.Ordinal)) Assert.Equal($"schema/{Schemas.ScenarioName}", first[mark.Length..]);
        else Assert.Equal(RepositoryFolder.Of("docs", "schema", outline ? Schemas.OutlineName : Schemas.ScenarioName), Path.GetFullPath(first[mark.Length..], Path.GetDirectoryName(path)!));
    }

    [Theory]
    [InlineData(Schemas.ScenarioName)]
    [InlineData(Schemas.OutlineName)]
    public void Schema_Committed_IsWhatTheCommandWrites(string name)
    {
        using TemporaryFolder folder = new();
        Assert.Null(Schemas.Write(folder.Path));
        string committed = File.ReadAllText(RepositoryFolder.Of("docs", "schema", name)).Replace("\r\n", "\n");
        Assert.Equal(File.ReadAllText(Path.Combine(folder.Path, name)), committed);
    }

    [Theory]
    [InlineData(Schemas.ScenarioName)]
    [InlineData(Schemas.OutlineName)]
    public void Schema_Written_IsASchemaOfItsDraft(string name)
    {
        JsonNode schema = JsonNode.Parse(File.ReadAllText(RepositoryFolder.Of("docs", "schema", name)))!;
        Assert.True(Takes(MetaSchemas.Draft202012, schema));
        // The check itself, seen to work.
        schema["type"] = "no such type";
        Assert.False(Takes(MetaSchemas.Draft202012, schema));
    }

    [Fact]
    public void Schema_Sections_AreThoseOfTheReader() => Assert.Equal(Sections.Known, Schemas.Scenario()["properties"]!.AsObject().Select(section => section.Key));

    // What an editor shows: a description at every key, and examples that the schema itself takes.
    [Fact]
    public void Schema_EveryKey_IsDescribedAndItsExamplesAreTaken()
    {
        int examples = 0;
        foreach (JsonObject shape in Objects(Schemas.Scenario()).Concat(Objects(Schemas.Outline())))
        {
            if (shape["properties"] is JsonObject properties && shape.ContainsKey("additionalProperties"))
                Assert.All(properties, key => Assert.True(key.Value!["description"] is not null, $"{key.Key} has no description"));
            if (shape["examples"] is not JsonArray) continue;
            JsonSchema itself = JsonSchema.FromText(shape.ToJsonString());
            foreach (JsonNode? example in shape["examples"]!.AsArray())
            {
                Assert.True(Takes(itself, example), $"{example} is no example of: {shape["description"]}");
                examples++;
            }
        }
        Assert.True(examples > 100);
    }

    [Fact]
    public void Schemas_WhereNothingCanBeWritten_AreRefused()
    {
        using TemporaryFolder folder = new();
        string file = Path.Combine(folder.Path, "file");
        File.WriteAllText(file, "mine");
        Assert.Equal("file.unwritable", Schemas.Write(Path.Combine(file, "schema"))?.Code);
        Assert.Equal("mine", File.ReadAllText(file));
    }

    private static IEnumerable<JsonObject> Objects(JsonNode? node) => node switch
    {
        JsonObject map => new[] { map }.Concat(map.SelectMany(entry => Objects(entry.Value))),
        JsonArray list => list.SelectMany(Objects),
        _ => [],
    };

    private static void AssertTaken(JsonSchema schema, string file)
    {
        using JsonDocument document = JsonDocument.Parse(Trees.Json(Trees.Read(RepositoryFolder.Of(file)))!.ToJsonString());
        EvaluationResults results = schema.Evaluate(document.RootElement, new() { OutputFormat = OutputFormat.List });
        Assert.True(results.IsValid, string.Join('\n', (results.Details ?? []).Where(one => one.Errors is { Count: > 0 })
            .Select(one => $"{one.InstanceLocation}: {string.Join(", ", one.Errors!.Values)}")));
    }
}
