using System.Buffers.Binary;
using System.Globalization;
using System.Text.Json;

namespace Sallyport.Desk;

/// <summary>
/// Looks over a model of the station before it goes into a page: a binary glTF 2.0 file (.glb; Khronos Group, glTF 2.0 Specification, section 4.4 for the container).
/// Taken is what the page draws: meshes of triangles with positions, normals and colours, the colour of their material, and nodes. A file that asks for more, or that points
/// outside of itself, is refused whole.
/// </summary>
internal static class GlbFile
{
    /// <summary>The largest file, bytes: with it a page stays below 2 MB.</summary>
    public const int MostBytes = 700_000;

    private const uint Magic = 0x46546C67, Json = 0x4E4F534A, Binary = 0x004E4942;

    /// <summary>What is wrong with a file, in words; null when the page can draw it.</summary>
    public static string? Fault(ReadOnlySpan<byte> file)
    {
        if (file.Length < 20 || Word(file, 0) != Magic) return "no binary glTF file: it does not begin with 'glTF'";
        if (Word(file, 4) != 2) return $"version {Word(file, 4)} of the container";
        if (Word(file, 8) != file.Length) return $"a length of {Word(file, 8)} bytes in its header, and {file.Length} bytes in all";
        uint json = Word(file, 12);
        if (Word(file, 16) != Json || json > file.Length - 20) return "no whole piece of JSON after its header";
        ReadOnlySpan<byte> rest = file[(20 + (int)json)..], binary = [];
        if (rest.Length > 0)
        {
            if (rest.Length < 8 || Word(rest, 4) != Binary || Word(rest, 0) > rest.Length - 8) return "no whole piece of figures after its JSON";
            binary = rest.Slice(8, (int)Word(rest, 0));
        }
        try
        {
            using JsonDocument document = JsonDocument.Parse(file.Slice(20, (int)json).ToArray());
            return document.RootElement.ValueKind == JsonValueKind.Object ? new Model(document.RootElement, binary.ToArray()).Fault() : "JSON that is no object";
        }
        catch (JsonException e)
        {
            return $"JSON that cannot be read: {e.Message}";
        }
        catch (Exception e) when (e is InvalidOperationException or FormatException or OverflowException or KeyNotFoundException)
        {
            return "a value that is missing, or of another kind than glTF has there";
        }
    }

