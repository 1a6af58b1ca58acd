using System.Buffers.Binary;
using System.Text;

namespace Sallyport.Desk.Tests;

/// <summary>The station's model: what is taken, and what is refused with its reason.</summary>
/// <remarks>The container is that of the Khronos Group's glTF 2.0 Specification, section 4.4; the good file was put together by hand after it.</remarks>
public sealed class ModelTests
{
    private static readonly byte[] Good = File.ReadAllBytes(Path.Combine(Folders.EveryKey, "islet.glb"));

    private static string Json { get; } = Encoding.UTF8.GetString(Good, 20, BinaryPrimitives.ReadInt32LittleEndian(Good.AsSpan(12)));

    [Fact]
    public void Model_Whole_IsTakenAsItIs()
    {
        Assert.Null(GlbFile.Fault(Good));
        Assert.Equal(Good, Folders.Good(ScenarioReader.ReadWhole(Folders.EveryKey)).Model);
    }

    [Theory]
    [InlineData("\"version\":\"2.0\"", "\"version\":\"1.0\"", "no asset of version 2")]
    [InlineData("\"scene\":0", "\"scene\":3", "no scene")]
    [InlineData("{\"nodes\":[0]}", "{\"nodes\":[9]}", "a scene with a node that is not there")]
    [InlineData("\"mesh\":0", "\"mesh\":4", "the mesh 4, which is not there")]
    [InlineData("\"translation\":[0,0,5]", "\"children\":[0]", "the node 0 below itself")]
    [InlineData("\"translation\":[0,0,5]", "\"translation\":[0,5]", "a node whose translation is not 3 figures")]
    [InlineData("\"indices\":1", "\"indices\":7", "the accessor 7, which is not there")]
    [InlineData("\"indices\":1", "\"indices\":0", "an accessor 0 of another kind than its use asks for")]
    [InlineData("\"indices\":1", "\"mode\":1", "a mesh of mode 1: only triangles are drawn")]
    [InlineData("\"POSITION\":0", "\"NORMAL\":0", "a mesh without positions")]
    [InlineData("\"material\":0", "\"material\":5", "the material 5, which is not there")]
    [InlineData("\"count\":8", "\"count\":9", "an accessor 0 that reaches beyond its figures")]
    [InlineData("\"count\":36", "\"count\":35", "a mesh with a triangle that has no three corners")]
    [InlineData("\"count\":36", "\"count\":-3", "an accessor 1 that reaches beyond its figures")]
    [InlineData("\"byteOffset\":96", "\"byteOffset\":9000000000000000000", "an accessor 1 that reaches beyond its figures")]
    [InlineData("\"byteOffset\":96", "\"byteOffset\":98", "an accessor 1 that reaches beyond its figures")]
    [InlineData("\"byteOffset\":96", "\"byteOffset\":0", "a corner at point")]
    [InlineData("\"byteLength\":168}]", "\"byteLength\":168,\"uri\":\"x\"}]", "a buffer outside of the file")]
    [InlineData("\"scene\":0", "\"scene\":0,\"images\":[{\"uri\":\"http://a.test\"}]", "images, which are not drawn here: shapes and plain colours are")]
    [InlineData("\"scene\":0", "\"scene\":0,\"extensionsRequired\":[\"KHR_x\"]", "the extension KHR_x, which is not drawn here")]
    [InlineData("\"count\":8", "\"count\":\"8\"", "a value that is missing, or of another kind than glTF has there")]
    [InlineData("\"scene\":0,", "\"scene\":0,,", "JSON that cannot be read")]
    public void Model_Broken_IsRefusedWithItsReason(string from, string to, string fault)
    {
        Assert.Contains(from, Json);
        Assert.StartsWith(fault, GlbFile.Fault(With(Json.Replace(from, to))));
    }

    [Theory]
    [InlineData(0, "no binary glTF file")]
    [InlineData(4, "version")]
    [InlineData(8, "a length of")]
    [InlineData(12, "no whole piece of JSON")]
    [InlineData(16, "no whole piece of JSON")]
    public void Header_Changed_IsRefused(int at, string fault)
    {
        byte[] file = [.. Good];
        file[at] ^= 0x40;
        file[at + 3] ^= 0x40;
        Assert.StartsWith(fault, GlbFile.Fault(file));
    }

    [Fact]
    public void Model_DamagedAnywhere_IsTakenOrRefusedAndNeverThrows()
    {
        Random random = new(5);
        int refused = 0;
        for (int i = 0; i < 4000; i++)
        {
            byte[] file = [.. Good];
            for (int k = random.Next(1, 6); k > 0; k--) file[random.Next(file.Length)] = (byte)random.Next(256);
            if (GlbFile.Fault(random.Next(4) == 0 ? file[..random.Next(file.Length)] : file) is not null) refused++;
        }
        Assert.InRange(refused, 2000, 3999);
    }

    [Theory]
    [InlineData("islet.glb", "none.glb", "station.yaml:52:8: file.missing")]
    [InlineData("islet.glb", "../islet.glb", "station.yaml:52:8: value.form")]
    [InlineData("islet.glb", "islet.omm", "station.yaml:52:8: model.broken")]
    public void Model_ThatCannotBeDrawn_IsToldWithItsPlace(string from, string to, string told)
    {
        Problem problem = Assert.Single(Folders.ReadChanged(Folders.EveryKey, "station.yaml", from, to).Problems);
        Assert.StartsWith(told, problem.ToString());
    }

    [Fact]
    public void Model_TooLarge_IsRefused()
    {
        using TemporaryFolder folder = new();
        foreach (string path in Directory.GetFiles(Folders.EveryKey)) File.Copy(path, Path.Combine(folder.Path, Path.GetFileName(path)));
        File.WriteAllBytes(Path.Combine(folder.Path, "islet.glb"), new byte[GlbFile.MostBytes + 1]);
        Assert.Equal("model.large", Assert.Single(ScenarioReader.Read(folder.Path).Problems).Code);
    }

    /// <summary>The good file with other JSON in it, its lengths as they must be.</summary>
    private static byte[] With(string json)
    {
        byte[] text = Encoding.UTF8.GetBytes(json.PadRight((json.Length + 3) / 4 * 4));
        byte[] file = [.. Good[..20], .. text, .. Good[(20 + Json.Length)..]];
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(8), file.Length);
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(12), text.Length);
        return file;
    }
}
