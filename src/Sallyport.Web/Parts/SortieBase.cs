using System.Collections.Immutable;
using Microsoft.AspNetCore.Components;
using Sallyport.Desk;

namespace Sallyport.Web.Parts;

/// <summary>A page of one scenario: it holds the scenario open, and is drawn anew after every change of it, whoever made it.</summary>
public abstract class SortieBase : ComponentBase, IDisposable
{
    private static readonly TimeSpan Behind = TimeSpan.FromMilliseconds(300);

    // Those who look see a change within a second, and not all at one moment: an edit that comes meanwhile would wait for all of them.
    private readonly TimeSpan spread = TimeSpan.FromMilliseconds(Random.Shared.Next(700));

    private bool ended, coming;

    /// <summary>The scenario's folder name, from the address.</summary>
    [Parameter] public string Name { get; set; } = "";

    [Inject] protected DeskFolder Folder { get; set; } = null!;

    [Inject] protected DeskHand Hand { get; set; } = null!;

    /// <summary>The scenario; null when there is none of this name.</summary>
    protected OpenSortie? Sortie { get; private set; }

    /// <summary>What the page shows: the newest state that has come to it.</summary>
    protected SortieState? State { get; private set; }

    /// <summary>Why there is none.</summary>
    protected ImmutableArray<Problem> Missing { get; private set; } = [];

    /// <summary>Whether whoever looks may change anything.</summary>
    protected bool MayChange { get; private set; }

    protected override async Task OnParametersSetAsync()
    {
        if (Sortie is not null && State!.Name == Name) return;
        Close();
        MayChange = await Hand.MayChange();
        ReadResult<OpenSortie> opened = await Task.Run(() => Folder.Open(Name));
        if (ended)
        {
            opened.Value?.Dispose();
            return;
        }
        Missing = opened.Problems;
        if (opened.Value is not { } sortie) return;
        Sortie = sortie;
        sortie.Changed += Take;
        State = sortie.State;
        await Opened();
    }

    /// <summary>Called once the scenario is open.</summary>
    protected virtual Task Opened() => Task.CompletedTask;

    /// <summary>Called, on the page's own thread, after every change and before the page is drawn anew.</summary>
    protected virtual void Took(SortieState before)
    {
    }

    private void Take(SortieState state) => _ = InvokeAsync(async () =>
    {
        if (!Hand.IsAsking || Hand.IsToldByScript)
        {
            // Whoever made a change is answered first; of what comes meanwhile only the newest is shown. Where the script of the page is given the answer, what is drawn around it follows.
            if (coming) return;
            coming = true;
            await Task.Delay(Hand.IsToldByScript ? Behind : Behind + spread);
            coming = false;
        }
        if (ended || State is not { } before || Sortie!.State is not { } newest || newest.Revision <= before.Revision) return;
        State = newest;
        Took(before);
        StateHasChanged();
    });

    private void Close()
    {
        if (Sortie is not { } sortie) return;
        sortie.Changed -= Take;
        sortie.Dispose();
        (Sortie, State) = (null, null);
    }

    public virtual void Dispose()
    {
        ended = true;
        Close();
        GC.SuppressFinalize(this);
    }
}
