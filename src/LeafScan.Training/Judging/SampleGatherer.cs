using LeafScan.Training.Bench;

namespace LeafScan.Training.Judging;

/// <summary>Reads the samples of all folders, or takes them from the file that an earlier run kept.</summary>
internal static class SampleGatherer
{
    /// <summary>All samples, in the order of folders and names.</summary>
    /// <param name="folders">Folders of photos with truth.</param>
    /// <param name="most">At most so many of each folder.</param>
    /// <param name="keep">File to keep samples in, or null.</param>
    /// <param name="reader">Reads one photo.</param>
    /// <param name="say">Receives progress.</param>
    /// <param name="cancel">Stops between photos.</param>
    public static List<CandidateSample> Gather(string[] folders, int most, string? keep, SampleReader reader, Action<string> say, CancellationToken cancel)
    {
        if (keep is not null && File.Exists(keep) && SampleFile.Read(keep) is { } kept)
        {
            say($"Took the candidates of {kept.Count} photos from {keep}.");
            return kept;
        }

        List<CandidateSample> samples = [];
        foreach (string folder in folders)
        {
            TruthCase[] cases = [.. TruthFolder.List(folder).Where(c => c.Kind == TruthKind.Full)];
            int take = Math.Min(most, cases.Length);
            for (int i = 0; i < take; i++)
            {
                cancel.ThrowIfCancellationRequested();
                TruthCase one = cases[(int)((long)i * cases.Length / take)];
                if (reader.Read(one, cancel) is { } sample)
                {
                    samples.Add(sample);
                }
                else
                {
                    say($"{one.PhotoPath} cannot be read and was left out.");
                }
            }

            say($"Read {take} photos of {folder}.");
        }

        if (keep is not null)
        {
            SampleFile.Write(keep, samples);
        }

        return samples;
    }
}
