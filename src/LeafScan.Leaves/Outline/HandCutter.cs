using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// Takes a hand that holds the leaf out of what stands out from a sheet. Skin is known by colour, whatever its tone, and by
/// where it comes from: it enters through the edge of the frame with no leaf beside it. Fingertips that show on the other
/// side of the leaf have the same colour as that hand. Brown tissue has skin's colour too, but does not come in from the frame.
/// </summary>
internal static class HandCutter
{
    // ln(R/G) and ln(B/G) of skin of all tones in ordinary light, CIE L* 25 to 72, a* 8 to 16, b* 10 to 22 (from memory), wider by
    // what a camera's white is off; values were then tried on rendered scenes.
    private const double LeastRed = 0.22;
    private const double MostRed = 1.4;
    private const double LeastBlue = -1.1;
    private const double MostBlue = 0.15;

    /// <summary>Least length along the frame where skin comes in, share of the long side: narrower ones are stalks and scratches.</summary>
    private const double LeastEntry = 0.02;

    /// <summary>Least area of skin that comes in, share of what stands out from the sheet.</summary>
    private const double LeastHand = 0.01;

    /// <summary>Share of the frame right beside skin that is leaf, above which it is brown tissue of a leaf that runs out of the frame.</summary>
    private const double MostLeafBeside = 0.4;

    /// <summary>Largest distance in ln(R/G) and ln(B/G) of a fingertip from the hand it belongs to.</summary>
    private const double SameHand = 0.25;

    /// <summary>Least part of a fingertip's edge that borders on the sheet.</summary>
    private const double LeastOuter = 0.4;

    /// <summary>Least area of a fingertip, share of what stands out from the sheet.</summary>
    private const double LeastTip = 0.002;

    /// <summary>Least area of a piece of leaf that stays, share of the largest.</summary>
    private const double LeastPiece = 0.1;

    /// <summary>Removes a hand from the mask in place; leaves the mask as it is when none comes in or nothing would be left.</summary>
    /// <param name="mask">255 what stands out, 0 sheet, 8-bit, size of the planes.</param>
    /// <param name="planes">Small copy.</param>
    public static void CutOff(Mat mask, ColourPlanes planes)
    {
        using Mat redGreen = new();
        using Mat blueGreen = new();
        Cv2.Blur(planes.RedToGreen, redGreen, new Size(3, 3));
        Cv2.Blur(planes.BlueToGreen, blueGreen, new Size(3, 3));
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        using Mat skin = Skin(mask, redGreen, blueGreen, disc);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(skin, labels, stats, centroids, PixelConnectivity.Connectivity4);
        if (count < 2)
        {
            return;
        }

        using Mat leafish = Leafish(planes);
        double area = Cv2.CountNonZero(mask);
        using Mat hand = new(mask.Size(), MatType.CV_8UC1, Scalar.All(0));
        bool[] isHand = new bool[count];
        using Mat own = new();
        for (int i = 1; i < count; i++)
        {
            if (stats.AsRow<int>(i)[4] >= LeastHand * area && TouchesFrame(stats.AsRow<int>(i), mask.Size()))
            {
                Cv2.InRange(labels, new Scalar(i), new Scalar(i), own);
                isHand[i] = ComesIn(own, mask, leafish);
                if (isHand[i])
                {
                    hand.SetTo(Scalar.All(255), own);
                }
            }
        }

        if (!isHand.Contains(true))
        {
            return;
        }

        double red = Cv2.Mean(redGreen, hand).Val0;
        double blue = Cv2.Mean(blueGreen, hand).Val0;
        using Mat rim = Rim(mask);
        for (int i = 1; i < count; i++)
        {
            if (!isHand[i] && stats.AsRow<int>(i)[4] >= LeastTip * area)
            {
                Cv2.InRange(labels, new Scalar(i), new Scalar(i), own);
                bool same = Math.Abs(Cv2.Mean(redGreen, own).Val0 - red) < SameHand && Math.Abs(Cv2.Mean(blueGreen, own).Val0 - blue) < SameHand;
                if (same && IsAtRim(own, rim))
                {
                    hand.SetTo(Scalar.All(255), own);
                }
            }
        }

        Remove(mask, hand, leafish, disc);
    }

