using OpenCvSharp;

namespace LeafScan.Leaves.Kinds;

/// <summary>The Lab planes of the small picture and the zones of the frame in which figures are taken. Owns its pictures.</summary>
internal sealed class KindZones : IDisposable
{
    /// <summary>Takes the planes apart.</summary>
    /// <param name="lab">Float L*, a*, b*.</param>
    public KindZones(Mat lab)
    {
        Lab = lab;
        Mat[] planes = Cv2.Split(lab);
        (L, A, B) = (planes[0], planes[1], planes[2]);
        int side = lab.Rows;
        Whole = new Mat(lab.Size(), MatType.CV_8UC1, Scalar.All(255));
        Centre = new Mat(lab.Size(), MatType.CV_8UC1, Scalar.All(0));
        Cv2.Rectangle(Centre, new Rect(side / 4, side / 4, side / 2, side / 2), Scalar.All(255), -1);
        Rim = new Mat(lab.Size(), MatType.CV_8UC1, Scalar.All(255));
        Cv2.Rectangle(Rim, new Rect(side / 9, side / 9, side - (2 * (side / 9)), side - (2 * (side / 9))), Scalar.All(0), -1);
    }

    /// <summary>L*, a*, b* together; belongs to the caller.</summary>
    public Mat Lab { get; }

    /// <summary>Lightness, 0..100.</summary>
    public Mat L { get; }

    /// <summary>a*: green to red.</summary>
    public Mat A { get; }

    /// <summary>b*: blue to yellow.</summary>
    public Mat B { get; }

    /// <summary>The whole picture.</summary>
    public Mat Whole { get; }

    /// <summary>The middle half of width and height.</summary>
    public Mat Centre { get; }

    /// <summary>The outer ninth on each side.</summary>
    public Mat Rim { get; }

    /// <summary>The zones with their names.</summary>
    public IEnumerable<(string Name, Mat Mask)> All => [("whole", Whole), ("centre", Centre), ("rim", Rim)];

    /// <inheritdoc />
    public void Dispose()
    {
        foreach (Mat mat in new[] { L, A, B, Whole, Centre, Rim })
        {
            mat.Dispose();
        }
    }
}
