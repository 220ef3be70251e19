using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks.Judge;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>Makes mask codes of the network's scores, and counts what it was sure of.</summary>
internal struct TissueClasses
{
    // ln 3: three to one either way is what counts as sure.
    private const float SureLead = 1.0986f;

    // Where the network errs it doubts: its doubtful pixels, the area of candidates that the judge turned down times their
    // chance of being a speck after all, and the like for those it took. What is added for specks and patches themselves is a
    // share of their shares. Fitted on 60 rendered scenes (seeds 366000 to 387011) and the implants, one half, and tried on the
    // other (docs/decisions/041-interval-of-damage.md).
    private const double DoubtWeight = 1.2;
    private const double MissedWeight = 0.7;
    private const double TooManyWeight = 1.75;
    private const double SpecksTooMany = 0.15;
    private const double SpecksMissed = 0.07;
    private const double YellowError = 0.11;

    private static readonly byte[] CodeOfClass =
    [
        (byte)MaskCode.Sound, (byte)MaskCode.Sound, (byte)MaskCode.Speck, (byte)MaskCode.Yellowed, (byte)MaskCode.Browned, (byte)MaskCode.Unassessed,
    ];

    private double _judged;
    private double _hurtLow;
    private double _hurtHigh;
    private double _yellow;
    private double _brown;

    /// <summary>Pixels that the network took for speck.</summary>
    public double Speck { get; private set; }

    /// <summary>Writes the code of each leaf pixel: the highest score wins, and yellowed only with a lead over sound.</summary>
    /// <param name="all">The network's answer.</param>
    /// <param name="mask">255 leaf, 0 elsewhere.</param>
    /// <param name="codes">Receives <see cref="MaskCode"/> inside the mask.</param>
    /// <param name="yellowedLead">How far yellowed must lead over sound, as a logarithm of odds.</param>
    public static TissueClasses Code(TissueScores all, Mat mask, Mat codes, double yellowedLead)
    {
        TissueClasses sums = default;
        Lock adding = new();
        Bands.Run(mask.Rows, (first, end) =>
        {
            TissueClasses band = Code(all, mask, codes, (float)yellowedLead, first, end);
            lock (adding)
            {
                // Counts of pixels: in which order they are added is all one.
                sums.Add(band);
            }
        });
        return sums;
    }

    private static TissueClasses Code(TissueScores all, Mat mask, Mat codes, float least, int first, int end)
    {
        ReadOnlySpan<float> scores = all.ClassScores;
        int plane = all.Size.Width * all.Size.Height;
        TissueClasses sums = default;
        for (int y = first; y < end; y++)
        {
            ReadOnlySpan<byte> inside = mask.AsRow<byte>(y);
            Span<byte> to = codes.AsRow<byte>(y);
            for (int x = 0; x < inside.Length; x++)
            {
                if (inside[x] == 0)
                {
                    continue;
                }

                int at = all.At(x, y);
                float sound = scores[(TissueScores.Sound * plane) + at];
                float yellow = scores[(TissueScores.Yellowed * plane) + at] - least;
                int best = TissueScores.Sound;
                float most = sound;
                for (int c = TissueScores.Speck; c < TissueScores.Classes; c++)
                {
                    float score = scores[(c * plane) + at];
                    if (score > most && (c != TissueScores.Yellowed || yellow > sound))
                    {
                        (best, most) = (c, score);
                    }
                }

                to[x] = CodeOfClass[best];
                if (best != TissueScores.Unassessed)
                {
                    float hurt = MathF.Max(scores[(TissueScores.Speck * plane) + at], MathF.Max(yellow, scores[(TissueScores.Browned * plane) + at]));
                    sums.Add(best, hurt - sound);
                }
            }
        }

        return sums;
    }

    /// <summary>Damage with the network's doubt about pixels, about whole specks and about where patches end, 0..1.</summary>
    /// <param name="speckPixels">Speck pixels that were settled on in the end.</param>
    /// <param name="missedPx">Square pixels of speck to be expected among rejected candidates.</param>
    /// <param name="tooManyPx">Square pixels of other things to be expected among accepted ones.</param>
    public readonly (double Low, double High) Interval(double speckPixels, double missedPx, double tooManyPx)
    {
        if (_judged == 0)
        {
            return (0, 0);
        }

        double hurt = Speck + _yellow + _brown;
        double damage = (speckPixels + _yellow + _brown) / _judged;
        double specks = speckPixels / _judged;
        double yellow = YellowError * _yellow / _judged;
        double low = damage - Math.Sqrt(Square(DoubtWeight * (hurt - _hurtLow) / _judged) + Square(TooManyWeight * tooManyPx / _judged) + Square(SpecksTooMany * specks) + Square(yellow));
        double high = damage + Math.Sqrt(Square(DoubtWeight * (_hurtHigh - hurt) / _judged) + Square(MissedWeight * missedPx / _judged) + Square(SpecksMissed * specks) + Square(yellow));
        return (low, high);
    }

    private void Add(TissueClasses other)
    {
        _judged += other._judged;
        _hurtLow += other._hurtLow;
        _hurtHigh += other._hurtHigh;
        Speck += other.Speck;
        _yellow += other._yellow;
        _brown += other._brown;
    }

    private void Add(int best, float lead)
    {
        _judged++;
        _hurtLow += lead > SureLead ? 1 : 0;
        _hurtHigh += lead > -SureLead ? 1 : 0;
        Speck += best == TissueScores.Speck ? 1 : 0;
        _yellow += best == TissueScores.Yellowed ? 1 : 0;
        _brown += best == TissueScores.Browned ? 1 : 0;
    }

    private static double Square(double x) => x * x;
}
