using System.Net;
using System.Net.Sockets;

namespace Sallyport.Cli.Tests;

/// <summary>What <c>serve</c> refuses, in words; what it serves is tested in Sallyport.Web.Tests.</summary>
public sealed class ServeTests : IDisposable
{
    private readonly Workplace place = new("skerry-short");

    public void Dispose() => place.Dispose();

    [Theory]
    [InlineData("no such folder", "serve", "nowhere")]
    [InlineData("Which folder", "serve")]
    [InlineData("--listen needs --passwords", "serve", "scenarios", "--listen")]
    [InlineData("--add NAME --role planner", "serve", "scenarios", "--passwords", "none")]
    [InlineData("https needs both", "serve", "scenarios", "--certificate", "desk.pem")]
    [InlineData("--add needs --passwords", "serve", "--add", "ada")]
    [InlineData("from 0 to 65535", "serve", "scenarios", "--port", "70000")]
    [InlineData("cannot be served", "serve", "scenarios", "--port", "0", "--certificate", "none.pem", "--key", "none.key")]
    public void Serve_WhatCannotBe_SaysWhyAndHow(string expected, params string[] words)
    {
        Result refused = place.Run(words).Ended(2);
        Assert.Contains(expected, refused.Err);
        Assert.DoesNotContain("   at ", refused.Err);
    }

    [Fact]
    public void Serve_APortInUse_NamesAnother()
    {
        using TcpListener taken = new(IPAddress.Loopback, 0);
        taken.Start();
        Result refused = place.Run("serve", "scenarios", "--port", ((IPEndPoint)taken.LocalEndpoint).Port.ToString(System.Globalization.CultureInfo.InvariantCulture)).Ended(2);
        Assert.Contains("is in use by another program; give another one with --port", refused.Err);
        Assert.DoesNotContain("   at ", refused.Err);
    }
}
