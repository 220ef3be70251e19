using System.Globalization;
using System.Text.RegularExpressions;
using LeafScan.Leaves.Kinds;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>Real photos of a known kind from a folder.</summary>
internal static partial class RealPhotos
{
    private const int LongSidePx = 640;

    /// <summary>Splits FOLDER:KIND; a folder alone holds leaves.</summary>
    /// <exception cref="ArgumentException">There is no such kind.</exception>
    public static (string Folder, PhotoKind Kind) Parse(string argument)
    {
        int colon = argument.LastIndexOf(':');
        if (colon < 0)
        {
            return (argument, PhotoKind.Leaf);
        }

        string word = argument[(colon + 1)..];
        return PhotoKinds.Named(word) is { } kind
            ? (argument[..colon], kind)
            : throw new ArgumentException($"\"{word}\" is no kind of photo; there are {string.Join(", ", PhotoKinds.All.Select(k => k.Name()))}.");
    }

    /// <summary>Reads a folder's photos, shrunk; masks and other companions (NAME.mask.png, NAME.truth.png and so on) are passed over.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="kind">What all its photos show.</param>
    /// <param name="wanted">Whether a photo of this number is wanted.</param>
    public static IEnumerable<KindExample> Read(string folder, PhotoKind kind, Func<int?, bool> wanted)
    {
        foreach (string file in Directory.EnumerateFiles(folder).Order(NaturalOrder.Comparer).Where(IsPhoto))
        {
            if (!wanted(NumberOf(file)))
            {
                continue;
            }

            using PhotoOutcome outcome = PhotoReader.Open(file, new PhotoLimits());
            if (outcome.Photo is { } photo)
            {
                yield return new KindExample(kind, Path.GetFileName(folder.TrimEnd('/')), Path.GetFileNameWithoutExtension(file), Shrink(photo.Pixels));
            }
        }
    }

    /// <summary>The last number in a file's name: even ones are kept for checking. Null when there is none.</summary>
    public static int? NumberOf(string file)
    {
        Match match = LastNumber().Match(Path.GetFileNameWithoutExtension(file));
        return match.Success && int.TryParse(match.Value, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : null;
    }

    private static bool IsPhoto(string file) =>
        Path.GetExtension(file).ToLowerInvariant() is ".jpg" or ".jpeg" or ".png"
        && !(Path.GetFileNameWithoutExtension(file).Contains('.', StringComparison.Ordinal));

    private static Mat Shrink(Mat bgr)
    {
        double factor = Math.Min(1.0, LongSidePx / (double)Math.Max(bgr.Cols, bgr.Rows));
        Mat small = new();
        Cv2.Resize(bgr, small, default, factor, factor, InterpolationFlags.Area);
        return small;
    }

    [GeneratedRegex("[0-9]+(?=[^0-9]*$)")]
    private static partial Regex LastNumber();
}