    private static uint Word(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt32LittleEndian(bytes[at..]);

    private sealed class Model(JsonElement root, byte[] binary)
    {
        private const int MostVertices = 400_000;
        private static readonly string[] Foreign = ["images", "textures", "skins", "animations"];
        private int vertices;

        public string? Fault()
        {
            if (!root.TryGetProperty("asset", out JsonElement asset) || !asset.TryGetProperty("version", out JsonElement version) || version.GetString()?.StartsWith("2.", StringComparison.Ordinal) != true)
                return "no asset of version 2";
            if (List("extensionsRequired").Length > 0) return $"the extension {List("extensionsRequired")[0].GetString()}, which is not drawn here";
            foreach (string foreign in Foreign)
                if (List(foreign).Length > 0) return $"{foreign}, which are not drawn here: shapes and plain colours are";
            if (List("buffers").Length > 1 || List("buffers").Any(buffer => buffer.TryGetProperty("uri", out _))) return "a buffer outside of the file";
            if (List("buffers").Any(buffer => Whole(buffer, "byteLength") > binary.Length)) return "a buffer that is longer than its figures";
            foreach (JsonElement mesh in List("meshes"))
                foreach (JsonElement primitive in mesh.GetProperty("primitives").EnumerateArray())
                    if (FaultOf(primitive) is { } fault) return fault;
            if (List("materials").Select((_, i) => i).FirstOrDefault(i => List("materials")[i].ValueKind != JsonValueKind.Object, -1) >= 0) return "a material that is no object";
            return vertices == 0 ? "no mesh of triangles" : FaultOfNodes();
        }

        private string? FaultOf(JsonElement primitive)
        {
            if (primitive.TryGetProperty("mode", out JsonElement mode) && mode.GetInt32() != 4) return $"a mesh of mode {mode.GetInt32()}: only triangles are drawn";
            JsonElement attributes = primitive.GetProperty("attributes");
            if (!attributes.TryGetProperty("POSITION", out JsonElement position)) return "a mesh without positions";
            if (FaultOfAccessor(position.GetInt32(), ["VEC3"], [5126], out int count, out _) is { } fault) return fault;
            if ((vertices += count) > MostVertices) return $"more than {MostVertices.ToString("N0", CultureInfo.InvariantCulture)} points";
            if (attributes.TryGetProperty("NORMAL", out JsonElement normal) && (FaultOfAccessor(normal.GetInt32(), ["VEC3"], [5126], out int normals, out _) ?? (normals == count ? null : "as many normals as not points")) is { } bad) return bad;
            if (primitive.TryGetProperty("material", out JsonElement material) && material.GetInt32() is var used && (used < 0 || used >= List("materials").Length)) return $"the material {used}, which is not there";
            if (!primitive.TryGetProperty("indices", out JsonElement indices)) return count % 3 == 0 ? null : "a mesh with a triangle that has no three corners";
            if (FaultOfAccessor(indices.GetInt32(), ["SCALAR"], [5121, 5123, 5125], out int corners, out Reading read) is { } wrong) return wrong;
            if (corners % 3 != 0) return "a mesh with a triangle that has no three corners";
            for (int i = 0; i < corners; i++)
                if (read.Index(binary, i) >= count) return $"a corner at point {read.Index(binary, i)} of a mesh with {count}";
            return null;
        }

        private string? FaultOfAccessor(int index, string[] types, int[] components, out int count, out Reading read)
        {
            (count, read) = (0, default);
            if (index < 0 || index >= List("accessors").Length) return $"the accessor {index}, which is not there";
            JsonElement accessor = List("accessors")[index];
            if (accessor.TryGetProperty("sparse", out _)) return "a sparse accessor, which is not read here";
            int component = accessor.GetProperty("componentType").GetInt32();
            if (!types.Contains(accessor.GetProperty("type").GetString()) || !components.Contains(component)) return $"an accessor {index} of another kind than its use asks for";
            long many = Whole(accessor, "count"), view = Whole(accessor, "bufferView", -1);
            if (view < 0 || view >= List("bufferViews").Length) return $"an accessor {index} without figures";
            JsonElement window = List("bufferViews")[(int)view];
            int wide = component switch { 5121 => 1, 5123 => 2, _ => 4 }, size = wide * (types[0] == "VEC3" ? 3 : 1);
            long stride = Whole(window, "byteStride", size), begins = Whole(window, "byteOffset"), length = Whole(window, "byteLength"), offset = Whole(accessor, "byteOffset");
            if (many < 1 || many > MostVertices * 6L || stride < size || stride > 252 && stride != size || Beyond(begins) || Beyond(length) || Beyond(offset) || (begins + offset) % wide != 0 || stride % wide != 0
                || begins + length > binary.Length || offset + stride * (many - 1) + size > length)
                return $"an accessor {index} that reaches beyond its figures";
            (count, read) = ((int)many, new((int)(begins + offset), (int)stride, wide));
            return null;
        }

        /// <summary>Each node stands below at most one other, and below none of its own.</summary>
        private string? FaultOfNodes()
        {
            JsonElement[] nodes = List("nodes");
            int[] above = [.. nodes.Select(_ => -1)];
            for (int i = 0; i < nodes.Length; i++)
            {
                if (nodes[i].TryGetProperty("mesh", out JsonElement mesh) && (mesh.GetInt32() < 0 || mesh.GetInt32() >= List("meshes").Length)) return $"the mesh {mesh.GetInt32()}, which is not there";
                foreach ((string key, int many) in new[] { ("matrix", 16), ("translation", 3), ("rotation", 4), ("scale", 3) })
                    if (nodes[i].TryGetProperty(key, out JsonElement figures) && (figures.GetArrayLength() != many || !figures.EnumerateArray().All(one => double.IsFinite(one.GetDouble())))) return $"a node whose {key} is not {many} figures";
                if (!nodes[i].TryGetProperty("children", out JsonElement children)) continue;
                foreach (int child in children.EnumerateArray().Select(one => one.GetInt32()))
                {
                    if (child < 0 || child >= nodes.Length) return $"the node {child}, which is not there";
                    if (above[child] >= 0) return $"the node {child} below two others";
                    above[child] = i;
                }
            }
            for (int i = 0; i < nodes.Length; i++)
                for (int up = above[i], steps = 0; up >= 0; up = above[up])
                    if (up == i || ++steps > nodes.Length) return $"the node {i} below itself";
            JsonElement[] scenes = List("scenes");
            long scene = Whole(root, "scene");
            if (scene < 0 || scene >= scenes.Length) return "no scene";
            if (!scenes[scene].TryGetProperty("nodes", out JsonElement tops)) return "a scene with nothing in it";
            return tops.EnumerateArray().Select(one => one.GetInt32()).Any(top => top < 0 || top >= nodes.Length) ? "a scene with a node that is not there" : null;
        }

        private bool Beyond(long place) => place < 0 || place > binary.Length;

        private JsonElement[] List(string name) => root.TryGetProperty(name, out JsonElement list) ? [.. list.EnumerateArray()] : [];

        private static long Whole(JsonElement element, string name, long missing = 0) => element.TryGetProperty(name, out JsonElement value) ? value.GetInt64() : missing;
    }

    /// <summary>Where the figures of an accessor lie.</summary>
    private readonly record struct Reading(int From, int Stride, int Wide)
    {
        public uint Index(byte[] binary, int i) => Wide switch
        {
            1 => binary[From + i * Stride],
            2 => BinaryPrimitives.ReadUInt16LittleEndian(binary.AsSpan(From + i * Stride)),
            _ => BinaryPrimitives.ReadUInt32LittleEndian(binary.AsSpan(From + i * Stride)),
        };
    }
}
