using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;

namespace Sallyport.Web;

/// <summary>Signing in and out.</summary>
internal static partial class Doors
{
    public const string In = "/sign-in";

    public const string Out = "/sign-out";

    public static void Map(IEndpointRouteBuilder endpoints, PasswordFile? passwords)
    {
        if (passwords is null) return;
        endpoints.MapPost(In, async (HttpContext context, ILoggerFactory logs, [FromForm] string? name, [FromForm] string? password, [FromForm] string? to) =>
        {
            ILogger log = logs.CreateLogger("Sallyport.SignIn");
            // Hashing takes its time, on purpose.
            if (await Task.Run(() => passwords.SignIn(name ?? "", password ?? "")) is not { } account)
            {
                Failed(log, context.Connection.RemoteIpAddress?.ToString());
                return Results.Redirect($"{In}?wrong=1&to={Uri.EscapeDataString(Local(to))}");
            }
            await context.SignInAsync(SignIn.Scheme, SignIn.Principal(account));
            Entered(log, account.Name, account.Role);
            return Results.Redirect(Local(to));
        }).AllowAnonymous().RequireRateLimiting(DeskServer.SignInLimit);
        // The field is there so that the token of the form is asked for.
        endpoints.MapPost(Out, async (HttpContext context, [FromForm] string? bye) =>
        {
            await context.SignOutAsync(SignIn.Scheme);
            return Results.Redirect(In);
        });
    }

    /// <summary>A place on this desk, whatever was asked for.</summary>
    internal static string Local(string? to) => to is { Length: > 1 } && to[0] == '/' && to[1] is not ('/' or '\\') && !to.Any(char.IsControl) ? to : "/";

    [LoggerMessage(1, LogLevel.Warning, "A sign-in from {Address} failed.")]
    private static partial void Failed(ILogger log, string? address);

    [LoggerMessage(2, LogLevel.Information, "{Name} signed in as {Role}.")]
    private static partial void Entered(ILogger log, string name, string role);
}
