using System.Net;
using System.Security.Cryptography.X509Certificates;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using OpenTelemetry;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;
using Sallyport.Desk;

namespace Sallyport.Web;

/// <summary>The desk as a web server on this machine, and on the local network when asked.</summary>
public static class DeskServer
{
    internal const string SignInLimit = "sign-in";

    private const long LargestBody = 64 * 1024;

    // A scenario file may be this large (SourceText.MostBytes holds the exact bound); a page sends one whole when its text is edited.
    private const long LargestMessage = 5 * 1024 * 1024;

    /// <summary>Makes the server; whoever calls starts and ends it.</summary>
    /// <param name="options">How it is served.</param>
    /// <param name="passwords">Who may sign in; null when nobody has to, and then only this machine may ask.</param>
    public static WebApplication Build(ServeOptions options, PasswordFile? passwords)
    {
        if (options.Listen && passwords is null) throw new ArgumentException("expected a password file with Listen, found none", nameof(passwords));
        // No settings file and no variable of the shell moves this server to another address.
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, EnvironmentName = "Production" });
        builder.Configuration.Sources.Clear();
        builder.Configuration.AddInMemoryCollection();
        builder.WebHost.ConfigureKestrel(kestrel => Listen(kestrel, options));
        Logs(builder, options);
        Services(builder.Services, options, passwords);
        Telemetry(builder);

        WebApplication app = builder.Build();
        app.UseMiddleware<HostGuard>(options);
        app.UseExceptionHandler(broken => broken.Run(context => context.Response.WriteAsync("Something went wrong in the program. Nothing was saved half. Go back and try again; the log says more.\n")));
        // What somebody goes to and is not there gets a page that says so; what forms and scripts ask for is refused as it is.
        app.UseWhen(context => HttpMethods.IsGet(context.Request.Method) && !context.Request.Path.StartsWithSegments("/_blazor") && !context.Request.Path.StartsWithSegments("/assets"), people => people.UseStatusCodePagesWithReExecute("/nothing-here"));
        app.UseWebSockets(new() { KeepAliveInterval = TimeSpan.FromSeconds(15) });
        app.UseRouting();
        app.UseRateLimiter();
        app.UseAuthentication();
        app.UseAuthorization();
        app.UseAntiforgery();
        DeskAssets.Map(app);
        Doors.Map(app, passwords);
        Downloads.Map(app);
        app.MapHealthChecks("/health", new HealthCheckOptions { AllowCachingResponses = false }).AllowAnonymous();
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode(server =>
        {
            server.ContentSecurityFrameAncestorsPolicy = null;
            // On this machine the way is wide, and what is sent need not be made small first.
            server.DisableWebSocketCompression = !options.Listen;
        });
        return app;
    }

    private static void Listen(KestrelServerOptions kestrel, ServeOptions options)
    {
        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxRequestBodySize = LargestBody;
        kestrel.Limits.MaxConcurrentConnections = 500;
        void With(ListenOptions listen)
        {
            if (options.Tls is not { } tls) return;
            using X509Certificate2 read = X509Certificate2.CreateFromPemFile(tls.Certificate, tls.Key);
            // Windows wants a key that came through a store's form.
            listen.UseHttps(X509CertificateLoader.LoadPkcs12(read.Export(X509ContentType.Pkcs12), null));
        }
        if (options.Listen) kestrel.ListenAnyIP(options.Port, With);
        else if (options.Port == 0) kestrel.Listen(IPAddress.Loopback, 0, With);
        else kestrel.ListenLocalhost(options.Port, With);
    }

    private static void Services(IServiceCollection services, ServeOptions options, PasswordFile? passwords)
    {
        services.AddSingleton(options);
        // Made by the container, which then closes it. A page is drawn once before it lives: its scenario stays open in between, and when one goes from page to page.
        services.AddSingleton(_ => new DeskFolder(options.Folder, options.OutFolder, TimeSpan.FromMinutes(1)));
        services.AddSingleton<ListOnHand>();
        services.AddSingleton<Thumbnails>();
        services.AddSingleton<BriefShelf>();
        services.AddScoped<DeskHand>();
        services.AddRazorComponents().AddInteractiveServerComponents(circuit =>
        {
            circuit.DisconnectedCircuitMaxRetained = 50;
            circuit.DisconnectedCircuitRetentionPeriod = TimeSpan.FromMinutes(3);
        }).AddHubOptions(hub => hub.MaximumReceiveMessageSize = LargestMessage);
        // What a browser holds is worth nothing once the program has ended: no key is ever written down.
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        services.AddAntiforgery(antiforgery =>
        {
            antiforgery.Cookie.Name = "sallyport-form";
            antiforgery.Cookie.SameSite = SameSiteMode.Strict;
            antiforgery.Cookie.HttpOnly = true;
            antiforgery.Cookie.SecurePolicy = SecureWhen(options);
            antiforgery.SuppressXFrameOptionsHeader = true; // frame-ancestors says it for every answer
        });
        services.AddHealthChecks();
        services.AddRateLimiter(limits =>
        {
            limits.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limits.OnRejected = (context, cancel) => new(context.HttpContext.Response.WriteAsync("Too many sign-ins from this address. Wait a minute.\n", cancel));
            limits.AddPolicy(SignInLimit, context => RateLimitPartition.GetFixedWindowLimiter(context.Connection.RemoteIpAddress ?? IPAddress.None,
                _ => new() { PermitLimit = options.SignInsAMinute, Window = TimeSpan.FromMinutes(1), QueueLimit = 0 }));
        });
        services.AddCascadingAuthenticationState();
        services.AddScoped<AuthenticationStateProvider>(provider => new StillSignedIn(provider.GetRequiredService<ILoggerFactory>(), passwords));
        services.AddAuthorization(policies => policies.FallbackPolicy = new AuthorizationPolicyBuilder().RequireAuthenticatedUser().RequireRole(Roles.Viewer, Roles.Planner).Build());
        if (passwords is null) services.AddAuthentication(OwnMachine.SchemeName).AddScheme<Microsoft.AspNetCore.Authentication.AuthenticationSchemeOptions, OwnMachine>(OwnMachine.SchemeName, null);
        else services.AddAuthentication(SignIn.Scheme).AddCookie(cookie =>
        {
            cookie.Cookie.Name = "sallyport";
            cookie.Cookie.HttpOnly = true;
            cookie.Cookie.SameSite = SameSiteMode.Strict;
            cookie.Cookie.SecurePolicy = SecureWhen(options);
            cookie.LoginPath = Doors.In;
            cookie.AccessDeniedPath = Doors.In;
            cookie.ReturnUrlParameter = "to";
            cookie.ExpireTimeSpan = TimeSpan.FromHours(12);
            cookie.Events = new CookieAuthenticationEvents { OnValidatePrincipal = context => SignIn.Validate(context, passwords) };
        });
    }

    private static CookieSecurePolicy SecureWhen(ServeOptions options) => options.Tls is null ? CookieSecurePolicy.None : CookieSecurePolicy.Always;

    private static void Logs(WebApplicationBuilder builder, ServeOptions options)
    {
        builder.Logging.ClearProviders();
        builder.Logging.SetMinimumLevel(options.JsonLog ? LogLevel.Information : LogLevel.Warning);
        // Keys that live as long as the program are meant to, and so are answers that nobody keeps.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        builder.Logging.AddFilter("Microsoft.AspNetCore.Antiforgery", LogLevel.Critical);
        // Why it did not start is said in words to whoever started it.
        builder.Logging.AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);
        if (options.JsonLog) builder.Logging.AddJsonConsole(json =>
        {
            json.UseUtcTimestamp = true;
            json.TimestampFormat = "yyyy-MM-ddTHH:mm:ss.fffZ";
            json.IncludeScopes = true;
        });
        else builder.Logging.AddSimpleConsole(simple => simple.SingleLine = true);
    }

    /// <summary>Spans and figures for whoever gathers them, when the variables of OpenTelemetry name a place to send them to; nothing otherwise.</summary>
    private static void Telemetry(WebApplicationBuilder builder)
    {
        if (string.IsNullOrEmpty(Environment.GetEnvironmentVariable("OTEL_EXPORTER_OTLP_ENDPOINT"))) return;
        // Its own variables, which are read from the settings, and no others.
        builder.Configuration.AddInMemoryCollection(Environment.GetEnvironmentVariables().Cast<System.Collections.DictionaryEntry>()
            .Where(one => ((string)one.Key).StartsWith("OTEL_", StringComparison.Ordinal)).Select(one => KeyValuePair.Create((string)one.Key, (string?)one.Value)));
        builder.Services.AddOpenTelemetry()
            .ConfigureResource(resource => resource.AddService("sallyport"))
            .WithTracing(tracing => tracing.AddAspNetCoreInstrumentation().AddSource("Microsoft.AspNetCore.Components"))
            .WithMetrics(metrics => metrics.AddAspNetCoreInstrumentation().AddMeter("Microsoft.AspNetCore.Components", "Microsoft.AspNetCore.Components.Lifecycle", "Microsoft.AspNetCore.Components.Server.Circuits", "System.Runtime"))
            .UseOtlpExporter();
    }
}
