using System.CommandLine;
using System.Net.Sockets;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Sallyport.Model;
using Sallyport.Web;
using Command = System.CommandLine.Command;

namespace Sallyport.Cli;

/// <summary><c>serve</c>: the desk in the browser.</summary>
internal static class ServeCommand
{
    private const int UsualPort = 7317;

    private static readonly TimeSpan MostUntilTold = TimeSpan.FromSeconds(3);

    public static Command Make()
    {
        Argument<string?> folder = new("FOLDER") { Description = "A folder of scenarios, such as scenarios.", Arity = ArgumentArity.ZeroOrOne };
        Option<int> port = new("--port") { Description = "The port; 0 takes a free one.", HelpName = "N", DefaultValueFactory = _ => UsualPort };
        port.Validators.Add(result =>
        {
            if (result.Tokens.Count == 1 && int.TryParse(result.Tokens[0].Value, out int number) && number is < 0 or > 65535) result.AddError("--port takes a whole number from 0 to 65535");
        });
        Option<bool> listen = new("--listen") { Description = "Other machines may ask too; needs --passwords. Without it only this machine may." };
        Option<string?> passwords = new("--passwords") { Description = "Who may sign in: a name, a role and the hash of a password in each line.", HelpName = "FILE" };
        Option<string?> add = new("--add") { Description = "Adds somebody to the password file, asks for the password on the terminal, and ends.", HelpName = "NAME" };
        Option<string> role = new("--role") { Description = "What that one may do: viewer (look) or planner (change).", HelpName = "ROLE", DefaultValueFactory = _ => Roles.Viewer };
        role.AcceptOnlyFromAmong(Roles.Viewer, Roles.Planner);
        Option<string?> certificate = new("--certificate") { Description = "A certificate in PEM, for https.", HelpName = "FILE" };
        Option<string?> key = new("--key") { Description = "The key of that certificate, in PEM.", HelpName = "FILE" };
        Option<string[]> name = new("--name") { Description = "A further name by which browsers ask for this machine.", HelpName = "HOST" };
        Option<string> output = Shared.Out();
        Option<bool> json = new("--json") { Description = "Write the log as JSON, every request too." };
        Command command = new("serve", "Serves the desk in the browser, over the same files.")
        {
            folder, port, listen, passwords, add, role, certificate, key, name, output, json,
        };
        command.SetAction((parsed, cancel) =>
        {
            if (parsed.GetValue(add) is { } who) return Task.FromResult(Add(parsed.GetValue(passwords), who, parsed.GetValue(role)!));
            if (parsed.GetValue(folder) is not { } place) return Task.FromResult(Refuse("Which folder of scenarios? Such as: sallyport serve scenarios"));
            (string? pem, string? secret) = (parsed.GetValue(certificate), parsed.GetValue(key));
            if (pem is null != secret is null) return Task.FromResult(Refuse("--certificate and --key go together: https needs both."));
            return Serve(new(place, parsed.GetValue(port))
            {
                Listen = parsed.GetValue(listen),
                Passwords = parsed.GetValue(passwords),
                Tls = pem is null ? null : (pem, secret!),
                Names = [.. parsed.GetValue(name) ?? []],
                OutFolder = parsed.GetValue(output)!,
                JsonLog = parsed.GetValue(json),
            }, cancel);
        });
        return command;
    }

    private static async Task<int> Serve(ServeOptions options, CancellationToken cancel)
    {
        if (!Directory.Exists(options.Folder)) return Refuse($"{options.Folder}: no such folder; expected a folder of scenarios. Make it, or check the path.");
        if (options.Listen && options.Passwords is null)
            return Refuse("--listen needs --passwords FILE: nobody on a network may change a plan without signing in.\nMake one with: sallyport serve --passwords FILE --add NAME --role planner");
        PasswordFile? file = null;
        if (options.Passwords is { } passwords)
        {
            (file, string? trouble) = PasswordFile.Open(passwords);
            if (trouble is not null) return Refuse(trouble);
        }
        try
        {
            await using WebApplication app = DeskServer.Build(options, file);
            Task rehearsed = Rehearsal.FirstPage(app);
            await app.StartAsync(cancel);
            // Whoever reads the address opens a page at once; but nobody waits long for being told.
            await Task.WhenAny(Task.WhenAll(rehearsed, Rehearsal.Knock(app)), Task.Delay(MostUntilTold, cancel));
            _ = Rehearsal.EditsOf(app.Services);
            foreach (string address in app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Select(one => Shown(one, options)).Distinct())
                Console.Out.WriteLine($"The desk is at {address}");
            Console.Out.WriteLine(Caution.Text);
            if (options.Listen && options.Tls is null) Console.Out.WriteLine("Without --certificate, passwords and plans cross the network readable by others on it: docs/browser.md tells how to have https.");
            Console.Out.WriteLine("Ctrl-C ends it. Every accepted change is already in the files.");
            await app.WaitForShutdownAsync(cancel);
            return ExitCodes.Clean;
        }
        catch (IOException e) when (e.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException || e.InnerException is AggregateException { InnerException: Microsoft.AspNetCore.Connections.AddressInUseException })
        {
            return Refuse($"Port {options.Port} is in use by another program; give another one with --port, or 0 for a free one.");
        }
        catch (Exception e) when (e is SocketException or IOException or UnauthorizedAccessException or System.Security.Cryptography.CryptographicException)
        {
            return Refuse($"The desk cannot be served: {e.Message}");
        }
    }

    private static string Shown(string address, ServeOptions options) =>
        options.Listen ? address.Replace("[::]", Environment.MachineName, StringComparison.Ordinal).Replace("0.0.0.0", Environment.MachineName, StringComparison.Ordinal) : address.Replace("[::1]", "localhost", StringComparison.Ordinal).Replace("127.0.0.1", "localhost", StringComparison.Ordinal);

    private static int Add(string? file, string name, string role)
    {
        if (file is null) return Refuse("--add needs --passwords FILE: the file that is written to.");
        string password = Ask($"Password for {name}, {PasswordFile.Shortest} characters or more: ");
        if (!Console.IsInputRedirected && Ask("The same again: ") != password) return Refuse("The two differ. Nothing was changed.");
        if (PasswordFile.Add(file, name, role, password) is { } trouble) return Refuse(trouble);
        Console.Out.WriteLine($"{name} may sign in as {role}.");
        return ExitCodes.Clean;
    }

    // Not shown while it is typed, and never taken from the arguments, which others on the machine can read.
    private static string Ask(string question)
    {
        if (Console.IsInputRedirected) return Console.In.ReadLine() ?? "";
        Console.Error.Write(question);
        System.Text.StringBuilder typed = new();
        while (Console.ReadKey(intercept: true) is { Key: not ConsoleKey.Enter } pressed)
        {
            if (pressed.Key == ConsoleKey.Backspace) typed.Length = Math.Max(0, typed.Length - 1);
            else if (!char.IsControl(pressed.KeyChar)) typed.Append(pressed.KeyChar);
        }
        Console.Error.WriteLine();
        return typed.ToString();
    }

    private static int Refuse(string why)
    {
        Console.Error.WriteLine(why);
        return ExitCodes.Input;
    }
}
