using OpenCvSharp;

namespace LeafScan.Leaves.Overlay;

/// <summary>Plain text in a picture. OpenCV's own stroke letters need no font file; they are ASCII only.</summary>
internal static class OverlayText
{
    private const HersheyFonts Font = HersheyFonts.HersheySimplex;

    /// <summary>Height of a line of text with the space below it, in pixels.</summary>
    public static int LineHeight(int stroke) => 30 * stroke;

    /// <summary>Width of the text in pixels.</summary>
    public static int Width(string text, int stroke) =>
        Cv2.GetTextSize(text, Font, LetterScale(stroke), stroke, out _).Width;

    /// <summary>Writes black text with its lower left corner at a place.</summary>
    public static void Write(Mat picture, string text, Point place, int stroke) =>
        Cv2.PutText(picture, text, place, Font, LetterScale(stroke), new Scalar(20, 20, 20), stroke, LineTypes.AntiAlias);

    /// <summary>Writes white text with a black halo, for use on a photo.</summary>
    public static void WriteWithHalo(Mat picture, string text, Point place, int stroke)
    {
        Cv2.PutText(picture, text, place, Font, LetterScale(stroke), Scalar.Black, stroke * 4, LineTypes.AntiAlias);
        Cv2.PutText(picture, text, place, Font, LetterScale(stroke), Scalar.White, stroke, LineTypes.AntiAlias);
    }

    /// <summary>Breaks a sentence into lines that fit a width.</summary>
    public static IEnumerable<string> Wrap(string sentence, int width, int stroke)
    {
        string line = string.Empty;
        foreach (string word in sentence.Split(' '))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && Width(longer, stroke) > width)
            {
                yield return line;
                longer = word;
            }

            line = longer;
        }

        yield return line;
    }

    private static double LetterScale(int stroke) => 0.55 * stroke;
}
