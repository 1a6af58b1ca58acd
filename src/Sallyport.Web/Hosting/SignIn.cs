using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;

namespace Sallyport.Web;

/// <summary>Who somebody is, and whether that still holds.</summary>
internal static class SignIn
{
    public const string Scheme = CookieAuthenticationDefaults.AuthenticationScheme;

    private const string Stamp = "sallyport-hash";

    public static ClaimsPrincipal Principal(Account account) =>
        new(new ClaimsIdentity([new(ClaimTypes.Name, account.Name), new(ClaimTypes.Role, account.Role), new(Stamp, Fingerprint(account))], Scheme));

    /// <summary>Whether the password file still says what it said at the sign-in: struck out, another role or another password end it.</summary>
    public static bool Holds(PasswordFile file, ClaimsPrincipal user) =>
        user.Identity?.Name is { } name && file.Find(name) is { } account && user.IsInRole(account.Role) && user.HasClaim(Stamp, Fingerprint(account));

    // The cookie is sealed, and all the same holds no part of a hash that could be tried out.
    private static string Fingerprint(Account account) => Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(account.Hash)))[..16];

    public static Task Validate(CookieValidatePrincipalContext context, PasswordFile file)
    {
        if (context.Principal is { } user && Holds(file, user)) return Task.CompletedTask;
        context.RejectPrincipal();
        return context.HttpContext.SignOutAsync(Scheme);
    }
}

/// <summary>Without a password file nobody but this machine can ask, and whoever sits at it plans.</summary>
internal sealed class OwnMachine(IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    public const string SchemeName = "own-machine";

    protected override Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        ClaimsIdentity identity = new([new(ClaimTypes.Name, "planner"), new(ClaimTypes.Role, Roles.Planner)], SchemeName);
        return Task.FromResult(AuthenticateResult.Success(new(new(identity), SchemeName)));
    }
}

/// <summary>Asks again, while a page stays open, whether who signed in still may.</summary>
internal sealed class StillSignedIn(ILoggerFactory log, PasswordFile? file = null) : RevalidatingServerAuthenticationStateProvider(log)
{
    protected override TimeSpan RevalidationInterval => TimeSpan.FromSeconds(20);

    protected override Task<bool> ValidateAuthenticationStateAsync(AuthenticationState state, CancellationToken cancel) =>
        Task.FromResult(file is null || SignIn.Holds(file, state.User));
}
