using Sallyport.Model;
using Sallyport.Proof;

namespace Sallyport.Tests.Damage;

/// <summary>The proof held against plans that are known to be broken.</summary>
public sealed class DamageTests
{
    private const string WriteVariable = "SALLYPORT_WRITE_DAMAGE";

    [Fact]
    public void CleanPlans_Undamaged_PlayClean()
    {
        Assert.True(CleanPlans.All.Length >= 12, $"{CleanPlans.All.Length} plans only");
        Assert.All(CleanPlans.All, plan => Assert.True(plan.Judge(new(plan.Scenario, plan.Timeline)).Clean, plan.Name));
    }

    [Fact]
    public void Damage_EveryKind_HasItsOwnNameAndARuleThatExists()
    {
        Assert.True(Damages.All.Length >= 40);
        Assert.Equal(Damages.All.Length, Damages.All.DistinctBy(damage => damage.Name).Count());
        Assert.All(Damages.All, damage => Assert.NotNull(RuleBook.Find(damage.Rule)));
    }

    [Fact]
    public void Damage_EveryKind_FindsAPlaceInSomePlan() =>
        None(DamageTable.All.Where(result => result.Tried == 0).Select(result => result.Damage.Name));

    [Fact]
    public void Damage_EveryKind_ReallyChangesThePlan() => None(DamageTable.All.SelectMany(result => result.Harmless));

    [Fact]
    public void Damage_AnyKindAnywhere_NeverEscapes() => None(DamageTable.All.SelectMany(result => result.Escaped));

    [Fact]
    public void Damage_AnyKindAnywhere_IsCaughtByTheRuleMeant() => None(DamageTable.All.SelectMany(result => result.ByOthersOnly));

    [Fact]
    public void Rules_Each_IsTriggeredByItsOwnKindOfDamage() =>
        None(RuleBook.All.Select(rule => rule.Card.Id.Value).Except(DamageTable.All.Where(result => result.Caught > 0).Select(result => result.Damage.Rule)));

    [Fact]
    public void Table_InTheDocuments_IsWhatTheTestMakes()
    {
        string file = RepositoryFolder.Of("docs", "damage.md"), written = DamageTable.Written();
        TestContext.Current.TestOutputHelper?.WriteLine(written);
        if (Environment.GetEnvironmentVariable(WriteVariable) == "1") File.WriteAllText(file, written);
        Assert.Equal(written, File.Exists(file) ? File.ReadAllText(file) : $"no docs/damage.md; set {WriteVariable}=1 to write it");
    }

    /// <summary>That a list is empty; tells all of it when it is not.</summary>
    private static void None(IEnumerable<string> found) => Assert.True(!found.Any(), string.Join('\n', found));
}
