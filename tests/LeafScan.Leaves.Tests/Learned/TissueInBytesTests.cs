using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Leaves.Tests.Support;
using OpenCvSharp;

namespace LeafScan.Leaves.Tests.Learned;

/// <summary>
/// The tissue network works in whole numbers of eight bits; the network in floats that it was made from lies beside the
/// trainer. Both look at demo leaves whose truth is known.
/// </summary>
public class TissueInBytesTests
{
    [Theory]
    [InlineData("walk-2026-08-03/B07/leaf-1")]
    [InlineData("walk-2026-08-03/B03/leaf-4")]
    [InlineData("walk-2026-07-02/K12/leaf-1")]
    public void Bytes_see_what_floats_see(string name)
    {
        (byte[] classes, int centres) bytes = Look(Path.Combine(Repository.Root, "models", "leaf-tissue.onnx"), name, 2);
        (byte[] classes, int centres) floats = Look(Path.Combine(Repository.Root, "models", "training", "leaf-tissue-floats.onnx"), name, 2);
        double same = bytes.classes.Zip(floats.classes).Count(p => p.First == p.Second) / (double)floats.classes.Length;
        Assert.InRange(same, 0.99, 1);
        Assert.InRange(bytes.centres, (floats.centres * 0.9) - 5, (floats.centres * 1.1) + 5);
    }

    [Fact]
    public void The_number_of_threads_changes_nothing()
    {
        (byte[] classes, int centres) one = Look(Path.Combine(Repository.Root, "models", "leaf-tissue.onnx"), "walk-2026-08-03/B07/leaf-1", 1);
        (byte[] classes, int centres) three = Look(Path.Combine(Repository.Root, "models", "leaf-tissue.onnx"), "walk-2026-08-03/B07/leaf-1", 3);
        Assert.Equal(one.centres, three.centres);
        Assert.Equal(one.classes, three.classes);
    }

    // The likeliest class of each pixel, and how many pixels are the largest of their neighbours in the centre map, from 0.35.
    private static (byte[] Classes, int Centres) Look(string file, string name, int threads)
    {
        using Mat photo = Cv2.ImRead(Path.Combine(Repository.Root, "sample-images", name + ".jpg"));
        using Mat truth = Cv2.ImRead(Path.Combine(Repository.Root, "sample-images", "truth", name + ".truth.png"), ImreadModes.Grayscale);
        using Mat leaf = new();
        Cv2.Compare(truth, Scalar.All(0), leaf, CmpTypes.GT);
        using Mat points = new();
        Cv2.FindNonZero(leaf, points);
        Rect box = Cv2.BoundingRect(points);
        using Mat near = new(photo, box);
        using Mat inside = new(leaf, box);
        using Mat prior = new();
        Cv2.GaussianBlur(inside, prior, default, 1.5);
        using Network network = Network.Load(file, threads);
        using Planes planes = Planes.Of(near, prior);
        byte[] classes = [];
        int peaks = 0;
        TissueAnswer.Ask(network, planes, new Rect(default, planes.Size), scores =>
        {
            classes = Likeliest(scores);
            peaks = SpeckPeaks.Find(scores, inside, 0.35f).Count;
        });
        return (classes, peaks);
    }

    private static byte[] Likeliest(TissueScores scores)
    {
        int plane = scores.Size.Width * scores.Size.Height;
        byte[] best = new byte[plane];
        ReadOnlySpan<float> all = scores.ClassScores;
        for (int c = 1; c < TissueScores.Classes; c++)
        {
            for (int i = 0; i < plane; i++)
            {
                if (all[(c * plane) + i] > all[(best[i] * plane) + i])
                {
                    best[i] = (byte)c;
                }
            }
        }

        return best;
    }
}
