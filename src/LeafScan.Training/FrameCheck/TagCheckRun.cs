using System.Globalization;
using LeafScan.Frame;
using LeafScan.Frame.Sheets;
using LeafScan.Notes.Paper;
using LeafScan.Notes.Tags;
using OpenCvSharp;

namespace LeafScan.Training.FrameCheck;

/// <summary>How many printed tags are read, by pixels to a square of their code: by LeafScan (ZXing.Net) and by OpenCV's own reader.</summary>
/// <param name="seed">First seed.</param>
/// <param name="pictures">Pictures of each code at each size.</param>
/// <param name="tell">Takes a line of progress.</param>
public sealed class TagCheckRun(int seed, int pictures, Action<string> tell)
{
    private static readonly double[] Sizes = [1.5, 2, 2.5, 3, 4, 6];

    /// <summary>From the largest squares a tag can have to the smallest.</summary>
    private static readonly string[] Codes = ["B03", "ROW 3/7 EAST", "row 3/7, east wall", "a lower case code of fifty letters and no more at"];

    /// <summary>The table as Markdown.</summary>
    public string Table()
    {
        List<string> lines =
        [
            "| pixels to a square | squares a side | square, mm | flat and sharp: LeafScan | flat and sharp: OpenCV | like a phone photo: LeafScan | like a phone photo: OpenCV | wrong text |",
            "| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |",
        ];
        foreach (double px in Sizes)
        {
            for (int i = 0; i < Codes.Length; i++)
            {
                lines.Add(Line(px, Codes[i], seed + (i * 1000)));
            }

            tell(string.Create(CultureInfo.InvariantCulture, $"{px} pixels to a square"));
        }

        return string.Join('\n', lines) + "\n";
    }

    private string Line(double px, string code, int from)
    {
        int[] read = new int[4];
        int wrong = 0;
        for (int i = 0; i < pictures; i++)
        {
            foreach (bool asPhoto in (bool[])[false, true])
            {
                using Mat picture = TagScene.Draw(code, px, asPhoto, new Random(from + i));
                (bool ours, bool theirs, int other) = Read(picture, code);
                read[asPhoto ? 2 : 0] += ours ? 1 : 0;
                read[asPhoto ? 3 : 1] += theirs ? 1 : 0;
                wrong += other;
            }
        }

        double mm = TagPages.Of([new PlantTag(code)], new TagLayout(PaperSize.A4))[0].Shapes.OfType<FilledBoxes>().Single().Areas.Min(a => a.HeightMm);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"| {px} | {TagLayout.CodeSideMm / mm:0} | {mm:0.00} | {read[0]} of {pictures} | {read[1]} of {pictures} | {read[2]} of {pictures} | {read[3]} of {pictures} | {wrong} |");
    }

    private static (bool Ours, bool Theirs, int Wrong) Read(Mat picture, string code)
    {
        string[] ours = [.. FrameReader.Read(picture, new FrameOptions()).Tags.Select(tag => tag.Text.PlantCode)];
        using Mat grey = new();
        Cv2.CvtColor(picture, grey, ColorConversionCodes.BGR2GRAY);
        using QRCodeDetector detector = new();
        string theirs = detector.DetectAndDecode(grey, out _);
        bool right = theirs.EndsWith("/" + code, StringComparison.Ordinal);
        return (ours.Contains(code, StringComparer.Ordinal), right, ours.Count(read => read != code) + (theirs.Length > 0 && !right ? 1 : 0));
    }
}
