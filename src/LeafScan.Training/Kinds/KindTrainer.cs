using LeafScan.Leaves.Kinds;
using Microsoft.ML;
using Microsoft.ML.Trainers.LightGbm;

namespace LeafScan.Training.Kinds;

/// <summary>Trains the photo-kind model and writes it whole: resizing, pixel extraction, figures and trees in one file.</summary>
internal static class KindTrainer
{
    /// <summary>Trains and saves.</summary>
    /// <param name="examples">Pictures of known kind; disposed when done with.</param>
    /// <param name="seed">Seed of the learner.</param>
    /// <param name="path">The file to write.</param>
    /// <returns>How many pictures were learnt from.</returns>
    public static int Train(IEnumerable<KindExample> examples, int seed, string path)
    {
        List<KindInput> rows = [];
        try
        {
            foreach (KindExample example in examples)
            {
                using (example)
                {
                    rows.Add(new KindInput { Picture = KindPicture.Of(example.Pixels), Kind = (uint)example.Kind - 1 });
                }
            }

            Fit(rows, seed, path);
            return rows.Count;
        }
        finally
        {
            rows.ForEach(row => row.Picture?.Dispose());
        }
    }

    private static void Fit(List<KindInput> rows, int seed, string path)
    {
        // Every kind weighs the same in sum, except that leaf weighs double.
        foreach (IGrouping<uint, KindInput> kind in rows.GroupBy(row => row.Kind))
        {
            float weight = rows.Count / (6f * kind.Count()) * (kind.Key == (uint)PhotoKind.Leaf - 1 ? 2 : 1);
            foreach (KindInput row in kind)
            {
                row.Weight = weight;
            }
        }

        MLContext context = KindPipeline.NewContext(seed);
        IDataView data = context.Data.LoadFromEnumerable(rows);
        IEstimator<ITransformer> learner = context.MulticlassClassification.Trainers.LightGbm(new LightGbmMulticlassTrainer.Options
        {
            LabelColumnName = nameof(KindInput.Kind),
            FeatureColumnName = KindPipeline.Figures,
            ExampleWeightColumnName = nameof(KindInput.Weight),
            NumberOfIterations = 150,
            NumberOfLeaves = 12,
            MinimumExampleCountPerLeaf = 12,
            LearningRate = 0.06,
            Booster = new GradientBooster.Options { L2Regularization = 2, FeatureFraction = 0.4, SubsampleFraction = 0.7, SubsampleFrequency = 1 },
            UseSoftmax = true,
            Seed = seed,
            Deterministic = true,
            NumberOfThreads = 2,
        });
        ITransformer model = KindPipeline.Steps(context).AppendCacheCheckpoint(context).Append(learner).Fit(data);
        Directory.CreateDirectory(Path.GetDirectoryName(Path.GetFullPath(path))!);
        context.Model.Save(model, data.Schema, path);
    }
}
