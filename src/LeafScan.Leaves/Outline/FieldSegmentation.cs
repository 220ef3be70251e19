using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// The main leaf of an ordinary photo without a sheet: what is sharp, leaf-coloured and near the middle seeds a graph cut.
/// </summary>
internal static class FieldSegmentation
{
    private const int WorkLongSidePx = 288;

    /// <summary>255 leaf, 0 rest, size of <paramref name="bgr"/>; all 0 when there is nothing like a leaf.</summary>
    /// <param name="bgr">Small copy, 8-bit B, G, R.</param>
    public static Mat Segment(Mat bgr)
    {
        double scale = Math.Min(1, WorkLongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        using Mat work = new();
        Cv2.Resize(bgr, work, default, scale, scale, InterpolationFlags.Area);
        using Mat sharp = Sharpness(bgr, work.Size());
        using ColourPlanes planes = ColourPlanes.Of(work);
        using Mat seeds = Seeds(planes, sharp, out int sure);
        Mat mask = new(bgr.Size(), MatType.CV_8UC1, Scalar.All(0));
        if (sure < work.Cols * work.Rows / 200)
        {
            return mask;
        }

        using Mat background = new();
        using Mat foreground = new();
        Cv2.SetTheRNG(1);
        Cv2.GrabCut(work, seeds, default, background, foreground, 3, GrabCutModes.InitWithMask);
        using Mat leaf = new();
        using Mat one = new(seeds.Size(), MatType.CV_8UC1, Scalar.All(1));
        Cv2.BitwiseAnd(seeds, one, leaf);
        using Mat scaled = new();
        leaf.ConvertTo(scaled, MatType.CV_8UC1, 255);
        using Mat disc = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        Cv2.MorphologyEx(scaled, scaled, MorphTypes.Open, disc);
        KeepCentral(scaled);
        FieldHoles.Fill(scaled, planes);
        Cv2.Resize(scaled, mask, bgr.Size(), 0, 0, InterpolationFlags.Linear);
        Cv2.Threshold(mask, mask, 127, 255, ThresholdTypes.Binary);
        return mask;
    }

    private static Mat Sharpness(Mat bgr, Size size)
    {
        using Mat grey = new();
        Cv2.CvtColor(bgr, grey, ColorConversionCodes.BGR2GRAY);
        using Mat edges = new();
        Cv2.Laplacian(grey, edges, MatType.CV_32F, 3);
        using Mat energy = Cv2.Abs(edges).ToMat();
        Mat local = new();
        Cv2.Resize(energy, local, size, 0, 0, InterpolationFlags.Area);
        Cv2.GaussianBlur(local, local, default, Math.Max(size.Width, size.Height) / 50.0);
        return local;
    }

    private static Mat Seeds(ColourPlanes planes, Mat sharp, out int sure)
    {
        Size size = planes.Size;
        double meanSharp = Cv2.Mean(sharp).Val0 + 1e-3;
        Mat seeds = new(size, MatType.CV_8UC1, Scalar.All((int)GrabCutClasses.PR_BGD));
        sure = 0;
        for (int y = 0; y < size.Height; y++)
        {
            ReadOnlySpan<float> rg = planes.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> bg = planes.BlueToGreen.AsRow<float>(y);
            ReadOnlySpan<float> sh = sharp.AsRow<float>(y);
            Span<byte> to = seeds.AsRow<byte>(y);
            double v = ((2.0 * y) / size.Height) - 1;
            for (int x = 0; x < to.Length; x++)
            {
                double u = ((2.0 * x) / size.Width) - 1;
                double centre = Math.Exp(-((u * u) + (v * v)) / 0.5);
                double green = LeafColour(rg[x], bg[x]);
                double focus = Math.Min(2, sh[x] / meanSharp) / 2;
                double score = (0.45 * centre) + (0.3 * green) + (0.25 * focus);
                bool edge = Math.Abs(u) > 0.97 || Math.Abs(v) > 0.97;
                if ((score > 0.62 && green > 0.5) || (green > 0.6 && focus > 0.6 && centre > 0.12))
                {
                    to[x] = score > 0.8 ? (byte)GrabCutClasses.FGD : (byte)GrabCutClasses.PR_FGD;
                    sure++;
                }
                else if (score < 0.25 || edge)
                {
                    to[x] = edge && score > 0.4 ? (byte)GrabCutClasses.PR_BGD : (byte)GrabCutClasses.BGD;
                }
            }
        }

        return seeds;
    }

    /// <summary>
    /// 0..1: green, or yellow without the red of soil; never the blue of sky. The steps lie between what was seen on the soil,
    /// hands and leaves of field photos; no source beyond that.
    /// </summary>
    private static double LeafColour(double redGreen, double blueGreen)
    {
        double green = Below(redGreen, -0.1, 0.08);
        double yellow = Below(redGreen, 0.12, 0.06) * Below(blueGreen, -0.9, 0.15);
        return Math.Max(green, yellow) * Below(blueGreen, 0.12, 0.06);
    }

    private static double Below(double value, double step, double width) => 1 / (1 + Math.Exp((value - step) / width));

    /// <summary>Keeps the piece that weighs most near the middle.</summary>
    private static void KeepCentral(Mat mask)
    {
        using Mat labels = new();
        int count = Cv2.ConnectedComponents(mask, labels, PixelConnectivity.Connectivity4);
        double[] weight = new double[count];
        int rows = mask.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<int> label = labels.AsRow<int>(y);
            double v = ((2.0 * y) / mask.Rows) - 1;
            for (int x = 0; x < label.Length; x++)
            {
                if (label[x] != 0)
                {
                    double u = ((2.0 * x) / mask.Cols) - 1;
                    weight[label[x]] += Math.Exp(-((u * u) + (v * v)) / 0.3);
                }
            }
        }

        int best = Array.IndexOf(weight, weight.Max());
        Cv2.InRange(labels, new Scalar(Math.Max(1, best)), new Scalar(Math.Max(1, best)), mask);
    }
}
