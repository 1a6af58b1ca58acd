using System.Security.Claims;
using Bunit;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Rendering;
using Microsoft.Extensions.DependencyInjection;
using Sallyport.Desk;
using Sallyport.Web;
using Sallyport.Web.Parts;

namespace Sallyport.Tests.Web;

/// <summary>Who hears of a change when: whoever made it at once, others a little later and only of the newest.</summary>
public sealed class HeldBackTests : BunitContext
{
    [Fact]
    public async Task Page_OfSomebodyElse_ComesToTheNewest_NeverGoesBack_AndHearsOfEveryBurst()
    {
        string root = Directory.CreateTempSubdirectory("sallyport-held-").FullName;
        try
        {
            using DeskFolder folder = new(root);
            Assert.Null(folder.Create("one"));
            Planner planner = new();
            DeskHand others = new(planner), own = new(planner);
            Services.AddSingleton(folder);
            Services.AddSingleton(others);
            IRenderedComponent<Page> page = Render<Page>(parameters => parameters.Add(one => one.Name, "one"));
            page.WaitForAssertion(() => Assert.NotNull(page.Instance.Shown), TimeSpan.FromMinutes(2));
            using OpenSortie sortie = folder.Open("one").Value!;
            SortieFile file = sortie.State.Files.First(one => one.Name == "jobs.yaml");
            for (int burst = 1; burst <= 2; burst++)
            {
                for (int i = 0; i < 6; i++) Assert.IsType<Accepted>(await own.Apply(sortie, new ReplaceText(file.Name, $"{file.Text}# {burst}.{i}\n"), sortie.State.Revision));
                page.WaitForAssertion(() => Assert.EndsWith($"# {burst}.5\n", page.Instance.Shown!.TextOf(file.Name)), TimeSpan.FromMinutes(2));
            }
            Assert.Equal(page.Instance.Seen.Order(), page.Instance.Seen);
            Assert.Equal(page.Instance.Seen.Distinct(), page.Instance.Seen);
        }
        finally { Directory.Delete(root, true); }
    }

    [Fact]
    public async Task Hand_WhileItsEditIsAnsweredAndJustAfter_IsAsking_SoThatItsPageIsToldFirst()
    {
        string root = Directory.CreateTempSubdirectory("sallyport-hand-").FullName;
        try
        {
            using DeskFolder folder = new(root);
            Assert.Null(folder.Create("one"));
            using OpenSortie sortie = folder.Open("one").Value!;
            DeskHand hand = new(new Planner());
            Assert.False(hand.IsAsking);
            SortieFile file = sortie.State.Files[0];
            bool? during = null;
            sortie.Changed += _ => during ??= hand.IsAsking;
            Task<EditOutcome> edit = hand.Apply(sortie, new ReplaceText(file.Name, file.Text + "# more\n"), sortie.State.Revision);
            Assert.IsType<Accepted>(await edit);
            Assert.True(hand.IsAsking);
            Assert.True(SpinWait.SpinUntil(() => during is not null, TimeSpan.FromMinutes(1)));
            Assert.True(during);
        }
        finally { Directory.Delete(root, true); }
    }

    private sealed class Page : SortieBase
    {
        public List<long> Seen { get; } = [];

        public SortieState? Shown => State;

        protected override void Took(SortieState before) => Seen.Add(State!.Revision);

        protected override void BuildRenderTree(RenderTreeBuilder builder) => builder.AddContent(0, State?.Revision);
    }

    private sealed class Planner : AuthenticationStateProvider
    {
        public override Task<AuthenticationState> GetAuthenticationStateAsync() => Task.FromResult(new AuthenticationState(new(new ClaimsIdentity([new(ClaimTypes.Name, "ada"), new(ClaimTypes.Role, Roles.Planner)], "test"))));
    }
}
