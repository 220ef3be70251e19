namespace LeafScan.Photos.Pictures;

/// <summary>Which pixels of a row lie in each pixel of a shorter one, and with what share of it: as OpenCV's area averaging has it.</summary>
internal sealed class AreaCells
{
    // What is less than this of a pixel is left out.
    private const double Nothing = 1e-3;

    /// <summary>Works the cells out.</summary>
    /// <param name="length">Pixels of the long row.</param>
    /// <param name="count">Pixels of the short row.</param>
    /// <param name="scale">Long over short, 1 or more.</param>
    public AreaCells(int length, int count, double scale)
    {
        List<int> source = [];
        List<float> weight = [];
        First = new int[count + 1];
        for (int cell = 0; cell < count; cell++)
        {
            double left = cell * scale;
            double right = left + scale;
            double width = Math.Min(scale, length - left);
            int end = Math.Min((int)Math.Floor(right), length - 1);
            int begin = Math.Min((int)Math.Ceiling(left), end);
            if (begin - left > Nothing)
            {
                source.Add(begin - 1);
                weight.Add((float)((begin - left) / width));
            }

            for (int at = begin; at < end; at++)
            {
                source.Add(at);
                weight.Add((float)(1 / width));
            }

            if (right - end > Nothing)
            {
                source.Add(end);
                weight.Add((float)(Math.Min(Math.Min(right - end, 1), width) / width));
            }

            First[cell + 1] = source.Count;
        }

        (Source, Weight) = ([.. source], [.. weight]);
    }

    /// <summary>Pixels of the short row.</summary>
    public int Count => First.Length - 1;

    /// <summary>Where each cell's pixels begin in the two lists below, and where the last one's end.</summary>
    public int[] First { get; }

    /// <summary>Pixels of the long row; within a cell one follows the other.</summary>
    public int[] Source { get; }

    /// <summary>Their shares, 0..1.</summary>
    public float[] Weight { get; }
}
