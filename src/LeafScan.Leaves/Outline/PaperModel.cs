using LeafScan.Leaves.Baseline;
using OpenCvSharp;

namespace LeafScan.Leaves.Outline;

/// <summary>
/// The plain sheet behind the leaves: its colour ratios and its lit level as smooth surfaces, taken from the border of the
/// frame inwards. Holds how far each pixel lies from the sheet. Owns its planes.
/// </summary>
internal sealed class PaperModel : IDisposable
{
    /// <summary>Width of a cell of the border's colour histogram, ln units.</summary>
    private const double Cell = 0.05;

    private PaperModel(Mat redGreen, Mat blueGreen, Mat level, double borderShare, double spread)
    {
        RedGreenOff = redGreen;
        BlueGreenOff = blueGreen;
        LevelOff = level;
        BorderShare = borderShare;
        Spread = spread;
    }

    /// <summary>ln(R/G) minus the sheet's at that place.</summary>
    public Mat RedGreenOff { get; }

    /// <summary>ln(B/G) minus the sheet's at that place.</summary>
    public Mat BlueGreenOff { get; }

    /// <summary>ln level minus the lit sheet's at that place; about 0 on lit sheet, below 0 in shadow.</summary>
    public Mat LevelOff { get; }

    /// <summary>Share of the frame's border that has the sheet's colour, 0..1.</summary>
    public double BorderShare { get; }

    /// <summary>Typical colour distance of sheet pixels from the surface, ln units.</summary>
    public double Spread { get; }

    /// <summary>The sheet, or null when the border of the frame is no plain, nearly neutral surface.</summary>
    /// <param name="planes">Small copy.</param>
    public static PaperModel? Find(ColourPlanes planes)
    {
        Size size = planes.Size;
        using Mat border = Border(size);
        (double rg, double bg) = Mode(planes, border);

        // Neutral paper is 0, 0; lamp light, shade and beige or bluish paper shift it this far, soil and plants further.
        if (rg is < -0.28 or > 0.42 || bg is < -0.7 or > 0.7)
        {
            return null;
        }

        using Mat near = Near(planes.RedToGreen, planes.BlueToGreen, rg, bg, 0.13);
        using Mat nearBorder = new();
        Cv2.BitwiseAnd(near, border, nearBorder);
        double share = Cv2.CountNonZero(nearBorder) / (double)Math.Max(1, Cv2.CountNonZero(border));
        if (share < 0.5)
        {
            return null;
        }

        Mat inliers = nearBorder.Clone();
        Mat rgOff = SmoothSurface.Fit(planes.RedToGreen, inliers).Below(planes.RedToGreen);
        Mat bgOff = SmoothSurface.Fit(planes.BlueToGreen, inliers).Below(planes.BlueToGreen);
        for (int round = 0; round < 3; round++)
        {
            using Mat close = Near(rgOff, bgOff, 0, 0, round == 0 ? 0.1 : 0.08);
            close.CopyTo(inliers);
            rgOff.Dispose();
            bgOff.Dispose();
            rgOff = SmoothSurface.Fit(planes.RedToGreen, inliers).Below(planes.RedToGreen);
            bgOff = SmoothSurface.Fit(planes.BlueToGreen, inliers).Below(planes.BlueToGreen);
        }

        using Mat last = Near(rgOff, bgOff, 0, 0, 0.1);
        double spread = MeanDistance(rgOff, bgOff, last);
        Mat levelOff = LitLevel(planes.Level, last);
        inliers.Dispose();
        return new PaperModel(rgOff, bgOff, levelOff, share, spread);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        RedGreenOff.Dispose();
        BlueGreenOff.Dispose();
        LevelOff.Dispose();
    }

    private static Mat Border(Size size)
    {
        Mat border = new(size, MatType.CV_8UC1, Scalar.All(255));
        int w = Math.Max(2, Math.Min(size.Width, size.Height) / 20);
        Cv2.Rectangle(border, new Rect(w, w, Math.Max(1, size.Width - (2 * w)), Math.Max(1, size.Height - (2 * w))), Scalar.All(0), -1);
        return border;
    }

    // The most frequent colour of the border: a leaf that runs out of the frame must not shift it.
    private static (double RedGreen, double BlueGreen) Mode(ColourPlanes planes, Mat border)
    {
        const int Cells = 80;
        using Mat counts = new(Cells, Cells, MatType.CV_32FC1, Scalar.All(0));
        int rows = border.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<byte> mark = border.AsRow<byte>(y);
            ReadOnlySpan<float> rg = planes.RedToGreen.AsRow<float>(y);
            ReadOnlySpan<float> bg = planes.BlueToGreen.AsRow<float>(y);
            for (int x = 0; x < mark.Length; x++)
            {
                if (mark[x] != 0)
                {
                    int i = Math.Clamp((int)((rg[x] / Cell) + (Cells / 2.0)), 0, Cells - 1);
                    int j = Math.Clamp((int)((bg[x] / Cell) + (Cells / 2.0)), 0, Cells - 1);
                    counts.AsRow<float>(i)[j]++;
                }
            }
        }

        Cv2.GaussianBlur(counts, counts, new Size(5, 5), 1, 1, BorderTypes.Constant);
        Cv2.MinMaxLoc(counts, out _, out double _, out _, out Point top);
        return ((top.Y + 0.5 - (Cells / 2.0)) * Cell, (top.X + 0.5 - (Cells / 2.0)) * Cell);
    }

    private static Mat Near(Mat redGreen, Mat blueGreen, double rg0, double bg0, double within)
    {
        Mat near = new(redGreen.Size(), MatType.CV_8UC1);
        float limit = (float)(within * within);
        int rows = near.Rows;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> rg = redGreen.AsRow<float>(y);
            ReadOnlySpan<float> bg = blueGreen.AsRow<float>(y);
            Span<byte> to = near.AsRow<byte>(y);
            for (int x = 0; x < to.Length; x++)
            {
                float dr = rg[x] - (float)rg0;
                float db = bg[x] - (float)bg0;
                to[x] = (dr * dr) + (db * db * 0.5f) < limit ? (byte)255 : (byte)0;
            }
        }

        return near;
    }

    private static double MeanDistance(Mat redGreen, Mat blueGreen, Mat marked)
    {
        using Mat distance = new();
        Cv2.Magnitude(redGreen, blueGreen, distance);
        return Cv2.CountNonZero(marked) == 0 ? 0 : Cv2.Mean(distance, marked).Val0;
    }

    // Shadow lies below the lit sheet, so each round drops what is darker and keeps what is brighter.
    private static Mat LitLevel(Mat level, Mat paper)
    {
        using Mat lit = paper.Clone();
        Mat off = SmoothSurface.Fit(level, lit).Below(level);
        double[] keepAbove = [-0.45, -0.3, -0.25];
        foreach (double lowest in keepAbove)
        {
            Cv2.InRange(off, new Scalar(lowest), new Scalar(1), lit);
            Cv2.BitwiseAnd(lit, paper, lit);
            off.Dispose();
            off = SmoothSurface.Fit(level, lit).Below(level);
        }

        return off;
    }
}
