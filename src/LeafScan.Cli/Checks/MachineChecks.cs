using System.Globalization;
using System.Runtime.InteropServices;
using ImageMagick;
using LeafScan.Leaves;
using LeafScan.Leaves.Learned;
using OpenCvSharp;

namespace LeafScan.Cli.Checks;

/// <summary>Looks at what the machine must have: the libraries really do something, their presence alone proves nothing.</summary>
internal static class MachineChecks
{
    private const string Packages = "On Debian and Ubuntu: sudo apt-get install libgtk-3-0 libdrm2 libatomic1 (newer ones name the first libgtk-3-0t64).";
    private const string FontFile = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";

    /// <summary>All checks.</summary>
    public static IEnumerable<Check> All()
    {
        yield return new Check("program", CheckState.Good, $"leafscan {ToolVersion.Current}, {RuntimeInformation.FrameworkDescription}, {RuntimeInformation.RuntimeIdentifier}");
        yield return Check.Try("measuring", Packages, Measuring);
        yield return Check.Try("photo reading", "The program's folder is not whole: build or install it again.", PhotoReading);
        yield return Networks();
        yield return Check.Try("photo kinds", "The program's folder is not whole: build or install it again.", PhotoKinds);
        yield return File.Exists(FontFile)
            ? new Check("fonts", CheckState.Good, "DejaVu Sans is there.")
            : new Check("fonts", CheckState.Note, "DejaVu Sans is missing; whatever is printed needs it.", "On Debian and Ubuntu: sudo apt-get install fonts-dejavu-core");
    }

    private static Check Measuring()
    {
        using Mat grey = new(8, 8, MatType.CV_8UC1, new Scalar(40));
        double mean = Cv2.Mean(grey).Val0;
        return mean == 40
            ? new Check("measuring", CheckState.Good, $"OpenCV {Cv2.GetVersionString()} works.")
            : new Check("measuring", CheckState.Wrong, string.Create(CultureInfo.InvariantCulture, $"OpenCV gives {mean} where 40 is right."), Packages);
    }

    private static Check PhotoReading()
    {
        List<string> missing = [];
        foreach (MagickFormat format in new[] { MagickFormat.Jpeg, MagickFormat.Png, MagickFormat.Heic })
        {
            if (MagickFormatInfo.Create(format)?.SupportsReading != true)
            {
                missing.Add(format.ToString().ToUpperInvariant());
            }
        }

        return missing.Count == 0
            ? new Check("photo reading", CheckState.Good, "JPEG, PNG and HEIC can be read.")
            : new Check("photo reading", CheckState.Wrong, $"Cannot read {string.Join(", ", missing)}.", "The program's folder is not whole: build or install it again.");
    }

    private static Check PhotoKinds() => LearnedModels.TellsKinds
        ? new Check("photo kinds", CheckState.Good, "The model that tells leaf, twig, plant, tap sheet and tag apart works.")
        : new Check("photo kinds", CheckState.Note, "The photo-kind model is missing or cannot be used; every photo counts as a leaf.", $"It belongs into {LearnedModels.Folder}.");

    private static Check Networks() => LearnedModels.Missing is { Count: > 0 } missing
        ? new Check("networks", CheckState.Note, $"Missing: {string.Join(", ", missing)}. What they do is left to colour alone, less accurately.", $"They belong into {LearnedModels.Folder}.")
        : new Check("networks", CheckState.Good, $"Version {LearnedModels.VersionInUse} is there.");
}
