using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Hands;

/// <summary>Puts the fingers of a hand below and above the leaf that it holds.</summary>
internal static class Hand
{
    /// <summary>Fingers below the blade.</summary>
    public static void Below(Mat light, HandSpec spec, LeafSpec leaf, Lighting lighting, double shading)
    {
        Random random = Chance.FromSeed(spec.Seed);
        foreach (Finger finger in spec.Hold == HandHold.Pinch ? [Under(spec, leaf, random)] : Bed(spec, leaf, random))
        {
            using Mat _ = FingerPainter.Paint(light, finger, Tone(spec, random), leaf.PixelsPerMm, lighting, shading, random);
        }
    }

    /// <summary>The thumb above the blade.</summary>
    /// <returns>Float 0..1: what it covers; null when it covers nothing. The caller disposes.</returns>
    public static Mat? Above(Mat light, HandSpec spec, LeafSpec leaf, Lighting lighting, double shading)
    {
        if (spec.Hold != HandHold.Pinch)
        {
            return null;
        }

        Random random = Chance.FromSeed(spec.Seed ^ 0x3c6e);
        double half = 0.56 * spec.FingerMm * leaf.PixelsPerMm;
        double angle = leaf.AngleDegrees + random.Between(-28, 28);
        Point2d tip = Along(leaf, spec.Over - 0.5);
        return FingerPainter.Paint(light, new Finger(tip, angle, half, 40 * half, true), Tone(spec, random), leaf.PixelsPerMm, lighting, shading, random);
    }

    // The forefinger comes from the other side and ends a little further under the blade.
    private static Finger Under(HandSpec spec, LeafSpec leaf, Random random)
    {
        double half = 0.5 * spec.FingerMm * leaf.PixelsPerMm;
        return new Finger(Along(leaf, spec.Over - 0.5 + random.Between(0.08, 0.3)), leaf.AngleDegrees + random.Pick([-1, 1]) * random.Between(25, 60), half, 40 * half, false);
    }

    // Three or four fingers side by side, across the blade.
    private static IEnumerable<Finger> Bed(HandSpec spec, LeafSpec leaf, Random random)
    {
        double half = 0.5 * spec.FingerMm * leaf.PixelsPerMm;
        double angle = leaf.AngleDegrees + random.Pick([-1, 1]) * random.Between(60, 115);
        double turn = angle * Math.PI / 180;
        int fingers = random.Next(3, 5);
        double[] reach = [0.2, 0.65, 0.45, -0.5];
        Point2d middle = Along(leaf, random.Between(-0.15, 0.1));
        double past = leaf.LengthPx * random.Between(0.15, 0.4);
        for (int i = fingers - 1; i >= 0; i--)
        {
            double aside = (i - ((fingers - 1) / 2.0)) * 1.97 * half;
            double forward = past + (reach[i] * 2.6 * half);
            Point2d tip = new(
                middle.X + (forward * Math.Cos(turn)) - (aside * Math.Sin(turn)),
                middle.Y + (forward * Math.Sin(turn)) + (aside * Math.Cos(turn)));
            yield return new Finger(tip, angle + random.Between(-3, 3), half * (i == 3 ? 0.86 : 1) * random.Between(0.96, 1.04), 60 * half, false);
        }
    }

    private static Photos.Colour.LabColour Tone(HandSpec spec, Random random) => spec.Skin.Move(random.Normal(), 0.7 * random.Normal(), 0.7 * random.Normal());

    private static Point2d Along(LeafSpec leaf, double share)
    {
        double turn = leaf.AngleDegrees * Math.PI / 180;
        return new Point2d(leaf.CentreX + (share * leaf.LengthPx * Math.Cos(turn)), leaf.CentreY + (share * leaf.LengthPx * Math.Sin(turn)));
    }
}
