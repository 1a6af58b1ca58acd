using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Engines;
using BenchmarkDotNet.Exporters;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Loggers;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Sallyport.Bench;

// dotnet run -c Release --project bench/Sallyport.Bench -- family [15] [25] [40] [1-6] [10s|40e] [alone]
// dotnet run -c Release --project bench/Sallyport.Bench -- bounds [15] [25] [40] [1-6] [10s]
// dotnet run -c Release --project bench/Sallyport.Bench -- refusals [skerry|tern|random|15|25|40] [effort]
// dotnet run -c Release --project bench/Sallyport.Bench -- decodes [skerry|tern|15|25|40] [epochs]
// dotnet run -c Release --project bench/Sallyport.Bench -- replan [15] [25] [40]
// dotnet run -c Release --project bench/Sallyport.Bench -- sky
// dotnet run -c Release --project bench/Sallyport.Bench -- proof [rules]
// dotnet run -c Release --project bench/Sallyport.Bench -- brief
// dotnet run -c Release --project bench/Sallyport.Bench -- desk
// dotnet run -c Release --project bench/Sallyport.Bench -- [--filter "*CheckSkerry*"]
if (args is ["family", ..])
{
    FamilyRun.Run(args[1..]);
    return;
}
if (args is ["bounds", ..])
{
    BoundsRun.Run(args[1..]);
    return;
}
if (args is ["refusals", ..])
{
    RefusalsRun.Run(args[1..]);
    return;
}
if (args is ["decodes", ..])
{
    DecodesRun.Run(args[1..]);
    return;
}
if (args is ["replan", ..])
{
    ReplanRun.Run(args[1..]);
    return;
}
if (args is ["sky"])
{
    SkyRun.Run();
    return;
}
if (args is ["proof", ..])
{
    ProofRun.Run(args[1..]);
    return;
}
if (args is ["brief"])
{
    BriefRun.Run();
    return;
}
if (args is ["desk"])
{
    DeskRun.Run();
    return;
}

// In one process: the repository builds with its own rules, which a project that the benchmark writes for itself would not meet.
Job job = Job.Default.WithToolchain(InProcessEmitToolchain.Instance);
ManualConfig Config(Job one) => ManualConfig.CreateEmpty().AddJob(one).AddLogger(ConsoleLogger.Default).AddColumnProvider(DefaultColumnProviders.Instance).AddExporter(MarkdownExporter.GitHub);
string[] filter = args.Length > 0 ? args : ["--filter", "*"];
BenchmarkSwitcher.FromTypes([typeof(ShortWaits), typeof(SkyWaits), typeof(Trying)]).Run(filter, Config(job.WithWarmupCount(3).WithIterationCount(10)));
BenchmarkSwitcher.FromTypes([typeof(LongWaits)]).Run(filter, Config(job.WithStrategy(RunStrategy.Monitoring).WithWarmupCount(1).WithIterationCount(3)));
