using Microsoft.ML;
using Microsoft.ML.Data;
using Microsoft.ML.Trainers.FastTree;

namespace LeafScan.Leaves.Specks.Judge;

/// <summary>
/// Says for each candidate the chance that it is a feeding speck, with boosted trees trained by the workshop. Loading costs
/// some tenths of a second and happens once; asking is safe from several threads.
/// </summary>
internal sealed class SpeckJudge
{
    private readonly MLContext _context;
    private readonly ITransformer _model;

    private SpeckJudge(MLContext context, ITransformer model) => (_context, _model) = (context, model);

    /// <summary>Loads a model file.</summary>
    /// <exception cref="InvalidDataException">The file was made for other features.</exception>
    public static SpeckJudge Load(string file)
    {
        MLContext context = new(seed: 1);

        // Naming a type of the trees' assembly loads it; the model file only knows it by name.
        context.ComponentCatalog.RegisterAssembly(typeof(FastTreeBinaryModelParameters).Assembly);
        ITransformer model = context.Model.Load(file, out DataViewSchema schema);
        if (schema[nameof(SpeckRow.Features)].Type is not VectorDataViewType { Size: SpeckCandidate.FeatureCount })
        {
            throw new InvalidDataException($"{file} was made for other features than this version reads; train it again or remove it.");
        }

        return new SpeckJudge(context, model);
    }

    /// <summary>A judge from a model just trained.</summary>
    public static SpeckJudge Of(MLContext context, ITransformer model) => new(context, model);

    /// <summary>Chance of each candidate, 0..1, in their order.</summary>
    public float[] Chances(IReadOnlyList<SpeckCandidate> candidates) => Chances([.. candidates.Select(c => c.Features)]);

    /// <summary>Chance for each row of values in the order of <see cref="SpeckFeature"/>.</summary>
    public float[] Chances(IReadOnlyList<float[]> features)
    {
        if (features.Count == 0)
        {
            return [];
        }

        IDataView rows = _context.Data.LoadFromEnumerable(features.Select(f => new SpeckRow { Features = f }));
        return [.. _model.Transform(rows).GetColumn<float>("Probability")];
    }
}

/// <summary>One row as the trees know it.</summary>
internal sealed class SpeckRow
{
    /// <summary>Values in the order of <see cref="SpeckFeature"/>.</summary>
    [VectorType(SpeckCandidate.FeatureCount)]
    public float[] Features { get; set; } = [];

    /// <summary>True for a feeding speck; training only.</summary>
    public bool Label { get; set; }

    /// <summary>How much the row counts; training only.</summary>
    public float Weight { get; set; } = 1;
}
