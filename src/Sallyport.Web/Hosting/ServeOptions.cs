using System.Collections.Immutable;

namespace Sallyport.Web;

/// <summary>How the desk is served.</summary>
/// <param name="Folder">The folder of scenarios.</param>
/// <param name="Port">The port; 0 for a free one.</param>
public sealed record ServeOptions(string Folder, int Port)
{
    /// <summary>Whether other machines may ask, and not this one alone. It takes a password file.</summary>
    public bool Listen { get; init; }

    /// <summary>The password file; null when nobody has to sign in.</summary>
    public string? Passwords { get; init; }

    /// <summary>A certificate in PEM for https, and its key; null for http.</summary>
    public (string Certificate, string Key)? Tls { get; init; }

    /// <summary>Further names by which browsers may ask for this machine.</summary>
    public ImmutableArray<string> Names { get; init; } = [];

    /// <summary>Where derived files go, a folder a scenario and outline.</summary>
    public string OutFolder { get; init; } = "out";

    /// <summary>Whether the log is written as JSON, one object a line, and with it every request.</summary>
    public bool JsonLog { get; init; }

    /// <summary>Sign-ins from one address that are looked at within a minute; the rest is refused unread.</summary>
    public int SignInsAMinute { get; init; } = 6;
}
