using Microsoft.ML;
using Microsoft.ML.Transforms;
using Microsoft.ML.Transforms.Image;

namespace LeafScan.Leaves.Kinds;

/// <summary>
/// The steps before the learner, the same in training and in use: bring the picture to one size, take its pixels out,
/// compute figures from them.
/// </summary>
internal static class KindPipeline
{
    /// <summary>Name of the column with the figures.</summary>
    public const string Figures = nameof(KindFigures.Figures);

    /// <summary>A context that knows our step, which saving and loading need.</summary>
    public static MLContext NewContext(int? seed = null)
    {
        MLContext context = new(seed);
        context.ComponentCatalog.RegisterAssembly(typeof(KindStep).Assembly);
        return context;
    }

    /// <summary>The steps.</summary>
    public static IEstimator<ITransformer> Steps(MLContext context) =>
        context.Transforms.ResizeImages(
                "Sized", KindFeatures.SidePx, KindFeatures.SidePx, nameof(KindInput.Picture), ImageResizingEstimator.ResizingKind.Fill)
            .Append(context.Transforms.ExtractPixels(nameof(KindPixels.Pixels), "Sized", interleavePixelColors: true))
            .Append(context.Transforms.CustomMapping<KindPixels, KindFigures>(KindStep.Compute, KindStep.Contract));
}

/// <summary>Our own step of the pipeline, found again by its name when a model is loaded.</summary>
[CustomMappingFactoryAttribute(Contract)]
internal sealed class KindStep : CustomMappingFactory<KindPixels, KindFigures>
{
    /// <summary>Name of the step in the model file. Changes when <see cref="KindFeatures"/> does, so that an old model is not misread.</summary>
    public const string Contract = "LeafScan.PhotoKind.1";

    /// <inheritdoc />
    public override Action<KindPixels, KindFigures> GetMapping() => Compute;

    /// <summary>Computes the figures of one picture.</summary>
    public static void Compute(KindPixels from, KindFigures to) => to.Figures = KindFeatures.Of(from.Pixels);
}
