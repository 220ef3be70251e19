using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>What goes wrong when people photograph a sheet.</summary>
public enum TapTrouble
{
    /// <summary>Nothing beyond what the level brings.</summary>
    None,

    /// <summary>Both photos out of focus.</summary>
    Blurred,

    /// <summary>The hand moved while the second photo was taken.</summary>
    Shaken,

    /// <summary>Taken from the side.</summary>
    Tilted,

    /// <summary>A sheet that was folded and lies like a roof.</summary>
    Folded,

    /// <summary>A patch of sun with hard edges that moves a little between the photos.</summary>
    Sunlit,

    /// <summary>The second photo shows half of the sheet.</summary>
    HalfOut,
}

/// <summary>Puts troubles into a description and into light.</summary>
internal static class TapTroubles
{
    /// <summary>The description with its trouble.</summary>
    public static TapSpec Put(TapSpec spec, TapTrouble trouble, Random random)
    {
        TapView first = spec.First;
        TapView second = spec.Second;
        switch (trouble)
        {
            case TapTrouble.Blurred:
                return spec with { First = first with { Camera = first.Camera with { BlurPx = random.Between(2.5, 4) } }, Second = second with { Camera = second.Camera with { BlurPx = random.Between(2.5, 4) } } };
            case TapTrouble.Shaken:
                return spec with { Second = second with { ShakePx = random.Between(4, 9), ShakeDegrees = random.Between(0, 180) } };
            case TapTrouble.Tilted:
                double lean = (random.Hit(0.5) ? 1 : -1) * random.Between(0.12, 0.2);
                return spec with { First = first with { LeanY = lean }, Second = second with { LeanY = lean + (0.02 * random.Normal()) } };
            case TapTrouble.Folded:
                return spec with { Fold = random.Between(0.08, 0.15) };
            case TapTrouble.Sunlit:
                double depth = random.Between(0.3, 0.6);
                double x = random.Between(0.3, 0.7);
                double y = random.Between(0.3, 0.7);
                return spec with
                {
                    First = first with { SunPatch = depth, SunX = x, SunY = y },
                    Second = second with { SunPatch = depth, SunX = x + (0.02 * random.Normal()), SunY = y + (0.02 * random.Normal()) },
                };
            case TapTrouble.HalfOut:
                return spec with { Second = second with { ShiftXPx = (random.Hit(0.5) ? 1 : -1) * random.Between(0.4, 0.6) * spec.WidthPx } };
            default:
                return spec;
        }
    }

    /// <summary>Darkens all but the patch of sun.</summary>
    public static void Sun(Mat light, TapView view)
    {
        if (view.SunPatch <= 0)
        {
            return;
        }

        using Mat shade = new(light.Size(), MatType.CV_32FC1, Scalar.All(1 - view.SunPatch));
        RotatedRect patch = new(
            new Point2f((float)(view.SunX * light.Cols), (float)(view.SunY * light.Rows)), new Size2f(0.45f * light.Cols, 0.5f * light.Rows), 20);
        Cv2.FillConvexPoly(shade, patch.Points().Select(p => new Point(p.X, p.Y)), Scalar.All(1));

        // The sun is half a degree wide: a leaf's edge a metre away gives a rim of some millimetres.
        Cv2.GaussianBlur(shade, shade, default, 3);
        using Mat three = new();
        Cv2.Merge([shade, shade, shade], three);
        Cv2.Multiply(light, three, light);
    }

    /// <summary>Smears along the way the hand moved.</summary>
    public static void Shake(Mat light, TapView view)
    {
        if (view.ShakePx < 0.5)
        {
            return;
        }

        int reach = (int)Math.Ceiling(view.ShakePx / 2) + 1;
        using Mat kernel = new((2 * reach) + 1, (2 * reach) + 1, MatType.CV_32FC1, Scalar.All(0));
        double cos = Math.Cos(view.ShakeDegrees * Math.PI / 180) * view.ShakePx / 2;
        double sin = Math.Sin(view.ShakeDegrees * Math.PI / 180) * view.ShakePx / 2;
        for (int i = -50; i <= 50; i++)
        {
            Pixels.Floats(kernel, reach + (int)Math.Round(sin * i / 50))[reach + (int)Math.Round(cos * i / 50)] += 1 / 101f;
        }

        Cv2.Filter2D(light, light, -1, kernel);
    }
}
