using System.Collections.Concurrent;
using System.Text;
using Sallyport.Desk;
using Sallyport.Draw;

namespace Sallyport.Web;

/// <summary>The small range charts of the list, each kept for as long as what it was drawn from stays as it is.</summary>
public sealed class Thumbnails(DeskFolder folder)
{
    private readonly ConcurrentDictionary<string, (string Files, string Standing, byte[] Picture)> drawn = new();
    // One after another: a long list takes no more than one core from those who plan.
    private readonly SemaphoreSlim turn = new(1);

    /// <summary>The chart of a scenario's plan as SVG, played and judged as far as it is known: nothing is proven for it. Null where there is no plan.</summary>
    public async Task<byte[]?> Of(string name, CancellationToken cancel)
    {
        await turn.WaitAsync(cancel);
        try
        {
            // Taken before it is looked at: what changes meanwhile is drawn anew by the next who asks.
            string files = folder.KeyOf(name);
            string? standing = folder.InHand(name) is { } open ? Standing(open) : null;
            if (drawn.TryGetValue(name, out (string Files, string Standing, byte[] Picture) known) && known.Files == files && (standing is null || known.Standing == standing)) return known.Picture;
            return await Task.Run(() =>
            {
                if (folder.Glance(name) is not { Plan: { } plan, Scenario: { } scenario } state) return null;
                byte[] picture = Encoding.UTF8.GetBytes(SvgWriter.Write(Downloads.Small(scenario, plan, state.Proving == Proving.Whole)));
                drawn[name] = (files, Standing(state), picture);
                return picture;
            }, cancel);
        }
        finally
        {
            turn.Release();
        }
    }

    private static string Standing(SortieState state) => $"{state.Chosen} {state.Proving}";
}
