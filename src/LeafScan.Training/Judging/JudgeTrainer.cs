using System.Security.Cryptography;
using System.Text;
using LeafScan.Leaves.Specks.Judge;
using Microsoft.ML;
using Microsoft.ML.Trainers.FastTree;

namespace LeafScan.Training.Judging;

/// <summary>How the trees are grown.</summary>
internal sealed record JudgeTrainerOptions
{
    /// <summary>Fixes the split and the trees.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Trees; 160 by default.</summary>
    public int Trees { get; init; } = 160;

    /// <summary>Leaves of each tree; 24 by default.</summary>
    public int Leaves { get; init; } = 24;

    /// <summary>Smallest number of candidates in a tree's leaf; 60 by default.</summary>
    public int LeastRows { get; init; } = 60;

    /// <summary>Share of the leaves kept apart for the figures, 0..1; 0.2 by default.</summary>
    public double Apart { get; init; } = 0.2;
}

/// <summary>Splits samples by leaf and grows boosted trees on their candidates.</summary>
internal sealed class JudgeTrainer(JudgeTrainerOptions options)
{
    private readonly MLContext _context = new(options.Seed);

    /// <summary>True when a sample's leaf is kept apart: decided by its group and the seed alone, so that more photos change no side.</summary>
    public bool IsApart(CandidateSample sample)
    {
        byte[] hash = SHA256.HashData(Encoding.UTF8.GetBytes($"{options.Seed}/{sample.Group}"));
        return BitConverter.ToUInt32(hash) / (double)uint.MaxValue < options.Apart;
    }

    /// <summary>Grows the trees.</summary>
    public ITransformer Train(IEnumerable<CandidateSample> samples)
    {
        List<SpeckRow> rows = [];
        foreach (CandidateSample s in samples)
        {
            // A leaf with thousands of candidates says less per candidate than one with a few.
            float weight = (float)(10 / Math.Sqrt(Math.Max(1, s.Features.Count)));
            rows.AddRange(s.Features.Select((f, i) => new SpeckRow { Features = f, Label = s.Labels[i], Weight = weight }));
        }

        IDataView view = _context.Data.LoadFromEnumerable(rows);
        return _context.BinaryClassification.Trainers.FastTree(new FastTreeBinaryTrainer.Options
        {
            FeatureColumnName = nameof(SpeckRow.Features),
            LabelColumnName = nameof(SpeckRow.Label),
            ExampleWeightColumnName = nameof(SpeckRow.Weight),
            NumberOfTrees = options.Trees,
            NumberOfLeaves = options.Leaves,
            MinimumExampleCountPerLeaf = options.LeastRows,
            LearningRate = 0.1,
            FeatureFraction = 0.6,
            Seed = options.Seed,
            NumberOfThreads = 1,
        }).Fit(view);
    }

    /// <summary>A judge that asks the trees.</summary>
    public SpeckJudge JudgeOf(ITransformer model) => SpeckJudge.Of(_context, model);

    /// <summary>Writes the model file.</summary>
    public void Save(ITransformer model, string path)
        => _context.Model.Save(model, _context.Data.LoadFromEnumerable(Array.Empty<SpeckRow>()).Schema, path);
}