    private static Mat Skin(Mat mask, Mat redGreen, Mat blueGreen, Mat disc)
    {
        Mat skin = new();
        using Mat blue = new();
        Cv2.InRange(redGreen, new Scalar(LeastRed), new Scalar(MostRed), skin);
        Cv2.InRange(blueGreen, new Scalar(LeastBlue), new Scalar(MostBlue), blue);
        Cv2.BitwiseAnd(skin, blue, skin);
        Cv2.BitwiseAnd(skin, mask, skin);
        Cv2.MorphologyEx(skin, skin, MorphTypes.Open, disc);
        return skin;
    }

    private static Mat Leafish(ColourPlanes planes)
    {
        using Mat likeness = LeafColour.Of(planes);
        Cv2.Blur(likeness, likeness, new Size(3, 3));
        Mat leafish = new();
        Cv2.Compare(likeness, new Scalar(0.5), leafish, CmpTypes.GT);
        return leafish;
    }

    private static bool TouchesFrame(ReadOnlySpan<int> s, Size frame) => s[0] == 0 || s[1] == 0 || s[0] + s[2] == frame.Width || s[1] + s[3] == frame.Height;

    private static bool ComesIn(Mat own, Mat mask, Mat leafish)
    {
        using Mat frame = new(own.Size(), MatType.CV_8UC1, Scalar.All(255));
        frame[new Rect(1, 1, own.Cols - 2, own.Rows - 2)].SetTo(Scalar.All(0));
        using Mat entry = new();
        Cv2.BitwiseAnd(own, frame, entry);
        int length = Cv2.CountNonZero(entry);
        if (length < LeastEntry * Math.Max(own.Cols, own.Rows))
        {
            return false;
        }

        using Mat near = Cv2.GetStructuringElement(MorphShapes.Rect, new Size(15, 15));
        using Mat beside = new();
        Cv2.Dilate(entry, beside, near);
        Cv2.BitwiseAnd(beside, frame, beside);
        Cv2.Subtract(beside, entry, beside);
        int around = Cv2.CountNonZero(beside);
        Cv2.BitwiseAnd(beside, mask, beside);
        Cv2.BitwiseAnd(beside, leafish, beside);
        return Cv2.CountNonZero(beside) <= MostLeafBeside * around;
    }

    // What of the mask lies within two pixels of the sheet.
    private static Mat Rim(Mat mask)
    {
        using Mat around = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        Mat rim = new();
        Cv2.Erode(mask, rim, around);
        Cv2.Subtract(mask, rim, rim);
        return rim;
    }

    private static bool IsAtRim(Mat own, Mat rim)
    {
        using Mat three = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(3, 3));
        using Mat edge = new();
        Cv2.Erode(own, edge, three);
        Cv2.Subtract(own, edge, edge);
        int length = Cv2.CountNonZero(edge);
        Cv2.BitwiseAnd(edge, rim, edge);
        return Cv2.CountNonZero(edge) >= LeastOuter * length;
    }

    private static void Remove(Mat mask, Mat hand, Mat leafish, Mat disc)
    {
        // Nails, creases and the shadow between fingers go with the skin around them; leaf colour never does.
        using Mat green = new();
        Cv2.BitwiseAnd(mask, leafish, green);
        Cv2.Dilate(hand, hand, disc, iterations: 2);
        hand.SetTo(Scalar.All(0), green);
        using Mat left = mask.Clone();
        left.SetTo(Scalar.All(0), hand);
        Cv2.MorphologyEx(left, left, MorphTypes.Open, disc);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centroids = new();
        int count = Cv2.ConnectedComponentsWithStats(left, labels, stats, centroids, PixelConnectivity.Connectivity4);
        int largest = 0;
        for (int i = 1; i < count; i++)
        {
            largest = Math.Max(largest, stats.AsRow<int>(i)[4]);
        }

        using Mat own = new();
        for (int i = 1; i < count; i++)
        {
            Cv2.InRange(labels, new Scalar(i), new Scalar(i), own);
            if (stats.AsRow<int>(i)[4] < LeastPiece * largest || Cv2.Mean(leafish, own).Val0 < 0.3 * 255)
            {
                left.SetTo(Scalar.All(0), own);
            }
        }

        if (Cv2.CountNonZero(left) > 0)
        {
            left.CopyTo(mask);
        }
    }
}
