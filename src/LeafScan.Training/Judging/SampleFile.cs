using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Training.Rendering.Damage;

namespace LeafScan.Training.Judging;

/// <summary>Keeps samples in a file between runs: running the network over all photos is most of the work.</summary>
internal static class SampleFile
{
    private const int Version = 1;

    /// <summary>Writes all samples.</summary>
    public static void Write(string path, IReadOnlyList<CandidateSample> samples)
    {
        using BinaryWriter to = new(File.Create(path));
        to.Write(Version);
        to.Write(SpeckCandidate.FeatureCount);
        to.Write(samples.Count);
        foreach (CandidateSample s in samples)
        {
            to.Write(s.Key);
            to.Write(s.Set);
            to.Write(s.Group);
            to.Write(s.Truth.Count);
            foreach (Speck speck in s.Truth)
            {
                to.Write(speck.X);
                to.Write(speck.Y);
                to.Write(speck.DiameterPx);
                to.Write(speck.Strength);
            }

            to.Write(s.Marks.Count);
            for (int i = 0; i < s.Marks.Count; i++)
            {
                to.Write(s.Marks[i].X);
                to.Write(s.Marks[i].Y);
                to.Write(s.Marks[i].DiameterPx);
                to.Write(s.Labels[i]);
                to.Write(s.Before[i]);
                Array.ForEach(s.Features[i], to.Write);
            }
        }
    }

    /// <summary>Reads them again; null when the file is of another version or has other features.</summary>
    public static List<CandidateSample>? Read(string path)
    {
        using BinaryReader from = new(File.OpenRead(path));
        if (from.ReadInt32() != Version || from.ReadInt32() != SpeckCandidate.FeatureCount)
        {
            return null;
        }

        List<CandidateSample> samples = [];
        int count = from.ReadInt32();
        for (int n = 0; n < count; n++)
        {
            (string key, string set, string group) = (from.ReadString(), from.ReadString(), from.ReadString());
            Speck[] truth = new Speck[from.ReadInt32()];
            for (int i = 0; i < truth.Length; i++)
            {
                truth[i] = new Speck(from.ReadDouble(), from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
            }

            int marks = from.ReadInt32();
            CandidateSample sample = new(key, set, group, truth, new SpeckMark[marks], new float[marks][], new bool[marks], new bool[marks]);
            for (int i = 0; i < marks; i++)
            {
                ((SpeckMark[])sample.Marks)[i] = new SpeckMark(from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
                sample.Labels[i] = from.ReadBoolean();
                sample.Before[i] = from.ReadBoolean();
                float[] features = new float[SpeckCandidate.FeatureCount];
                for (int k = 0; k < features.Length; k++)
                {
                    features[k] = from.ReadSingle();
                }

                ((float[][])sample.Features)[i] = features;
            }

            samples.Add(sample);
        }

        return samples;
    }
}
