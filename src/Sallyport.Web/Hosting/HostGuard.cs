using System.Net;
using Microsoft.AspNetCore.Http;

namespace Sallyport.Web;

/// <summary>Refuses what a page of somebody else could have a browser ask, and tells browsers what a page of ours may do.</summary>
/// <remarks>
/// A name that somebody else has pointed at this machine (DNS rebinding) is refused: only the names of this machine, those named at the start, and bare
/// addresses are answered, and a bare address cannot be pointed elsewhere. What changes something, and every web socket, must come from a page of this
/// very origin, so that no other site can use a browser that is signed in.
/// </remarks>
internal sealed class HostGuard(RequestDelegate next, ServeOptions options)
{
    /// <summary>What a page of the desk may load and do: nothing but what this program serves.</summary>
    public const string Policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; "
        + "frame-src 'self'; form-action 'self'; base-uri 'self'; frame-ancestors 'none'";

    private readonly HashSet<string> names = new(["localhost", Environment.MachineName, Environment.MachineName + ".local", .. options.Names], StringComparer.OrdinalIgnoreCase);

    public Task Invoke(HttpContext context)
    {
        HttpRequest request = context.Request;
        if (!IsOurs(request.Host.Host)) return Refuse(context, StatusCodes.Status421MisdirectedRequest, "This desk does not go by that name. Ask for it by the address that it printed when it started, or start it with --name.");
        if (MustBeOurs(request) && !FromOurPage(request)) return Refuse(context, StatusCodes.Status403Forbidden, "This was asked by a page of another site.");
        IHeaderDictionary headers = context.Response.Headers;
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
        headers.CacheControl = "no-store";
        return next(context);
    }

    private bool IsOurs(string host) => names.Contains(host) || IPAddress.TryParse(host.Trim('[', ']'), out _);

    private static bool MustBeOurs(HttpRequest request) =>
        !(HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method)) || request.Headers.Upgrade.Count > 0 || request.Path.StartsWithSegments("/_blazor");

    // Browsers tell the origin of whatever is posted and of every web socket; a GET of the same origin may come without one.
    private static bool FromOurPage(HttpRequest request)
    {
        string? origin = request.Headers.Origin;
        if (string.IsNullOrEmpty(origin)) return HttpMethods.IsGet(request.Method) && request.Headers.Upgrade.Count == 0;
        return string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
    }

    private static Task Refuse(HttpContext context, int status, string why)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(why + "\n");
    }
}
