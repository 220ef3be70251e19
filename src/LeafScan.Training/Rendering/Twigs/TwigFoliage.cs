using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Twigs;

/// <summary>Sets leaves on shoots: needles and awls in a spiral around the shoot, scales in alternating pairs.</summary>
internal static class TwigFoliage
{
    // The angle of most spirals in plants: the circle cut by the golden section.
    private const double SpiralStep = 2.399963;

    public static List<TwigLeaf> Cover(Conifer host, IReadOnlyList<Shoot> shoots, double twigMm, Random random)
    {
        List<TwigLeaf> leaves = [];
        foreach (Shoot shoot in shoots)
        {
            if (host.Foliage == FoliageKind.Scale)
            {
                Scales(leaves, host, shoot, twigMm, random);
            }
            else
            {
                Spiral(leaves, host, shoot, twigMm, random);
            }
        }

        return leaves;
    }

    private static void Spiral(List<TwigLeaf> leaves, Conifer host, Shoot shoot, double twigMm, Random random)
    {
        double own = random.Between(host.LeafMm.Low, host.LeafMm.High);
        double turn = random.Between(0, 2 * Math.PI);
        int count = (int)(shoot.LengthMm * host.LeavesPerMm);
        for (int i = 0; i < count; i++)
        {
            double mm = (i + random.Between(-0.4, 0.4)) / host.LeavesPerMm;
            double fromEnd = shoot.LengthMm - mm;
            turn += SpiralStep + (0.25 * random.Normal());
            (Point2d at, double axis) = shoot.Along(mm);

            // Towards the end of a shoot leaves stand closer to it and are shorter.
            double end = Math.Clamp(fromEnd / (1.5 * own), 0, 1);
            double lean = (host.LeafAngle + (7 * random.Normal())) * (0.35 + (0.65 * end)) * Math.PI / 180;
            double along = Math.Cos(lean);
            double across = Math.Sin(lean) * Math.Sin(turn);
            double length = own * random.LogNormal(1, 0.1) * (0.6 + (0.4 * end));
            leaves.Add(new TwigLeaf
            {
                At = at,
                Angle = axis + Math.Atan2(across, along),
                LengthMm = length * Math.Sqrt((along * along) + (across * across)),
                WidthMm = host.LeafWidthMm * random.LogNormal(1, 0.08),
                Depth = Math.Clamp(0.5 + (0.4 * Math.Cos(turn)) + (0.6 * shoot.Rise), 0, 1),
                Age = Age(at, twigMm),
                FromEndMm = fromEnd,
                Kind = host.Foliage,
                Tone = random.Normal(),
            });
        }
    }

    private static void Scales(List<TwigLeaf> leaves, Conifer host, Shoot shoot, double twigMm, Random random)
    {
        double length = random.Between(host.LeafMm.Low, host.LeafMm.High);
        double every = 1 / host.LeavesPerMm;

        // From the end backwards, so that each pair is covered at its tip by nothing and at its base by the pair before it.
        for (double mm = shoot.LengthMm; mm > 0; mm -= every)
        {
            (Point2d at, double axis) = shoot.Along(mm);

            // Sprays end in a point, not in a cut.
            double slim = (shoot.Order == 0 ? 1.1 : 1) * Math.Min(1, 0.4 + (0.16 * (shoot.LengthMm - mm)));
            foreach (int side in (ReadOnlySpan<int>)[-1, 1, 0])
            {
                double off = side * 0.26 * host.LeafWidthMm * slim;
                leaves.Add(new TwigLeaf
                {
                    At = at + new Point2d(-off * Math.Sin(axis), off * Math.Cos(axis)),
                    Angle = axis + ((side * host.LeafAngle) + (2 * random.Normal())) * Math.PI / 180,
                    LengthMm = length * (0.5 + (0.5 * slim)) * (side == 0 ? 1.15 : 0.95) * random.LogNormal(1, 0.05),
                    WidthMm = host.LeafWidthMm * slim * (side == 0 ? 0.95 : 0.75),
                    Depth = Math.Clamp(0.45 + (0.12 * (1 - Math.Abs(side))) + (0.15 * shoot.Order) + (0.8 * shoot.Rise), 0, 1),
                    Age = Age(at, twigMm),
                    FromEndMm = shoot.LengthMm - mm,
                    Kind = FoliageKind.Scale,
                    Tone = random.Normal(),
                });
            }
        }
    }

    private static double Age(Point2d at, double twigMm) => Math.Clamp(at.X / twigMm, 0, 1);
}
