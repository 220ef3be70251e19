using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// What a foliage network says of the picture of a twig or a whole plant: what each pixel is, and how far it would go either
/// way if doubtful pixels were told otherwise. Owns its pictures.
/// </summary>
internal sealed class FoliageScores : IDisposable
{
    // ln 3: scores are logarithms of odds, and three to one either way is what counts as sure.
    private const float SureLead = 1.0986f;

    // From how far behind sound a pixel counts as discoloured after all, ln of odds: the likeliest class alone reads faint yellowing
    // too low. Found on 42 renders of each kind that nothing was trained on (docs/decisions/051).
    private const float TwigLeaning = 0.2f;
    private const float PlantLeaning = 0.45f;

    private static readonly MaskCode[] TwigClasses = [MaskCode.Background, MaskCode.Sound, MaskCode.Speck, MaskCode.Yellowed, MaskCode.Browned];
    private static readonly MaskCode[] PlantClasses = [MaskCode.Background, MaskCode.Sound, MaskCode.Yellowed, MaskCode.Browned];

    private FoliageScores(Mat codes, Mat? full)
    {
        Codes = codes;
        Full = full;
    }

    /// <summary><see cref="MaskCode"/> of each pixel; wood of a twig is sound.</summary>
    public Mat Codes { get; }

    /// <summary>255 where the network sees the plant as it would be with nothing fallen; null for twigs.</summary>
    public Mat? Full { get; }

    /// <summary>Share of the foliage that is surely discoloured, and that may be, 0..1.</summary>
    public (double Low, double High) Bounds { get; private set; }

    /// <summary>Reads a twig's picture.</summary>
    /// <param name="bgr">8-bit B, G, R at the scale of training: long side 1600 pixels or less.</param>
    /// <param name="network">The twig network.</param>
    public static FoliageScores OfTwig(Mat bgr, Network network)
    {
        using Planes planes = Planes.Of(bgr, null);
        return Read(planes, bgr.Size(), network, TwigClasses, TwigLeaning);
    }

    /// <summary>Reads a plant's picture.</summary>
    /// <param name="bgr">8-bit B, G, R: the whole frame, 1024 by 768 pixels.</param>
    /// <param name="network">The plant network.</param>
    public static FoliageScores OfPlant(Mat bgr, Network network)
    {
        using Planes planes = Planes.WithPlaces(bgr);
        return Read(planes, bgr.Size(), network, PlantClasses, PlantLeaning);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Codes.Dispose();
        Full?.Dispose();
    }

    private static FoliageScores Read(Planes planes, Size size, Network network, MaskCode[] classes, float leaning)
    {
        FoliageScores? read = null;
        network.Run(planes.Values, planes.Channels, planes.Size, outputs =>
        {
            Mat? full = outputs.Length > 1 ? FullOutline(outputs[1].Span, planes.Size.Width, size) : null;
            read = new FoliageScores(new Mat(size, MatType.CV_8UC1, Scalar.All(0)), full);
            read.Classify(outputs[0].Span, planes.Size, classes, leaning);
        });
        return read!;
    }

    private void Classify(ReadOnlySpan<float> scores, Size padded, MaskCode[] classes, float leaning)
    {
        int plane = padded.Width * padded.Height;
        (long foliage, long surely, long perhaps) = (0, 0, 0);
        int rows = Codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> to = Codes.AsRow<byte>(y);
            for (int x = 0; x < to.Length; x++)
            {
                int at = (y * padded.Width) + x;
                float background = scores[at];
                float sound = scores[plane + at];
                int worst = 2;
                float hurt = scores[(2 * plane) + at];
                for (int c = 3; c < classes.Length; c++)
                {
                    float score = scores[(c * plane) + at];
                    if (score > hurt)
                    {
                        (worst, hurt) = (c, score);
                    }
                }

                float leaf = MathF.Max(sound, hurt);
                if (background >= leaf)
                {
                    continue;
                }

                to[x] = (byte)(hurt > sound - leaning ? classes[worst] : MaskCode.Sound);
                foliage++;
                surely += hurt - sound > SureLead ? 1 : 0;
                perhaps += hurt - sound > -SureLead ? 1 : 0;
            }
        }

        double all = Math.Max(1, foliage);
        Bounds = (surely / all, perhaps / all);
    }

    private static Mat FullOutline(ReadOnlySpan<float> chances, int stride, Size size)
    {
        Mat full = new(size, MatType.CV_8UC1);
        for (int y = 0; y < size.Height; y++)
        {
            Span<byte> to = full.AsRow<byte>(y);
            for (int x = 0; x < to.Length; x++)
            {
                to[x] = chances[(y * stride) + x] > 0.5f ? (byte)255 : (byte)0;
            }
        }

        return full;
    }
}
