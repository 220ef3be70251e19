using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// The main leaf of a field photo: plant-coloured, in focus, near the middle; cut out with GrabCut (Rother et al. 2004)
/// from those seeds.
/// </summary>
internal static class FieldLeaf
{
    private const double LeastPlantColour = 0.35;
    private const double LeastSolidity = 0.55;

    /// <summary>255 leaf, 0 elsewhere, at the size of the small copy; empty when nothing stands out.</summary>
    public static Mat Find(Mat small, ColourRatios ratios, OutlineOptions options)
    {
        using Mat plant = PlantColour(ratios);
        using Mat focus = Focus(small);
        using Mat evidence = Evidence(plant, focus);
        Mat mask = new(small.Size(), MatType.CV_8UC1, Scalar.All(0));
        using Mat state = Seeds(evidence, plant);
        using Mat sure = new();
        Cv2.InRange(state, Scalar.All((int)GrabCutClasses.FGD), Scalar.All((int)GrabCutClasses.FGD), sure);
        if (Cv2.CountNonZero(sure) < options.SmallestShare * state.Total() / 2)
        {
            return mask;
        }

        using Mat background = new();
        using Mat foreground = new();
        using Mat smooth = new();
        Cv2.GaussianBlur(small, smooth, default, 1);
        Cv2.GrabCut(smooth, state, default, background, foreground, 4, GrabCutModes.InitWithMask);
        using Mat perhaps = new();
        Cv2.InRange(state, Scalar.All((int)GrabCutClasses.PR_FGD), Scalar.All((int)GrabCutClasses.PR_FGD), perhaps);
        Cv2.InRange(state, Scalar.All((int)GrabCutClasses.FGD), Scalar.All((int)GrabCutClasses.FGD), mask);
        Cv2.BitwiseOr(mask, perhaps, mask);
        int side = Math.Max(3, Math.Max(small.Cols, small.Rows) / 80) | 1;
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(side, side));
        Cv2.MorphologyEx(mask, mask, MorphTypes.Open, kernel);
        if (!LooksLikeLeaf(mask, plant))
        {
            mask.SetTo(Scalar.All(0));
        }

        return mask;
    }

    // Whatever is in the frame, something is cut out: it must be plant-coloured and of one piece to be a leaf.
    private static bool LooksLikeLeaf(Mat mask, Mat plant)
    {
        if (Cv2.CountNonZero(mask) == 0 || Cv2.Mean(plant, mask).Val0 < LeastPlantColour)
        {
            return false;
        }

        Cv2.FindContours(mask, out Point[][] contours, out _, RetrievalModes.External, ContourApproximationModes.ApproxNone);
        Point[] largest = contours.MaxBy(c => Cv2.ContourArea(c))!;
        double area = Cv2.ContourArea(largest);
        return area > 0 && area / Cv2.ContourArea(Cv2.ConvexHull(largest)) > LeastSolidity;
    }

    // 1 for green to yellow-green tissue, falling to 0 for soil, skin, sky and stone; brown leaves are found by their place
    // inside the outline.
    private static Mat PlantColour(ColourRatios ratios)
    {
        Mat plant = new(ratios.RedToGreen.Size(), MatType.CV_32FC1);
        int rows = plant.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> red = ratios.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> blue = ratios.BlueToGreen.AsRow<float>(y);
            Span<float> to = plant.AsRow<float>(y);
            for (int x = 0; x < to.Length; x++)
            {
                float byRed = Math.Clamp((0.02f - red[x]) / 0.25f, 0, 1);
                float byBlue = Math.Clamp((0.15f - blue[x]) / 0.25f, 0, 1);
                to[x] = byRed * byBlue;
            }
        }

        return plant;
    }

    // Local strength of fine detail against the photo's own: 0..1.
    private static Mat Focus(Mat small)
    {
        using Mat grey = new();
        Cv2.CvtColor(small, grey, ColorConversionCodes.BGR2GRAY);
        using Mat detail = new();
        Cv2.Laplacian(grey, detail, MatType.CV_32F);
        using Mat size = new();
        Cv2.Absdiff(detail, Scalar.All(0), size);
        Mat focus = new();
        Cv2.GaussianBlur(size, focus, default, Math.Max(small.Cols, small.Rows) / 50.0);
        Cv2.MinMaxLoc(focus, out _, out double most);
        focus.ConvertTo(focus, MatType.CV_32FC1, 1 / Math.Max(most, 1));
        return focus;
    }

    private static Mat Evidence(Mat plant, Mat focus)
    {
        Mat evidence = new(plant.Size(), MatType.CV_32FC1);
        (int rows, int cols) = (plant.Rows, plant.Cols);
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> p = plant.AsRow<float>(y);
            ReadOnlySpan<float> f = focus.AsRow<float>(y);
            Span<float> to = evidence.AsRow<float>(y);
            float v = (2f * y / rows) - 1;
            for (int x = 0; x < cols; x++)
            {
                float u = (2f * x / cols) - 1;
                float place = MathF.Exp(-((u * u) + (v * v)) / 0.7f);
                to[x] = p[x] * place * (0.35f + (0.65f * MathF.Sqrt(f[x])));
            }
        }

        return evidence;
    }

    private static Mat Seeds(Mat evidence, Mat plant)
    {
        using Mat soft = new();
        Cv2.GaussianBlur(evidence, soft, default, Math.Max(evidence.Cols, evidence.Rows) / 100.0);
        Cv2.MinMaxLoc(soft, out _, out double most);
        Mat state = new(evidence.Size(), MatType.CV_8UC1);
        (int rows, int cols) = (evidence.Rows, evidence.Cols);
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> e = soft.AsRow<float>(y);
            ReadOnlySpan<float> p = plant.AsRow<float>(y);
            Span<byte> to = state.AsRow<byte>(y);
            for (int x = 0; x < cols; x++)
            {
                bool rim = y < 3 || x < 3 || y >= rows - 3 || x >= cols - 3;
                GrabCutClasses guess = most < 0.12 ? GrabCutClasses.BGD
                    : e[x] > 0.62 * most ? GrabCutClasses.FGD
                    : e[x] > 0.3 * most ? GrabCutClasses.PR_FGD
                    : p[x] < 0.02 || e[x] < 0.06 * most || rim ? GrabCutClasses.BGD
                    : GrabCutClasses.PR_BGD;
                to[x] = (byte)guess;
            }
        }

        return state;
    }
}
