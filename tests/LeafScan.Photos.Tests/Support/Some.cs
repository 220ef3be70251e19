using ImageMagick;

namespace LeafScan.Photos.Tests.Support;

/// <summary>Arbitrary valid pictures.</summary>
internal static class Some
{
    /// <summary>160 x 100: red top left, green top right, blue bottom left, white bottom right.</summary>
    public static MagickImage Corners()
    {
        MagickImage image = new(MagickColors.White, 160, 100);
        Fill(image, MagickColors.Red, 0, 0);
        Fill(image, new MagickColor("#00ff00"), 80, 0);
        Fill(image, MagickColors.Blue, 0, 50);
        return image;
    }

    /// <summary>A picture with enough detail that its JPEG is some hundred kilobytes.</summary>
    public static MagickImage Busy(uint width = 800, uint height = 600)
    {
        MagickImage image = new(new MagickColor("#507846"), width, height);
        image.SetAttenuate(1.2);
        image.AddNoise(NoiseType.Gaussian);
        return image;
    }

    private static void Fill(MagickImage image, MagickColor colour, int x, int y)
    {
        using MagickImage block = new(colour, 80, 50);
        image.Composite(block, x, y, CompositeOperator.Copy);
    }
}
