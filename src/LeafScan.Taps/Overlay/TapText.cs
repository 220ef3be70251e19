using OpenCvSharp;

namespace LeafScan.Taps.Overlay;

/// <summary>Plain words in a picture: OpenCV's own stroke letters, which are ASCII only and need no font file.</summary>
internal static class TapText
{
    private const HersheyFonts Letters = HersheyFonts.HersheySimplex;
    private static readonly Scalar Ink = new(20, 20, 20);

    /// <summary>Height of a line with the space below it.</summary>
    public static int Line(int stroke) => 30 * stroke;

    /// <summary>Width of the words.</summary>
    public static int Width(string words, int stroke) => Cv2.GetTextSize(words, Letters, 0.55 * stroke, stroke, out _).Width;

    /// <summary>Writes words with their lower left corner at a place.</summary>
    public static void Write(Mat picture, string words, Point place, int stroke) =>
        Cv2.PutText(picture, words, place, Letters, 0.55 * stroke, Ink, stroke, LineTypes.AntiAlias);

    /// <summary>Breaks a sentence into lines of at most this width.</summary>
    public static List<string> Fold(string sentence, int width, int stroke)
    {
        List<string> lines = [string.Empty];
        foreach (string word in sentence.Split(' '))
        {
            string longer = lines[^1].Length == 0 ? word : $"{lines[^1]} {word}";
            if (lines[^1].Length > 0 && Width(longer, stroke) > width)
            {
                lines.Add(word);
            }
            else
            {
                lines[^1] = longer;
            }
        }

        return lines;
    }
}
