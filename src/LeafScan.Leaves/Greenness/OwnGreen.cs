using LeafScan.Leaves.Outline;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>The sound colour of this very twig or plant, as ratios of linear light.</summary>
/// <param name="RedToGreen">ln(R/G) of its greenest frequent colour.</param>
/// <param name="BlueToGreen">ln(B/G) of the same pixels.</param>
/// <param name="Scatter">How far sound pixels scatter around it, ln units.</param>
/// <param name="Unsure">Hardly anything has this colour, or it may as well be that of a plant that has lost its green all over.</param>
internal sealed record OwnGreen(double RedToGreen, double BlueToGreen, double Scatter, bool Unsure)
{
    // ln(R/G) of leaf tissue without chlorophyll in daylight, a pale yellow: about CIE Lab 60, 0, 35 (our own choice).
    private const double Bare = 0.36;

    // The least loss that stands out of noise and needles of several ages, in ln units and in scatters.
    private const double LeastLoss = 0.1;
    private const double LeastScatters = 2.2;

    // Redder than this no peak is a green one; redder than the second it is no living foliage at all.
    private const double ReddestGreen = 0.08;
    private const double ReddestGold = 0.45;

    // Gold foliage is yellower than green foliage gets when it fades, ln(B/G).
    private const double GoldBelow = -1.45;

    // A colour that is not green counts as unsure beside this share of foliage that is browner by so much, ln(R/G).
    private const double PlainlyGreen = -0.1;
    private const double BrownerBy = 0.25;
    private const double MuchBrowner = 0.2;

    // Green that makes no peak of its own: needles so fine that every pixel is a mixture.
    private const double SurelyGreen = -0.1;
    private const double LeastGreenShare = 0.08;
    private const double RankOfGreen = 0.3;

    private const double LeastPeakShare = 0.04;
    private const double LeastNearShare = 0.08;
    private const double Cell = 0.0035;
    private const double GuessRedToGreen = -0.35;
    private const double GuessBlueToGreen = -1;

    /// <summary>No foliage had a living colour at all: this one is common green.</summary>
    public bool Guessed { get; init; }

    /// <summary>Common green in some light.</summary>
    public static OwnGreen Guess(FrameLight light) => new(GuessRedToGreen + light.RedToGreen, GuessBlueToGreen + light.BlueToGreen, 0.12, true) { Guessed = true };

    /// <summary>
    /// Loss of green half way from this colour to tissue without any, ln units of R/G: where a pixel that is a mixture of
    /// sound and bare tissue holds as much of the one as of the other. Gold foliage has less to lose than green.
    /// </summary>
    /// <param name="most">Never more than this, ln units.</param>
    public double HalfLost(double most)
    {
        double least = RedToGreen > -0.2 ? Math.Max(LeastLoss, LeastScatters * Scatter) : LeastLoss;
        return Math.Min(most, Math.Max(least, 0.5 * (Bare - RedToGreen)));
    }

    /// <summary>ln(R/G) from which discoloured tissue counts as dead and brown: gold foliage fades to a redder yellow.</summary>
    /// <param name="least">Never less than this.</param>
    public double BrownedFrom(double least) => Math.Max(least, RedToGreen + 0.25);

    /// <summary>
    /// Finds it among pixels that are neither in deep shade nor shining: the greenest frequent ln(R/G), however much of the
    /// foliage is damaged. Damage and dead tissue only raise that ratio, and nothing but deeper green lowers it. Without any
    /// green it is the lowest frequent one, if that is the yellow of gold foliage.
    /// </summary>
    /// <param name="planes">Colour.</param>
    /// <param name="inside">8-bit, not 0 on foliage.</param>
    public static OwnGreen Find(ColourPlanes planes, Mat inside)
    {
        using Mat lit = Lit(planes, inside);
        int all = Math.Max(1, Cv2.CountNonZero(lit));
        PeakCounts counts = PeakCounts.Of(planes.RedToGreen, lit);
        if (counts.FirstPeak(ReddestGreen, LeastPeakShare) is { } peak)
        {
            double value = PeakCounts.Value(peak);
            (double blue, int near) = Near(planes, lit, value);
            bool faded = value > PlainlyGreen && IsMuchBrowner(planes, inside, value);
            return new OwnGreen(value, blue, counts.ScatterBelow(peak), faded || near < LeastNearShare * all);
        }

        using Mat green = new();
        Cv2.InRange(planes.RedToGreen, new Scalar(-10), new Scalar(SurelyGreen), green);
        Cv2.BitwiseAnd(green, lit, green);
        if (Cv2.CountNonZero(green) > LeastGreenShare * all)
        {
            double mixed = Spread.Ranks(planes.RedToGreen, green, -2, 1, RankOfGreen)[0];
            return new OwnGreen(mixed, Near(planes, lit, mixed).Blue, 0.1, true);
        }

        int gold = counts.FirstPeakOfAll();
        if (PeakCounts.Value(gold) > ReddestGold)
        {
            return Guess(FrameLight.Unknown);
        }

        // Much brown beside it: a gold plant that is dying, or a green one that has lost all its green. Nobody can tell from this photo.
        double own = PeakCounts.Value(gold);
        double yellow = Near(planes, lit, own).Blue;
        return new OwnGreen(own, yellow, counts.ScatterBelow(gold), yellow > GoldBelow || IsMuchBrowner(planes, inside, own));
    }

    private static Mat Lit(ColourPlanes planes, Mat inside)
    {
        using Mat core = new();
        Cv2.Erode(inside, core, null);
        if (Cv2.CountNonZero(core) < 200)
        {
            inside.CopyTo(core);
        }

        double[] level = Spread.Ranks(planes.Level, core, -6, 1, 0.25, 0.97);
        Mat lit = new();
        // Ranks are told to a cell's middle.
        Cv2.InRange(planes.Level, new Scalar(level[0] - Cell), new Scalar(level[1] + Cell), lit);
        Cv2.BitwiseAnd(lit, core, lit);
        if (Cv2.CountNonZero(lit) == 0)
        {
            // All of one level: nothing is shade or shine.
            core.CopyTo(lit);
        }

        return lit;
    }

    // Of all foliage: dead leaves are dark and would be left out with the shade.
    private static bool IsMuchBrowner(ColourPlanes planes, Mat inside, double redToGreen)
    {
        using Mat browner = new();
        Cv2.InRange(planes.RedToGreen, new Scalar(redToGreen + BrownerBy), new Scalar(10), browner);
        Cv2.BitwiseAnd(browner, inside, browner);
        return Cv2.CountNonZero(browner) > MuchBrowner * Cv2.CountNonZero(inside);
    }

    private static (double Blue, int Count) Near(ColourPlanes planes, Mat lit, double redToGreen)
    {
        using Mat near = new();
        Cv2.InRange(planes.RedToGreen, new Scalar(redToGreen - 0.1), new Scalar(redToGreen + 0.1), near);
        Cv2.BitwiseAnd(near, lit, near);
        return (Spread.Ranks(planes.BlueToGreen, near, -4, 1, 0.5)[0], Cv2.CountNonZero(near));
    }
}
