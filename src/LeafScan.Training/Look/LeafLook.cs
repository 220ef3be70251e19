using LeafScan.Leaves.Reading;
using LeafScan.Photos.Colour;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Look;

/// <summary>
/// What one leaf looks like in numbers. Texture is measured after the leaf has been brought to one size (the square root of
/// its area is <see cref="CommonSidePx"/> pixels), noise in the photo's own pixels.
/// </summary>
public sealed record LeafLook
{
    /// <summary>Square root of a leaf's area after resizing, in pixels.</summary>
    public const double CommonSidePx = 220;

    /// <summary>Names of the figures, in order, with what they say.</summary>
    public static IReadOnlyList<(string Name, string Words)> Names { get; } =
    [
        ("lightness", "L* of sound tissue, median"),
        ("redness", "a* of sound tissue, median"),
        ("yellowness", "b* of sound tissue, median"),
        ("spread", "spread of L* over the blade, from slow shading to texture"),
        ("texture", "local contrast: spread of L* between 2 and 16 pixels of the common size"),
        ("fine", "fine contrast: spread of L* below 2 pixels of the common size"),
        ("noise", "noise of L* in the photo's own pixels (median absolute diagonal difference)"),
        ("sharpness", "largest hundredth of the L* steps between neighbours, over local contrast"),
        ("speckLightness", "L* of specks minus L* of sound tissue around"),
        ("speckRedness", "a* of specks minus a* around"),
        ("speckYellowness", "b* of specks minus b* around"),
    ];

    /// <summary>The figures by name; those of specks only where at least 40 pixels are specks.</summary>
    public required IReadOnlyDictionary<string, double> Values { get; init; }

    /// <summary>Looks at a leaf.</summary>
    /// <param name="bgr">Photo, 8-bit.</param>
    /// <param name="codes">Mask codes of the photo's size: 1 sound, 2 speck.</param>
    /// <returns>Null when there is too little sound tissue.</returns>
    public static LeafLook? Of(Mat bgr, Mat codes)
    {
        using Mat lab = LabPicture.Of(bgr);
        using Mat sound = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Sound), Scalar.All((int)MaskCode.Sound), sound);
        double area = Cv2.CountNonZero(codes);
        if (Cv2.CountNonZero(sound) < 2000)
        {
            return null;
        }

        Dictionary<string, double> values = [];
        Mat[] parts = Cv2.Split(lab);
        using Mat l = parts[0];
        using Mat a = parts[1];
        using Mat b = parts[2];
        values["lightness"] = MatFigures.Median(l, sound);
        values["redness"] = MatFigures.Median(a, sound);
        values["yellowness"] = MatFigures.Median(b, sound);
        using Mat inner = new();
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(7, 7));
        Cv2.Erode(sound, inner, kernel);
        values["noise"] = Noise(l, inner);
        Texture(l, sound, area, values);
        Specks(codes, l, a, b, sound, values);
        return new LeafLook { Values = values };
    }

    private static void Texture(Mat l, Mat sound, double area, Dictionary<string, double> values)
    {
        double scale = CommonSidePx / Math.Sqrt(area);
        using Mat small = new();
        using Mat mask = new();
        Cv2.Resize(l, small, default, scale, scale, scale < 1 ? InterpolationFlags.Area : InterpolationFlags.Cubic);
        Cv2.Resize(sound, mask, small.Size(), 0, 0, InterpolationFlags.Area);
        Cv2.Threshold(mask, mask, 250, 255, ThresholdTypes.Binary);
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(5, 5));
        Cv2.Erode(mask, mask, kernel);
        using Mat two = Smooth(small, mask, 1);
        using Mat slow = Smooth(small, mask, 8);
        using Mat band = new();
        Cv2.Subtract(two, slow, band);
        using Mat fine = new();
        Cv2.Subtract(small, two, fine);
        values["spread"] = MatFigures.Spread(small, mask);
        values["texture"] = MatFigures.Spread(band, mask);
        values["fine"] = MatFigures.Spread(fine, mask);
        using Mat step = new();
        Cv2.Sobel(small, step, MatType.CV_32FC1, 1, 0, 1, 0.5);
        using Mat size = Cv2.Abs(step).ToMat();
        values["sharpness"] = MatFigures.Quantile(size, mask, 0.99) / Math.Max(0.2, values["texture"]);
    }

    // Blur within the mask only: the background must not leak in.
    private static Mat Smooth(Mat picture, Mat mask, double sigma)
    {
        using Mat weight = new();
        mask.ConvertTo(weight, MatType.CV_32FC1, 1 / 255.0);
        Mat product = new();
        Cv2.Multiply(picture, weight, product);
        Cv2.GaussianBlur(product, product, default, sigma);
        Cv2.GaussianBlur(weight, weight, default, sigma);
        Cv2.Max(weight, 1e-3, weight);
        Cv2.Divide(product, weight, product);
        return product;
    }

    // Diagonal second difference of two by two pixels, as in Donoho and Johnstone 1994 (Biometrika 81:425-455): its median
    // absolute value over 0.6745 is the spread of white noise. Camera noise is not white, so this is a yardstick, not a truth.
    private static double Noise(Mat l, Mat inner)
    {
        List<float> values = [];
        int rows = l.Rows - 1;
        for (int y = 0; y < rows; y += 2)
        {
            Span<float> top = Pixels.Floats(l, y);
            Span<float> below = Pixels.Floats(l, y + 1);
            Span<byte> inside = Pixels.Bytes(inner, y);
            for (int x = 0; x + 1 < top.Length; x += 2)
            {
                if (inside[x] > 0)
                {
                    values.Add(Math.Abs(top[x] - top[x + 1] - below[x] + below[x + 1]) / 2);
                }
            }
        }

        values.Sort();
        return values.Count == 0 ? 0 : values[values.Count / 2] / 0.6745;
    }

    private static void Specks(Mat codes, Mat l, Mat a, Mat b, Mat sound, Dictionary<string, double> values)
    {
        using Mat specks = new();
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Speck), Scalar.All((int)MaskCode.Speck), specks);
        if (Cv2.CountNonZero(specks) < 40)
        {
            return;
        }

        using Mat ring = new();
        using Mat kernel = Cv2.GetStructuringElement(MorphShapes.Ellipse, new Size(13, 13));
        Cv2.Dilate(specks, ring, kernel);
        Cv2.BitwiseAnd(ring, sound, ring);
        if (Cv2.CountNonZero(ring) < 40)
        {
            return;
        }

        values["speckLightness"] = MatFigures.Median(l, specks) - MatFigures.Median(l, ring);
        values["speckRedness"] = MatFigures.Median(a, specks) - MatFigures.Median(a, ring);
        values["speckYellowness"] = MatFigures.Median(b, specks) - MatFigures.Median(b, ring);
    }
}
