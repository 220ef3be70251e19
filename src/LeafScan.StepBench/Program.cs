using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using LeafScan.StepBench;

// In this process: building a project of its own for each step would need the package sources again.
ManualConfig config = ManualConfig.Create(DefaultConfig.Instance)
    .AddJob(Job.Default.WithToolchain(InProcessEmitToolchain.Instance).WithWarmupCount(2).WithIterationCount(8).WithInvocationCount(1).WithUnrollFactor(1))
    .AddDiagnoser(MemoryDiagnoser.Default);
BenchmarkRunner.Run<ReadingSteps>(config, args);
