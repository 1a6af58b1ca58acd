using System.Net;
using System.Net.WebSockets;
using System.Text.RegularExpressions;
using Sallyport.Model;
using Sallyport.Web;

namespace Sallyport.Tests.Web;

/// <summary>What the server answers, and to whom, before any page is looked at.</summary>
public sealed partial class HostTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/")]
    [InlineData("/nothing-at-all")]
    [InlineData("/health")]
    [InlineData("/assets/desk.js")]
    public async Task Answer_Any_TellsTheBrowserWhatAPageMayDo(string path)
    {
        await using RunningDesk desk = await RunningDesk.Start();
        HttpResponseMessage answer = await desk.Client().GetAsync(path, Stop);
        string policy = Header(answer, "Content-Security-Policy");
        Assert.Contains("default-src 'none'", policy);
        Assert.Contains("script-src 'self';", policy);
        Assert.Contains("style-src 'self';", policy);
        Assert.Contains("frame-ancestors 'none'", policy);
        Assert.DoesNotContain("unsafe", policy);
        Assert.Equal("nosniff", Header(answer, "X-Content-Type-Options"));
        Assert.Equal("same-origin", Header(answer, "Referrer-Policy"));
        Assert.False(answer.Headers.Contains("Server"));
    }

    // DNS rebinding: another site's name that was pointed at this machine arrives in the Host header.
    [Theory]
    [InlineData("evil.example", HttpStatusCode.MisdirectedRequest)]
    [InlineData("localhost.evil.example", HttpStatusCode.MisdirectedRequest)]
    [InlineData("127.0.0.1.evil.example", HttpStatusCode.MisdirectedRequest)]
    [InlineData("localhost", HttpStatusCode.OK)]
    [InlineData("127.0.0.1", HttpStatusCode.OK)]
    [InlineData("[::1]", HttpStatusCode.OK)]
    [InlineData("desk.home", HttpStatusCode.OK)]
    public async Task Host_ByWhichItIsAsked_MustBeOneOfItsNames(string host, HttpStatusCode expected)
    {
        await using RunningDesk desk = await RunningDesk.Start(with: options => options with { Names = ["desk.home"] });
        HttpResponseMessage answer = await desk.Client().SendAsync(new(HttpMethod.Get, "/") { Headers = { Host = $"{host}:{desk.Address.Port}" } }, Stop);
        Assert.Equal(expected, answer.StatusCode);
    }

    [Theory]
    [InlineData("http://evil.example", HttpStatusCode.Forbidden)]
    [InlineData("null", HttpStatusCode.Forbidden)]
    [InlineData("http://127.0.0.1:1", HttpStatusCode.Forbidden)]
    [InlineData(null, HttpStatusCode.Forbidden)]
    public async Task Post_FromAPageOfAnotherSite_IsRefused(string? origin, HttpStatusCode expected)
    {
        await using RunningDesk desk = await RunningDesk.Start();
        HttpRequestMessage post = new(HttpMethod.Post, "/_blazor/negotiate?negotiateVersion=1");
        if (origin is not null) post.Headers.Add("Origin", origin);
        Assert.Equal(expected, (await desk.Client().SendAsync(post, Stop)).StatusCode);
        HttpRequestMessage ours = new(HttpMethod.Post, "/_blazor/negotiate?negotiateVersion=1");
        ours.Headers.Add("Origin", desk.Address.GetLeftPart(UriPartial.Authority));
        Assert.Equal(HttpStatusCode.OK, (await desk.Client().SendAsync(ours, Stop)).StatusCode);
    }

    [Theory]
    [InlineData("http://evil.example", false)]
    [InlineData(null, false)]
    [InlineData("own", true)]
    public async Task WebSocket_OnlyFromAPageOfItsOwn_IsOpened(string? origin, bool opened)
    {
        await using RunningDesk desk = await RunningDesk.Start();
        using ClientWebSocket socket = new();
        if (origin is not null) socket.Options.SetRequestHeader("Origin", origin == "own" ? desk.Address.GetLeftPart(UriPartial.Authority) : origin);
        Uri address = new UriBuilder(desk.Address) { Scheme = "ws", Path = "/_blazor" }.Uri;
        if (opened)
        {
            await socket.ConnectAsync(address, Stop);
            Assert.Equal(WebSocketState.Open, socket.State);
        }
        else await Assert.ThrowsAsync<WebSocketException>(() => socket.ConnectAsync(address, Stop));
    }

    [Theory]
    [InlineData(1_000, true)]
    [InlineData(100_000, false)]
    public async Task Form_LargerThanAnyForm_IsRefused(int letters, bool taken)
    {
        await using RunningDesk desk = await RunningDesk.Start(signIn: true);
        HttpResponseMessage answer = await SignIn(desk.Client(), desk, "ada", RunningDesk.Password, "/" + new string('a', letters), from: "/");
        Assert.Equal(taken, answer.StatusCode == HttpStatusCode.Redirect);
        Assert.Equal(taken, answer.Headers.Contains("Set-Cookie"));
    }

    [Fact]
    public async Task Health_AskedByAnybody_AnswersAndTellsNothingElse()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"], signIn: true);
        Assert.Equal("Healthy", await desk.Client().GetStringAsync("/health", Stop));
    }

    // As a site would have it: shared, with https, a planner and a viewer.
    [Theory]
    [InlineData("ada", "ada, planner")]
    [InlineData("vera", "vera, viewer")]
    public async Task SignIn_OverHttpsOnASharedDesk_GivesACookieThatNoBrowserSendsInTheClear(string name, string shown)
    {
        using System.Security.Cryptography.RSA key = System.Security.Cryptography.RSA.Create(2048);
        System.Security.Cryptography.X509Certificates.CertificateRequest request = new("CN=desk.home", key, System.Security.Cryptography.HashAlgorithmName.SHA256, System.Security.Cryptography.RSASignaturePadding.Pkcs1);
        using System.Security.Cryptography.X509Certificates.X509Certificate2 certificate = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        string place = Directory.CreateTempSubdirectory("sallyport-tls-").FullName;
        try
        {
            (string pem, string secret) = (Path.Combine(place, "desk.pem"), Path.Combine(place, "desk.key"));
            File.WriteAllText(pem, certificate.ExportCertificatePem());
            File.WriteAllText(secret, key.ExportPkcs8PrivateKeyPem());
            await using RunningDesk desk = await RunningDesk.Start(["skerry-short"], signIn: true, options => options with { Listen = true, Tls = (pem, secret), Names = ["desk.home"] });
            Uri address = new($"https://127.0.0.1:{desk.Address.Port}/");
            using HttpClientHandler handler = new() { AllowAutoRedirect = false, ServerCertificateCustomValidationCallback = (_, shownByServer, _, _) => shownByServer?.Thumbprint == certificate.Thumbprint };
            using HttpClient client = new(handler) { BaseAddress = address };
            Assert.Equal(HttpStatusCode.Redirect, (await client.GetAsync("/", Stop)).StatusCode);
            HttpResponseMessage answer = await SignIn(client, desk, name, RunningDesk.Password, at: address);
            string cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), one => one.StartsWith("sallyport=", StringComparison.Ordinal));
            Assert.Contains("secure", cookie, StringComparison.OrdinalIgnoreCase);
            Assert.Contains(shown, await client.GetStringAsync("/", Stop));
            // In the clear nothing answers on that port.
            using HttpClient plain = new() { BaseAddress = new($"http://127.0.0.1:{desk.Address.Port}/") };
            await Assert.ThrowsAsync<HttpRequestException>(() => plain.GetAsync("/health", Stop));
        }
        finally { Directory.Delete(place, true); }
    }

    // Where the variables of OpenTelemetry name a place, something comes there.
    [Fact]
    public async Task Telemetry_AskedForByItsVariable_Arrives()
    {
        using System.Net.Sockets.TcpListener free = new(IPAddress.Loopback, 0);
        free.Start();
        string place = $"http://127.0.0.1:{((IPEndPoint)free.LocalEndpoint).Port}/";
        free.Stop();
        using HttpListener gathers = new() { Prefixes = { place } };
        gathers.Start();
        Task<string> arrived = Gather(gathers);
        (string Name, string Value)[] variables = [("OTEL_EXPORTER_OTLP_ENDPOINT", place), ("OTEL_EXPORTER_OTLP_PROTOCOL", "http/protobuf"), ("OTEL_BSP_SCHEDULE_DELAY", "200")];
        foreach ((string name, string value) in variables) Environment.SetEnvironmentVariable(name, value);
        RunningDesk desk;
        try
        {
            desk = await RunningDesk.Start();
        }
        finally
        {
            foreach ((string name, _) in variables) Environment.SetEnvironmentVariable(name, null);
        }
        await using (desk) await desk.Client().GetStringAsync("/health", Stop);
        Assert.Equal("/v1/traces", await arrived.WaitAsync(TimeSpan.FromMinutes(2), Stop));
    }

    /// <summary>Answers all that come, and tells of the first spans of this program.</summary>
    private static async Task<string> Gather(HttpListener listener)
    {
        while (true)
        {
            HttpListenerContext asked = await listener.GetContextAsync();
            using MemoryStream body = new();
            await asked.Request.InputStream.CopyToAsync(body, Stop);
            asked.Response.Close();
            if (asked.Request.Url!.AbsolutePath == "/v1/traces" && System.Text.Encoding.UTF8.GetString(body.ToArray()).Contains("sallyport", StringComparison.Ordinal)) return asked.Request.Url.AbsolutePath;
        }
    }

    // The small charts of the list are drawn once, until what they were drawn from or how it stands changes.
    [Fact]
    public async Task Thumbnail_AskedForAgain_IsDrawnAnewOnlyWhenItsFilesOrItsStandingChanged()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        using Sallyport.Desk.DeskFolder folder = new(desk.Folder, desk.OutFolder);
        Thumbnails small = new(folder);
        byte[] first = (await small.Of("skerry-short", Stop))!;
        Assert.Same(first, await small.Of("skerry-short", Stop));
        Assert.DoesNotContain("Clean", System.Text.Encoding.UTF8.GetString(first));
        string outline = Directory.GetFiles(Path.Combine(desk.Folder, "skerry-short", "outlines"))[0];
        File.WriteAllText(outline, File.ReadAllText(outline) + "# looked at\n");
        byte[] second = (await small.Of("skerry-short", Stop))!;
        Assert.NotSame(first, second);
        Assert.Same(second, await small.Of("skerry-short", Stop));
        // Proven whole while it is open: the same files, and another standing.
        using Sallyport.Desk.OpenSortie open = folder.Open("skerry-short").Value!;
        await open.Whole(Stop);
        byte[] proven = (await small.Of("skerry-short", Stop))!;
        Assert.Contains("Clean", System.Text.Encoding.UTF8.GetString(proven));
        Assert.Same(proven, await small.Of("skerry-short", Stop));
        File.Delete(outline);
        Assert.Null(await small.Of("skerry-short", Stop));
        Assert.Null(await small.Of("nosuch", Stop));
    }

    [Fact]
    public void Build_ListeningWithoutPasswords_IsRefused() =>
        Assert.Contains("password", Assert.Throws<ArgumentException>(() => DeskServer.Build(new(".", 0) { Listen = true }, null)).Message);

    [Theory]
    [InlineData("/")]
    [InlineData("/sortie/skerry-short")]
    [InlineData("/sortie/skerry-short/files")]
    [InlineData("/sortie/skerry-short/range.svg")]
    [InlineData("/sortie/skerry-short/brief/all.zip")]
    public async Task Page_WithoutSignIn_LeadsToTheDoor(string path)
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"], signIn: true);
        HttpResponseMessage answer = await desk.Client().GetAsync(path, Stop);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.StartsWith("/sign-in", answer.Headers.Location!.PathAndQuery);
        Assert.DoesNotContain("Skerry", await answer.Content.ReadAsStringAsync(Stop));
    }

    [Fact]
    public async Task Circuit_WithoutSignIn_IsRefused()
    {
        await using RunningDesk desk = await RunningDesk.Start(signIn: true);
        HttpRequestMessage post = new(HttpMethod.Post, "/_blazor/negotiate?negotiateVersion=1");
        post.Headers.Add("Origin", desk.Address.GetLeftPart(UriPartial.Authority));
        Assert.Equal(HttpStatusCode.Unauthorized, (await desk.Client().SendAsync(post, Stop)).StatusCode);
    }

    [Fact]
    public async Task SignIn_WithTheRightWords_GivesACookieThatNoScriptAndNoOtherSiteCanUse()
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"], signIn: true);
        HttpClient client = desk.Client();
        HttpResponseMessage answer = await SignIn(client, desk, "ada", RunningDesk.Password, "/sortie/skerry-short");
        Assert.Equal("/sortie/skerry-short", answer.Headers.Location!.ToString());
        string cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), one => one.StartsWith("sallyport=", StringComparison.Ordinal));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        // Only over https is it marked so that no browser sends it in the clear; without https there is nothing else to send it over.
        Assert.DoesNotContain("secure", cookie, StringComparison.OrdinalIgnoreCase);
        string page = await client.GetStringAsync("/", Stop);
        Assert.Contains("ada, planner", page);
        Assert.Contains(Caution.Text, page);
    }

    [Theory]
    [InlineData("ada", "wrong words entirely")]
    [InlineData("nobody", RunningDesk.Password)]
    [InlineData("ada", "")]
    public async Task SignIn_WithOtherWords_LetsNobodyInAndSaysNotWhich(string name, string password)
    {
        await using RunningDesk desk = await RunningDesk.Start(signIn: true);
        HttpClient client = desk.Client();
        HttpResponseMessage answer = await SignIn(client, desk, name, password);
        Assert.StartsWith("/sign-in?wrong=1", answer.Headers.Location!.ToString());
        Assert.DoesNotContain(name, answer.Headers.Location.ToString());
        Assert.Equal(HttpStatusCode.Redirect, (await client.GetAsync("/", Stop)).StatusCode);
    }

    [Fact]
    public async Task SignIn_ManyTimesFromOneAddress_IsRefusedUnread()
    {
        await using RunningDesk desk = await RunningDesk.Start(signIn: true, with: options => options with { SignInsAMinute = 3 });
        HttpClient client = desk.Client();
        for (int tried = 0; tried < 3; tried++) Assert.Equal(HttpStatusCode.Redirect, (await SignIn(client, desk, "ada", "wrong words entirely")).StatusCode);
        // The right words too: whoever guesses learns nothing more.
        Assert.Equal(HttpStatusCode.TooManyRequests, (await SignIn(client, desk, "ada", RunningDesk.Password)).StatusCode);
    }

    [Fact]
    public async Task SignIn_WithoutTheTokenOfItsForm_IsRefused()
    {
        await using RunningDesk desk = await RunningDesk.Start(signIn: true);
        HttpRequestMessage post = new(HttpMethod.Post, "/sign-in") { Content = new FormUrlEncodedContent([new("name", "ada"), new("password", RunningDesk.Password)]) };
        post.Headers.Add("Origin", desk.Address.GetLeftPart(UriPartial.Authority));
        Assert.Equal(HttpStatusCode.BadRequest, (await desk.Client().SendAsync(post, Stop)).StatusCode);
    }

    [Fact]
    public async Task SignedIn_StruckOutOfTheFile_IsOutAtOnce()
    {
        await using RunningDesk desk = await RunningDesk.Start(signIn: true);
        HttpClient client = desk.Client();
        await SignIn(client, desk, "vera", RunningDesk.Password);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/", Stop)).StatusCode);
        File.WriteAllLines(desk.PasswordsPath, File.ReadAllLines(desk.PasswordsPath).Where(line => !line.StartsWith("vera", StringComparison.Ordinal)));
        Assert.Equal(HttpStatusCode.Redirect, (await client.GetAsync("/", Stop)).StatusCode);
    }

    [Theory]
    [InlineData("/sortie/a", "/sortie/a")]
    [InlineData("//evil.example", "/")]
    [InlineData("/\\evil.example", "/")]
    [InlineData("https://evil.example", "/")]
    [InlineData("/a\r\nSet-Cookie: b", "/")]
    [InlineData(null, "/")]
    public void Local_WhereverSomebodyWantsToGoAfterSignIn_StaysHere(string? wanted, string expected) => Assert.Equal(expected, Doors.Local(wanted));

    [Theory]
    [InlineData("..")]
    [InlineData("%2e%2e")]
    [InlineData("..%2f..")]
    [InlineData("%2fetc")]
    [InlineData("nosuch")]
    public async Task Scenario_OutsideTheFolder_IsNotThere(string name)
    {
        await using RunningDesk desk = await RunningDesk.Start(["skerry-short"]);
        HttpResponseMessage answer = await desk.Client().GetAsync($"/sortie/{name}/range.svg", Stop);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    public async Task Asset_ByTheAddressOfItsContent_MayBeKeptForEver()
    {
        await using RunningDesk desk = await RunningDesk.Start();
        Assert.Contains("immutable", Header(await desk.Client().GetAsync(DeskAssets.Url("blazor.web.js"), Stop), "Cache-Control"));
        Assert.DoesNotContain("immutable", Header(await desk.Client().GetAsync("/assets/blazor.web.js", Stop), "Cache-Control"));
        Assert.Equal(HttpStatusCode.NotFound, (await desk.Client().GetAsync("/assets/none.js", Stop)).StatusCode);
    }

    private static string Header(HttpResponseMessage answer, string name) =>
        string.Join(' ', answer.Headers.TryGetValues(name, out IEnumerable<string>? values) ? values : answer.Content.Headers.GetValues(name));

    private static async Task<HttpResponseMessage> SignIn(HttpClient client, RunningDesk desk, string name, string password, string to = "/", string? from = null, Uri? at = null)
    {
        string form = await client.GetStringAsync($"/sign-in?to={Uri.EscapeDataString(from ?? to)}", Stop);
        HttpRequestMessage post = new(HttpMethod.Post, "/sign-in")
        {
            Content = new FormUrlEncodedContent([new("name", name), new("password", password), new("to", to), new("__RequestVerificationToken", Token().Match(form).Groups[1].Value)]),
        };
        post.Headers.Add("Origin", (at ?? desk.Address).GetLeftPart(UriPartial.Authority));
        return await client.SendAsync(post, Stop);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
