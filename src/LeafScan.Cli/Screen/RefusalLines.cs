using LeafScan.Photos;

namespace LeafScan.Cli.Screen;

/// <summary>Says which files were refused or passed over, one line each, on standard error.</summary>
internal static class RefusalLines
{
    /// <summary>One line a file: name, reason, advice.</summary>
    public static void Write(Surroundings world, IEnumerable<PhotoRefusal> refusals)
    {
        foreach (PhotoRefusal refusal in refusals)
        {
            world.Err.WriteLine(Words.OneLine($"Refused {refusal.FileName}: {refusal.Reason} {refusal.Advice}"));
        }
    }

    /// <summary>One line a reason, with the number of files and the first names.</summary>
    public static void Write(Surroundings world, IEnumerable<SkippedFile> skipped)
    {
        foreach (IGrouping<string, SkippedFile> same in skipped.GroupBy(file => file.Why))
        {
            string names = string.Join(", ", same.Take(3).Select(file => Path.GetFileName(file.Path)));
            string more = same.Count() > 3 ? ", ..." : string.Empty;
            world.Err.WriteLine(Words.OneLine($"Passed over {Words.Count(same.Count(), "file")} ({same.Key}): {names}{more}"));
        }
    }
}
