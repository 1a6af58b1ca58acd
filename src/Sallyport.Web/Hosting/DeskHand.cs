using System.Security.Claims;
using Microsoft.AspNetCore.Components.Authorization;
using Sallyport.Desk;

namespace Sallyport.Web;

/// <summary>The hand of whoever looks at a page: everything that changes something goes through it, and it lets only planners.</summary>
public sealed class DeskHand(AuthenticationStateProvider who)
{
    /// <summary>What somebody is told who may not.</summary>
    public const string MayNot = "You are signed in as a viewer, who may look at everything and change nothing.";

    private int asking;
    private long asked = long.MinValue / 2;

    /// <summary>Whether an edit of this page is being answered, or was just now: others see it after the one who made it.</summary>
    public bool IsAsking => asking > 0 || Environment.TickCount64 - asked < 1000;

    /// <summary>Whether the script of the page is given the answer, and the page need not be drawn anew for it.</summary>
    public bool IsToldByScript { get; set; }

    /// <summary>The name of whoever looks.</summary>
    public async Task<string> Name() => (await User()).Identity?.Name ?? "";

    /// <summary>Whether that one may change anything.</summary>
    public async Task<bool> MayChange() => (await User()).IsInRole(Roles.Planner);

    /// <summary>Does an edit.</summary>
    public Task<EditOutcome> Apply(OpenSortie sortie, SortieEdit edit, long revision) => Do(by => sortie.Apply(edit, by, revision));

    /// <summary>Takes back one's own last edit.</summary>
    public Task<EditOutcome> Undo(OpenSortie sortie) => Do(sortie.Undo);

    /// <summary>Does again what one took back last.</summary>
    public Task<EditOutcome> Redo(OpenSortie sortie) => Do(sortie.Redo);

    /// <summary>Takes another outline as the one that all see and edit.</summary>
    public Task<EditOutcome> Choose(OpenSortie sortie, string outline) => Do(_ => sortie.Choose(outline));

    /// <summary>Ends a conflict with the disk for what was changed here.</summary>
    public Task<EditOutcome> KeepMine(OpenSortie sortie, string file) => Do(_ => sortie.KeepMine(file));

    /// <summary>Ends a conflict with the disk for what stands there.</summary>
    public Task<EditOutcome> TakeTheirs(OpenSortie sortie, string file) => Do(_ => sortie.TakeTheirs(file));

    /// <summary>Does what a planner alone may; null when whoever looks is none.</summary>
    public async Task<T?> IfPlanner<T>(Func<T> work) where T : class => await MayChange() ? work() : null;

    // Away from the page's own thread, so that a long edit keeps nobody's page waiting.
    private async Task<EditOutcome> Do(Func<string, EditOutcome> edit)
    {
        ClaimsPrincipal user = await User();
        if (!user.IsInRole(Roles.Planner)) return new Refused(MayNot, []);
        string name = user.Identity?.Name ?? "";
        asking++;
        try
        {
            return await Task.Run(() => edit(name));
        }
        finally
        {
            asking--;
            asked = Environment.TickCount64;
        }
    }

    private async Task<ClaimsPrincipal> User() => (await who.GetAuthenticationStateAsync()).User;
}
