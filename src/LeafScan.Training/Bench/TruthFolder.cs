using LeafScan.Photos;

namespace LeafScan.Training.Bench;

/// <summary>Finds the photos of a folder that come with truth.</summary>
public static class TruthFolder
{
    private const string BeforeEnding = ".base";

    private static readonly string[] PhotoEndings = [".jpg", ".jpeg", ".png"];

    /// <summary>
    /// Lists them in natural order. Truth lies beside the photo or in the folder "truth" below the listed folder, under the
    /// same path. Of cut-outs only those of healthy leaves count: on scorched ones they drop dead tissue at the margin.
    /// </summary>
    /// <param name="folder">The folder, searched with its sub-folders.</param>
    public static IReadOnlyList<TruthCase> List(string folder)
    {
        string full = Path.GetFullPath(folder);
        string set = Path.GetFileName(full.TrimEnd(Path.DirectorySeparatorChar));
        List<TruthCase> cases = [];
        foreach (string path in Directory.EnumerateFiles(full, "*", SearchOption.AllDirectories).Order(NaturalOrder.Comparer))
        {
            if (PhotoEndings.Contains(Path.GetExtension(path), StringComparer.OrdinalIgnoreCase) && CaseOf(full, set, path) is { } found)
            {
                cases.Add(found);
            }
        }

        return cases;
    }

    private static TruthCase? CaseOf(string folder, string set, string photo)
    {
        if (BeforeOf(set, photo) is { } before)
        {
            return before;
        }

        string name = Path.GetFileNameWithoutExtension(photo);
        string beside = Path.Combine(Path.GetDirectoryName(photo)!, name);
        string below = Path.Combine(folder, "truth", Path.GetRelativePath(folder, beside));
        foreach (string at in (string[])[beside, below])
        {
            if (File.Exists(at + ".truth.json") && File.Exists(at + ".truth.png"))
            {
                return new TruthCase(SetOf(folder, set, photo), photo, TruthKind.Full, at + ".truth.png", at + ".truth.json");
            }
        }

        if (File.Exists(beside + ".mask.png"))
        {
            TruthKind kind = File.Exists(beside + ".votes.png") ? TruthKind.Browned : TruthKind.Outline;
            return new TruthCase(set, photo, kind, beside + ".mask.png", null);
        }

        bool cutOut = File.Exists(beside + ".cutout.jpg") && name.StartsWith("healthy", StringComparison.Ordinal);
        return cutOut ? new TruthCase(set, photo, TruthKind.Outline, beside + ".cutout.jpg", null) : null;
    }

    // A set of its own: clean leaves beside damaged ones would change what the figures of the damaged ones say.
    private static TruthCase? BeforeOf(string set, string photo)
    {
        string name = Path.GetFileNameWithoutExtension(photo);
        if (!name.EndsWith(BeforeEnding, StringComparison.Ordinal))
        {
            return null;
        }

        string truth = Path.Combine(Path.GetDirectoryName(photo)!, name[..^BeforeEnding.Length] + ".truth.png");
        return File.Exists(truth) ? new TruthCase(set + " before painting", photo, TruthKind.Unpainted, truth, null) : null;
    }

    // Photos of one name occur in several folders of the demo: the way to them is part of their set.
    private static string SetOf(string folder, string set, string photo)
    {
        string way = Path.GetRelativePath(folder, Path.GetDirectoryName(photo)!);
        return way == "." ? set : set + "/" + way.Replace(Path.DirectorySeparatorChar, '/');
    }
}
