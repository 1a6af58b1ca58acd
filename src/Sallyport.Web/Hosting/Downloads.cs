using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Sallyport.Desk;
using Sallyport.Draw;
using Sallyport.Model;

namespace Sallyport.Web;

/// <summary>What a browser takes as a file: small range charts, and what a briefing is made of.</summary>
internal static class Downloads
{
    public static void Map(IEndpointRouteBuilder endpoints)
    {
        endpoints.MapGet("/sortie/{name}/range.svg", async (string name, Thumbnails thumbnails, HttpContext context, CancellationToken cancel) =>
            await thumbnails.Of(name, cancel) is { } picture ? Picture(context, picture) : Results.NotFound());
        endpoints.MapGet("/sortie/{name}/compare.svg", (string name, string first, string second, DeskFolder folder, HttpContext context) =>
        {
            using OpenSortie? sortie = folder.Open(name).Value;
            if (sortie?.State.Scenario is not { } scenario || sortie.Compare(first, second).Comparison is not { } both) return Results.NotFound();
            return Picture(context, Encoding.UTF8.GetBytes(SvgWriter.Write(ComparisonChart.Draw(scenario, (first, both.First.Likely, both.First.Played[0].Trace), (second, both.Second.Likely, both.Second.Played[0].Trace)))));
        });
        endpoints.MapGet("/sortie/{name}/brief/all.zip", (string name, BriefShelf shelf) =>
            shelf.Of(name) is { } brief ? Results.File(Zip(brief), "application/zip", $"{name}-{brief.Plan}-brief.zip") : Results.NotFound());
        endpoints.MapGet("/sortie/{name}/brief/file/{file}", (string name, string file, BriefShelf shelf, HttpContext context) =>
        {
            if (shelf.Of(name)?.Files.FirstOrDefault(one => one.Name == file) is not { Content: { } content }) return Results.NotFound();
            if (file == WalkthroughFile)
            {
                // A world of its own: it runs the scripts that its own policy names by their digest, and reaches neither the desk nor anything else.
                context.Response.Headers.ContentSecurityPolicy = "sandbox allow-scripts; frame-ancestors 'self'";
                return Results.Bytes(content, "text/html; charset=utf-8");
            }
            return Results.File(content, TypeOf(file), file);
        });
    }

    public const string WalkthroughFile = "walkthrough.html";

    /// <summary>The chart from its time axis on. How the plan stands is said beside it, where it is known how far it was looked at; a picture of what was not looked at whole calls nothing clean.</summary>
    internal static Picture Small(Scenario scenario, ProvenPlan plan, bool isWhole)
    {
        RangeChartOptions options = new(plan.Name, null, Width: 1200, Decision: plan.Outline?.Decision) { StripHeight = 110, ListsBelow = false, IsWhole = isWhole };
        Picture whole = RangeChart.Draw(scenario, plan.Played, plan.Verdict, options);
        double top = RangeChart.FrameOf(scenario, plan.Played, plan.Verdict, options).Top;
        return whole with { Height = whole.Height - top, Elements = whole.PlacedAt(new(0, -top), 1) };
    }

    private static IResult Picture(HttpContext context, byte[] svg)
    {
        // The style inside is the picture's own, and a picture opened by itself can do nothing else.
        context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'; font-src data:; frame-ancestors 'none'; sandbox";
        // A browser asks whether it is still the same, and is sent it only when it is not.
        context.Response.Headers.CacheControl = "private, no-cache";
        return Results.Bytes(svg, "image/svg+xml", entityTag: new($"\"{Convert.ToHexStringLower(SHA256.HashData(svg))[..16]}\""));
    }

    private static byte[] Zip(ShelvedBrief brief)
    {
        using MemoryStream whole = new();
        using (ZipArchive archive = new(whole, ZipArchiveMode.Create))
            foreach ((string name, byte[] content) in brief.Files)
            {
                using Stream entry = archive.CreateEntry(name).Open();
                entry.Write(content);
            }
        return whole.ToArray();
    }

    private static string TypeOf(string file) => Path.GetExtension(file) switch
    {
        ".pdf" => "application/pdf",
        ".txt" or ".md" => "text/plain; charset=utf-8",
        ".json" => "application/json",
        ".svg" => "image/svg+xml",
        ".png" => "image/png",
        ".vtt" => "text/vtt; charset=utf-8",
        ".ics" => "text/calendar; charset=utf-8",
        _ => "application/octet-stream",
    };
}
