using System.Net;
using System.Net.Sockets;
using System.Security.Claims;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Sallyport.Desk;
using Sallyport.Web.Pages;
using Sallyport.Web.Parts;

namespace Sallyport.Web;

/// <summary>
/// What the program asks of itself before others do: whoever asks first would otherwise wait for all that is read and compiled once. Pages are drawn within the program, for one who may only look, and
/// go nowhere; over the network it asks for nothing but what anybody is given, so that there is no door here.
/// </summary>
public static class Rehearsal
{
    /// <summary>So many edits are rehearsed: the runtime compiles anew what was called thirty times.</summary>
    private const int Edits = 40;

    /// <summary>Edits are rehearsed so long after the first page was: whoever waited for the address opens a page now, and is to have the cores.</summary>
    private static readonly TimeSpan UntilEdits = TimeSpan.FromSeconds(4);

    /// <summary>Draws the page of the scenario that was worked on last, and the list of all.</summary>
    /// <returns>Each page drawn, and the status of its answer; fewer when something failed, which whoever asks for it will be told.</returns>
    public static async Task<IReadOnlyList<(string Page, int Status)>> FirstPage(WebApplication app)
    {
        List<(string, int)> drawn = [];
        try
        {
            DeskFolder folder = app.Services.GetRequiredService<DeskFolder>();
            // What every page has in common needs nothing that must be read first.
            Task<(string, int)> frame = Task.Run(() => Draw<NothingHere>(app, "/nothing-here"));
            if (await Task.Run(() => folder.LastWorkedOn() is { } name ? folder.Glance(name) : null).ConfigureAwait(false) is { } last)
            {
                Task list = Task.Run(app.Services.GetRequiredService<ListOnHand>().Read);
                await Task.Run(() => ChartShelf.Of(last, ChartSize.First)).ConfigureAwait(false);
                drawn.Add(await Draw<SortiePage>(app, $"/sortie/{Uri.EscapeDataString(last.Name)}", ("Name", last.Name)).ConfigureAwait(false));
                await list.ConfigureAwait(false);
            }
            drawn.Add(await Draw<ScenarioList>(app, "/").ConfigureAwait(false));
            drawn.Add(await frame.ConfigureAwait(false));
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // Nobody asked for it. Whoever does is told.
        }
        return drawn;
    }

    /// <summary>Asks over the network, as a browser does, for a file that everybody may have.</summary>
    public static async Task Knock(WebApplication app)
    {
        try
        {
            if (app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses.Select(BindingAddress.Parse).FirstOrDefault(one => one.Scheme == "http") is not { } address) return;
            using TcpClient client = new();
            await client.ConnectAsync(IPAddress.Loopback, address.Port).ConfigureAwait(false);
            NetworkStream stream = client.GetStream();
            await stream.WriteAsync(Encoding.ASCII.GetBytes($"GET {DeskAssets.Url("desk.css")} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")).ConfigureAwait(false);
            await stream.CopyToAsync(Stream.Null).ConfigureAwait(false);
        }
        catch (Exception e) when (e is SocketException or IOException)
        {
            // Nobody waits for the answer.
        }
    }

    /// <summary>Makes what that page asks for once it lives, and later rehearses edits, none of which is saved.</summary>
    public static async Task EditsOf(IServiceProvider services)
    {
        DeskFolder folder = services.GetRequiredService<DeskFolder>();
        if (folder.LastWorkedOn() is not { } last) return;
        if (folder.Glance(last) is { } state) await Task.Run(() => Show(state)).ConfigureAwait(false);
        await Task.Delay(UntilEdits).ConfigureAwait(false);
        using OpenSortie? sortie = folder.Open(last).Value;
        if (sortie is not null) await sortie.Rehearse(Edits, Show).ConfigureAwait(false);
    }

    private static void Show(SortieState state)
    {
        ChartShelf.ToldOf(state, ChartSize.First);
        ChartShelf.BesideOf(state);
    }

    private static async Task<(string, int)> Draw<TPage>(WebApplication app, string path, params (string Key, string Value)[] values)
    {
        Endpoint page = ((IEndpointRouteBuilder)app).DataSources.SelectMany(source => source.Endpoints).First(one => one.Metadata.GetMetadata<ComponentTypeMetadata>()?.Type == typeof(TPage));
        await using AsyncServiceScope scope = app.Services.CreateAsyncScope();
        DefaultHttpContext context = new() { RequestServices = scope.ServiceProvider, User = new(new ClaimsIdentity([new(ClaimTypes.Name, "rehearsal"), new(ClaimTypes.Role, Roles.Viewer)], "rehearsal")) };
        (context.Request.Method, context.Request.Scheme, context.Request.Host, context.Request.Path) = (HttpMethods.Get, "http", new("localhost"), path);
        foreach ((var key, var value) in values) context.Request.RouteValues[key] = value;
        context.Response.Body = Stream.Null;
        context.SetEndpoint(page);
        await page.RequestDelegate!(context).ConfigureAwait(false);
        return (path, context.Response.StatusCode);
    }
}
