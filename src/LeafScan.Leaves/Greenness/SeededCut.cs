using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>A graph cut (Rother, Kolmogorov and Blake 2004) on three planes of one's own choice instead of plain colour.</summary>
internal static class SeededCut
{
    /// <summary>Cuts.</summary>
    /// <param name="planes">Three 32-bit float planes, each already on a scale of 0 to 255.</param>
    /// <param name="seeds">8-bit <see cref="GrabCutClasses"/>; changed.</param>
    /// <param name="rounds">How often the colour models are made anew.</param>
    /// <returns>8-bit, 255 where the thing is; the caller disposes it.</returns>
    public static Mat Cut(Mat[] planes, Mat seeds, int rounds)
    {
        (int sure, int maybe) = Count(seeds);
        Mat mask = new();
        if (sure >= 50 && maybe >= 50)
        {
            using Mat merged = new();
            using Mat work = new();
            using Mat background = new();
            using Mat foreground = new();
            Cv2.Merge(planes, merged);
            merged.ConvertTo(work, MatType.CV_8UC3);

            // The colour models start from a random split: always the same one.
            Cv2.SetTheRNG(1);
            Cv2.GrabCut(work, seeds, default, background, foreground, rounds, GrabCutModes.InitWithMask);
        }

        // Classes 1 and 3 are the thing: the lowest bit says it.
        Cv2.BitwiseAnd(seeds, new Scalar(1), mask);
        Cv2.Compare(mask, new Scalar(0), mask, CmpTypes.GT);
        return mask;
    }

    /// <summary>A plane stretched to the scale that <see cref="Cut"/> wants.</summary>
    public static Mat Scaled(Mat plane, double factor, double offset)
    {
        Mat scaled = new();
        plane.ConvertTo(scaled, MatType.CV_32FC1, factor, offset);
        return scaled;
    }

    private static (int Background, int Foreground) Count(Mat seeds)
    {
        int foreground = 0;
        int rows = seeds.Rows;
        for (int y = 0; y < rows; y++)
        {
            foreach (byte seed in seeds.AsRow<byte>(y))
            {
                foreground += seed & 1;
            }
        }

        return ((seeds.Rows * seeds.Cols) - foreground, foreground);
    }
}
