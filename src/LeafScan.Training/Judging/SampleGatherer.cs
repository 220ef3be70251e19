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
            CandidateSample?[] read = new CandidateSample?[take];

            // Photos are independent: as many at once as there are cores, kept in their order.
            Parallel.For(0, take, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
                read[i] = reader.Read(CaseOf(i), cancel));
            for (int i = 0; i < take; i++)
            {
                if (read[i] is { } sample)
                {
                    samples.Add(sample);
                }
                else
                {
                    say($"{CaseOf(i).PhotoPath} cannot be read and was left out.");
                }
            }

            TruthCase CaseOf(int i) => cases[(int)((long)i * cases.Length / take)];

            say($"Read {take} photos of {folder}.");
        }

        if (keep is not null)
        {
            SampleFile.Write(keep, samples);
        }

        return samples;
    }
}
