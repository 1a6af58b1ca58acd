namespace Sallyport.Planning;

/// <summary>Where search begins.</summary>
internal static class Starts
{
    /// <summary>Must-jobs only, in the order of the file as far as precedence allows, given to people in turn.</summary>
    public static Candidate First(SearchCase all)
    {
        int n = all.Units.Length;
        int[] order = [.. Enumerable.Range(0, n).OrderBy(u => Enumerable.Range(0, n).Count(v => all.Before[v][u])).ThenBy(u => u)];
        int[] options = [.. all.Units.Select((unit, u) => unit.Options.Length == 0 ? 0 : u % unit.Options.Length)];
        bool[] jobIn = [.. all.Scenario.Jobs.Select(job => job.Worth == Model.Worth.Must)];
        return new(order, options, new Bringing[n], jobIn);
    }
}
