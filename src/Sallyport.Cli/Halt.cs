namespace Sallyport.Cli;

/// <summary>Ctrl-C while something is sought: the first press ends the search under way and keeps what there is, a second one ends the program.</summary>
internal sealed class Halt : IDisposable
{
    private readonly CancellationTokenSource source = new();

    /// <summary>Listens from here on: made before anything that takes time.</summary>
    public Halt() => Console.CancelKeyPress += Press;

    public CancellationToken Token => source.Token;

    public bool IsAsked => source.IsCancellationRequested;

    public void Dispose()
    {
        Console.CancelKeyPress -= Press;
        source.Dispose();
    }

    private void Press(object? sender, ConsoleCancelEventArgs press)
    {
        press.Cancel = !IsAsked;
        source.Cancel();
    }
}
