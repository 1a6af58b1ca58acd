using System.Collections.Immutable;
using System.Text;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace Sallyport.Web;

/// <summary>What somebody may do.</summary>
public static class Roles
{
    /// <summary>Sees everything and takes home what was made; changes nothing.</summary>
    public const string Viewer = "viewer";

    /// <summary>May change, search and brief as well.</summary>
    public const string Planner = "planner";

    internal static bool IsOne(string role) => role is Viewer or Planner;
}

/// <summary>Somebody who may sign in.</summary>
/// <param name="Name">The name.</param>
/// <param name="Role">One of <see cref="Roles"/>.</param>
/// <param name="Hash">The hash of the password.</param>
public sealed record Account(string Name, string Role, string Hash);

/// <summary>The file of those who may sign in: a name, a role and the hash of a password in each line.</summary>
/// <remarks>
/// Hashed by the hasher of ASP.NET Core Identity: PBKDF2 with HMAC-SHA512 and a salt of its own each, 210,000 rounds (OWASP Password Storage Cheat
/// Sheet; from memory, unverified). The file is read anew when it has changed, so that who is struck out of it is out.
/// </remarks>
public sealed class PasswordFile
{
    /// <summary>The shortest password taken.</summary>
    public const int Shortest = 12;

    private const int Longest = 200;

    private static readonly PasswordHasher<string> Hasher = new(Options.Create(new PasswordHasherOptions { IterationCount = 210_000 }));

    // Looked at when the name is unknown, so that the time that an answer takes does not tell which names there are.
    private static readonly Lazy<string> NobodysHash = new(() => Hasher.HashPassword("", Guid.NewGuid().ToString()));

    private readonly string path;
    private readonly Lock gate = new();
    private (DateTime Written, long Length, ImmutableArray<Account> Accounts) read;

    private PasswordFile(string path) => this.path = path;

    /// <summary>Opens a password file.</summary>
    /// <returns>The file, or what is wrong with it, in words.</returns>
    public static (PasswordFile? File, string? Trouble) Open(string path)
    {
        PasswordFile file = new(path);
        try
        {
            return file.Accounts().IsEmpty ? (null, $"{path}: nobody in it; expected a name, a role and a hash in each line, as --add writes them") : (file, null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or FormatException)
        {
            return (null, e is FormatException ? e.Message : $"{path}: {e.Message} Make one with: sallyport serve --passwords {path} --add NAME --role planner");
        }
    }

    /// <summary>Who may sign in under a name with a password; null for nobody.</summary>
    public Account? SignIn(string name, string password)
    {
        Account? account = password.Length > Longest ? null : Find(name);
        bool right = Hasher.VerifyHashedPassword(name, account?.Hash ?? NobodysHash.Value, password.Length > Longest ? "" : password) != PasswordVerificationResult.Failed;
        return right ? account : null;
    }

    /// <summary>Whoever has this name now; null for nobody, also when the file cannot be read.</summary>
    public Account? Find(string name)
    {
        try
        {
            return Accounts().FirstOrDefault(account => account.Name == name);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or FormatException)
        {
            return null;
        }
    }

    /// <summary>Adds somebody, or gives a new role and password to whom it has; other lines stay as they are.</summary>
    /// <returns>What keeps it from being done, in words; null when it was.</returns>
    public static string? Add(string path, string name, string role, string password)
    {
        if (name.Length is 0 or > 40 || !name.All(letter => char.IsLetterOrDigit(letter) || letter is '-' or '_' or '.')) return $"'{name}' is no name: expected up to 40 letters, digits, '-', '_' and '.'";
        if (!Roles.IsOne(role)) return $"'{role}' is no role: expected {Roles.Viewer} or {Roles.Planner}";
        if (password.Length is < Shortest or > Longest) return $"a password of {password.Length} characters: expected {Shortest} to {Longest}; a few words make a good one";
        try
        {
            string[] lines = File.Exists(path) ? File.ReadAllLines(path) : ["# Who may sign in: name, role (viewer or planner), hash of the password. Keep it where only you can read it."];
            string line = $"{name} {role} {Hasher.HashPassword(name, password)}";
            string[] changed = [.. lines.Where(one => !one.StartsWith(name + " ", StringComparison.Ordinal)), line];
            string beside = path + ".new";
            File.Delete(beside);
            FileStreamOptions own = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows()) own.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            using (FileStream stream = new(beside, own))
            {
                stream.Write(Encoding.UTF8.GetBytes(string.Join('\n', changed) + "\n"));
                stream.Flush(flushToDisk: true);
            }
            File.Move(beside, path, overwrite: true);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return $"{path}: {e.Message} Nothing was changed.";
        }
    }

    private ImmutableArray<Account> Accounts()
    {
        lock (gate)
        {
            FileInfo file = new(path);
            if (!read.Accounts.IsDefault && file.Exists && file.LastWriteTimeUtc == read.Written && file.Length == read.Length) return read.Accounts;
            ImmutableArray<Account> accounts = [.. File.ReadAllLines(path).Select((line, index) => Parse(line.Trim(), index + 1)).OfType<Account>()];
            read = (file.LastWriteTimeUtc, file.Length, accounts);
            return accounts;
        }
    }

    private Account? Parse(string line, int number)
    {
        if (line.Length == 0 || line[0] == '#') return null;
        string[] words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length != 3) throw new FormatException($"{path}:{number}:1: {words.Length} words; expected three: name, role and hash, as --add writes them");
        if (!Roles.IsOne(words[1])) throw new FormatException($"{path}:{number}:{line.IndexOf(words[1], words[0].Length, StringComparison.Ordinal) + 1}: the role '{words[1]}'; expected {Roles.Viewer} or {Roles.Planner}");
        return new(words[0], words[1], words[2]);
    }
}
