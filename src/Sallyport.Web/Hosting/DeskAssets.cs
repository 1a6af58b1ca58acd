using System.Collections.Frozen;
using System.Reflection;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Sallyport.Draw;

namespace Sallyport.Web;

/// <summary>Scripts, styles and the typeface, from within the program: they are there whatever folder it is started in.</summary>
public static class DeskAssets
{
    private const string Prefix = "Assets/";

    private static readonly FrozenDictionary<string, (byte[] Content, string Tag)> Files = Read();

    /// <summary>The address of an asset. It changes with the content, so that a browser may keep it.</summary>
    public static string Url(string name) => Files.TryGetValue(name, out (byte[] Content, string Tag) file) ? $"/assets/{name}?{file.Tag}" : throw new ArgumentException($"expected an asset, found '{name}'", nameof(name));

    internal static void Map(IEndpointRouteBuilder endpoints) => endpoints.MapGet("/assets/{name}", (string name, HttpContext context) =>
    {
        if (!Files.TryGetValue(name, out (byte[] Content, string Tag) file)) return Results.NotFound();
        context.Response.Headers.CacheControl = context.Request.QueryString.Value == "?" + file.Tag ? "max-age=31536000, immutable" : "no-cache";
        return Results.Bytes(file.Content, TypeOf(name), entityTag: new($"\"{file.Tag}\""));
    }).AllowAnonymous();

    private static string TypeOf(string name) => Path.GetExtension(name) switch
    {
        ".js" => "text/javascript; charset=utf-8",
        ".css" => "text/css; charset=utf-8",
        ".svg" => "image/svg+xml",
        ".ttf" => "font/ttf",
        _ => "application/octet-stream",
    };

    private static FrozenDictionary<string, (byte[], string)> Read()
    {
        Assembly here = typeof(DeskAssets).Assembly;
        Dictionary<string, byte[]> files = here.GetManifestResourceNames().Where(name => name.StartsWith(Prefix, StringComparison.Ordinal)).ToDictionary(name => name[Prefix.Length..], name =>
        {
            using Stream stream = here.GetManifestResourceStream(name)!;
            byte[] content = new byte[stream.Length];
            stream.ReadExactly(content);
            return content;
        });
        foreach (Face face in Enum.GetValues<Face>()) files[$"sans-{(face == Face.Bold ? "bold" : "regular")}.ttf"] = Lettering.File(face);
        return files.ToFrozenDictionary(file => file.Key, file => (file.Value, Convert.ToHexStringLower(SHA256.HashData(file.Value))[..16]));
    }
}
