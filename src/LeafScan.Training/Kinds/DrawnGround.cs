using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>Grounds as a camera would see them, and the marks that cameras leave.</summary>
internal static class DrawnGround
{
    /// <summary>Paints a ground.</summary>
    public static Mat Paint(BackgroundKind kind, Size size, Random random)
    {
        using Mat light = BackgroundPainter.Paint(
            size, new BackgroundSpec { Seed = random.Next(), Kind = kind, BlurPx = random.Between(0, 3) }, size.Width / random.Between(60, 400));
        RoomLight.Shade(light, random.Between(0.03, 0.4), new Lighting { AzimuthDegrees = random.Between(0, 360), HeightDegrees = random.Between(30, 65), Hardness = random.Between(0.2, 0.8) });
        return PhoneCamera.Expose(light, new CameraSpec { Seed = random.Next(), Exposure = random.LogNormal(1, 0.2), Noise = 0.008 });
    }

    /// <summary>A surface of one colour with a slow change of light, grain and stains.</summary>
    public static Mat Plain(Size size, Scalar bgr, Random random)
    {
        Mat picture = new(size, MatType.CV_32FC3, bgr);
        using Mat stain = SmoothNoise.Make(size, size.Width * random.Between(0.2, 0.8), random, 3);
        using Mat grain = SmoothNoise.Make(size, 2, random, 2, 0.8);
        using Mat both = new();
        Cv2.AddWeighted(stain, random.Between(0.01, 0.12), grain, random.Between(0.005, 0.06), 1, both);
        using Mat three = new();
        Cv2.CvtColor(both, three, ColorConversionCodes.GRAY2BGR);
        Cv2.Multiply(picture, three, picture);
        Mat bytes = new();
        picture.ConvertTo(bytes, MatType.CV_8UC3);
        picture.Dispose();
        return bytes;
    }

    /// <summary>Lays a cut-out over a picture where the mask says so, softening its margin.</summary>
    public static void Lay(Mat picture, Mat cutout, Mat mask)
    {
        using Mat soft = new();
        Cv2.GaussianBlur(mask, soft, default, 0.8);
        using Mat share = new();
        soft.ConvertTo(share, MatType.CV_32F, 1 / 255.0);
        using Mat rest = new();
        share.ConvertTo(rest, -1, -1, 1);
        using Mat top = new();
        using Mat under = new();
        cutout.ConvertTo(top, MatType.CV_32FC3);
        picture.ConvertTo(under, MatType.CV_32FC3);
        Cv2.BlendLinear(top, under, share, rest, top);
        top.ConvertTo(picture, MatType.CV_8UC3);
    }
}
