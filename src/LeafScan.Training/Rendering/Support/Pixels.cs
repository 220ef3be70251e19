using OpenCvSharp;

namespace LeafScan.Training.Rendering.Support;

/// <summary>Rows of a picture as spans, so that pixel loops run over plain memory.</summary>
internal static unsafe class Pixels
{
    /// <summary>One row of a 32-bit float picture, channels side by side.</summary>
    public static Span<float> Floats(Mat picture, int y) => new((void*)picture.Ptr(y), picture.Cols * picture.Channels());

    /// <summary>One row of an 8-bit picture, channels side by side.</summary>
    public static Span<byte> Bytes(Mat picture, int y) => new((void*)picture.Ptr(y), picture.Cols * picture.Channels());

    /// <summary>One row of a 32-bit whole-number picture.</summary>
    public static Span<int> Ints(Mat picture, int y) => new((void*)picture.Ptr(y), picture.Cols * picture.Channels());

    /// <summary>A new float picture of one channel, all zero.</summary>
    public static Mat NewFloat(Size size) => new(size, MatType.CV_32FC1, Scalar.All(0));

    /// <summary>A new 8-bit mask, all zero.</summary>
    public static Mat NewMask(Size size) => new(size, MatType.CV_8UC1, Scalar.All(0));
}
