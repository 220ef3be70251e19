using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Reading;
using OpenCvSharp;

namespace LeafScan.Leaves.Needles;

/// <summary>How the damage of a twig lies on it: what tells mites from frost, salt and needle cast.</summary>
internal sealed record TwigPattern
{
    // Width of the pale rim of dead tissue, both sides together.
    private const int RimPx = 11;

    /// <summary>Shares of the foliage.</summary>
    public required LeafShares Shares { get; init; }

    /// <summary>Pale specks, touching ones counted once.</summary>
    public required int SpeckCount { get; init; }

    /// <summary>Brown pieces large enough to say something.</summary>
    public required int BrownPieces { get; init; }

    /// <summary>Share of the brown area in pieces that end in the open: sound foliage touches them from one side only.</summary>
    public required double TipShare { get; init; }

    /// <summary>Share of the brown area in short pieces with sound foliage on two or more sides, as a band across a needle has.</summary>
    public required double BandShare { get; init; }

    /// <summary>Share of the edge of brown pieces that sound foliage touches, mean by area, 0..1: low where whole needles are dead.</summary>
    public required double Held { get; init; }

    /// <summary>Share of the foliage that is pale specks away from anything brown: the rims of dead tissue are pale too.</summary>
    public required double Mottled { get; init; }

    /// <summary>How deep in the twig the brown lies against all foliage: 1 alike, less towards the ends.</summary>
    public double DepthOfBrown => FoliageOut >= 1 ? 1 : (1 - BrownOut) / (1 - FoliageOut);

    /// <summary>Length over width of the brown pieces, mean by area.</summary>
    public required double BrownStretch { get; init; }

    /// <summary>Area of the brown pieces over the square of a needle's width, mean by area.</summary>
    public required double BrownSize { get; init; }

    /// <summary>Mean place of the brown area between the twig's middle line (0) and its outer ends (1).</summary>
    public required double BrownOut { get; init; }

    /// <summary>The same of all foliage.</summary>
    public required double FoliageOut { get; init; }

    /// <summary>Reads it.</summary>
    public static TwigPattern Read(TwigTissue tissue, LeafShares shares, int specks)
    {
        using Mat inside = new();
        Cv2.Compare(tissue.Codes, new Scalar(0), inside, CmpTypes.GT);
        double width = NeedleWidth(inside);
        using Mat brown = new();
        Cv2.Compare(tissue.Codes, new Scalar((int)MaskCode.Browned), brown, CmpTypes.EQ);
        using Mat small = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(3, 3));
        Cv2.MorphologyEx(brown, brown, MorphTypes.Open, small);
        Cv2.FindContours(brown, out Point[][] pieces, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        double least = 0.15 * width * width;
        (double all, double tips, double bands, double stretch, double size, double touched) = (0, 0, 0, 0, 0, 0);
        int counted = 0;
        foreach (Point[] piece in pieces)
        {
            double area = Cv2.ContourArea(piece) + (0.5 * piece.Length);
            if (area < Math.Max(12, least))
            {
                continue;
            }

            counted++;
            (int runs, double held) = Contacts(piece, tissue.Codes);
            RotatedRect box = Cv2.MinAreaRect(piece);
            double longer = Math.Max(box.Size.Width, box.Size.Height) + 1;
            double shorter = Math.Min(box.Size.Width, box.Size.Height) + 1;
            all += area;
            tips += runs <= 1 && held < 0.5 ? area : 0;
            bands += runs >= 2 && longer < 5 * width ? area : 0;
            touched += area * held;
            stretch += area * longer / shorter;
            size += area * area / (width * width);
        }

        double Mean(double sum) => all > 0 ? sum / all : 0;
        using Mat outwards = Outwards(inside);
        return new TwigPattern
        {
            Shares = shares,
            SpeckCount = specks,
            BrownPieces = counted,
            TipShare = Mean(tips),
            BandShare = Mean(bands),
            Held = Mean(touched),
            Mottled = MottledShare(tissue.Codes, brown, Cv2.CountNonZero(inside)),
            BrownStretch = Mean(stretch),
            BrownSize = Mean(size),
            BrownOut = Cv2.CountNonZero(brown) == 0 ? 0 : Cv2.Mean(outwards, brown).Val0,
            FoliageOut = Cv2.Mean(outwards, inside).Val0,
        };
    }

    private static double MottledShare(Mat codes, Mat brown, int foliage)
    {
        using Mat rim = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(RimPx, RimPx));
        using Mat near = new();
        Cv2.Dilate(brown, near, rim);
        using Mat pale = new();
        Cv2.Compare(codes, new Scalar((int)MaskCode.Speck), pale, CmpTypes.EQ);
        pale.SetTo(Scalar.All(0), near);
        return Cv2.CountNonZero(pale) / (double)Math.Max(1, foliage);
    }

    // Area over half the length of the edge: what a long strip's width is.
    private static double NeedleWidth(Mat inside)
    {
        using Mat inner = new();
        Cv2.Erode(inside, inner, null);
        double area = Cv2.CountNonZero(inside);
        double edge = Math.Max(1, area - Cv2.CountNonZero(inner));
        return Math.Clamp(2 * area / edge, 3, 60);
    }

    // Walks around a piece two pixels outside it: how often foliage that is not brown touches, and along which share.
    private static (int Runs, double Held) Contacts(Point[] piece, Mat codes)
    {
        Point2d middle = new(piece.Average(p => p.X), piece.Average(p => p.Y));
        bool[] held = new bool[piece.Length];
        for (int i = 0; i < piece.Length; i++)
        {
            Point before = piece[(i + piece.Length - 2) % piece.Length];
            Point after = piece[(i + 2) % piece.Length];
            (double dx, double dy) = (after.Y - before.Y, -(after.X - before.X));
            double length = Math.Max(1e-6, Math.Sqrt((dx * dx) + (dy * dy)));
            (dx, dy) = (3 * dx / length, 3 * dy / length);
            if (((piece[i].X - middle.X) * dx) + ((piece[i].Y - middle.Y) * dy) < 0)
            {
                (dx, dy) = (-dx, -dy);
            }

            int x = (int)Math.Round(piece[i].X + dx);
            int y = (int)Math.Round(piece[i].Y + dy);
            held[i] = x >= 0 && y >= 0 && x < codes.Cols && y < codes.Rows && codes.AsRow<byte>(y)[x] is not 0 and not (byte)MaskCode.Browned;
        }

        int runs = 0;
        for (int i = 0; i < held.Length; i++)
        {
            runs += held[i] && !held[(i + held.Length - 1) % held.Length] ? 1 : 0;
        }

        return (runs, held.Count(h => h) / (double)Math.Max(1, held.Length));
    }

    // How near the outer edge of the joined twig a pixel lies: 1 at its edge, towards 0 deep inside.
    private static Mat Outwards(Mat inside)
    {
        using Mat joined = new();
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(25, 25));
        Cv2.MorphologyEx(inside, joined, MorphTypes.Close, disc);
        using Mat depth = new();
        Cv2.DistanceTransform(joined, depth, DistanceTypes.L2, DistanceTransformMasks.Mask3);
        Cv2.MinMaxLoc(depth, out double _, out double deepest);
        Mat outwards = new();
        depth.ConvertTo(outwards, MatType.CV_32FC1, -1 / Math.Max(1, deepest), 1);
        return outwards;
    }
}
