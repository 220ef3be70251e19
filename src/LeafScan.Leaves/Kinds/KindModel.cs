using Microsoft.ML;
using Microsoft.ML.Data;
using OpenCvSharp;

namespace LeafScan.Leaves.Kinds;

/// <summary>The trained photo-kind model. Safe to use from several threads; one photo is judged at a time.</summary>
public sealed class KindModel : IDisposable
{
    private readonly Lock _gate = new();
    private readonly PredictionEngine<KindInput, KindOutput> _engine;

    private KindModel(PredictionEngine<KindInput, KindOutput> engine) => _engine = engine;

    /// <summary>Loads a model that <c>leafscan-training train-photo-kind</c> wrote.</summary>
    /// <param name="path">The file, usually models/photo-kind.zip.</param>
    /// <exception cref="InvalidDataException">The file is no photo-kind model of this version.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static KindModel Load(string path)
    {
        MLContext context = KindPipeline.NewContext();
        try
        {
            using FileStream file = File.OpenRead(path);
            ITransformer steps = context.Model.Load(file, out _);
            KindModel model = new(context.Model.CreatePredictionEngine<KindInput, KindOutput>(steps));

            // The first use compiles the steps and costs as much as loading; whoever loads in the background wants that done too.
            using Mat blank = new(KindPicture.SidePx, KindPicture.SidePx, MatType.CV_8UC3, Scalar.All(128));
            model.Judge(blank);
            return model;
        }
        catch (Exception problem) when (problem is InvalidOperationException or FormatException or ArgumentException or InvalidDataException)
        {
            throw new InvalidDataException($"\"{path}\" is no photo-kind model of this version. Build or install the program again.", problem);
        }
    }

    /// <summary>Says what a photo shows.</summary>
    /// <param name="bgr">Upright photo, 8-bit B, G, R, sRGB; any size. Not changed.</param>
    public KindJudgement Judge(Mat bgr)
    {
        using MLImage picture = KindPicture.Of(bgr);
        lock (_gate)
        {
            return new KindJudgement(_engine.Predict(new KindInput { Picture = picture }).Score);
        }
    }

    /// <inheritdoc />
    public void Dispose() => _engine.Dispose();
}
