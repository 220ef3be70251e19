using System.Text.Json;
using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.Specks.Judge;
using LeafScan.Leaves.Tissue;
using LeafScan.Photos;
using LeafScan.Training.Bench;
using OpenCvSharp;

namespace LeafScan.Training.Judging;

/// <summary>
/// Reads a photo's candidates and lays them beside the truth. The outline is the true one: how well outlines are found is
/// another question, and a third of the time is saved.
/// </summary>
internal sealed class SampleReader(Network network, TissueOptions options)
{
    // A piece of leaf smaller than this share of all leaf in the photo is a crumb behind a bite.
    private const double LeastShare = 0.02;

    // Contrast over response of the colour way, as the finder of specks has it.
    private const float StrengthPerResponse = 3.3f;

    /// <summary>Reads one photo; null when it cannot be opened.</summary>
    public CandidateSample? Read(TruthCase one, CancellationToken cancel)
    {
        using PhotoOutcome outcome = PhotoReader.Open(one.PhotoPath, new PhotoLimits(), cancel);
        if (outcome.Photo is not { } photo)
        {
            return null;
        }

        TruthFile truth = TruthFile.Read(one.JsonPath!);
        using Mat codes = Cv2.ImRead(one.MaskPath, ImreadModes.Grayscale);
        List<SpeckMark> marks = [];
        List<SpeckCandidate> candidates = [];
        foreach (FoundLeaf leaf in Leaves(codes))
        {
            using (leaf)
            {
                using LeafPatch patch = LearnedLeaf.Cut(photo.Pixels, leaf, options, out Mat mask);
                mask.Dispose();
                foreach (SpeckCandidate c in LearnedTissue.Candidates(patch, network, options))
                {
                    candidates.Add(c);
                    marks.Add(new SpeckMark(
                        patch.Box.X + ((c.Mark.X + 0.5) / patch.Scale) - 0.5, patch.Box.Y + ((c.Mark.Y + 0.5) / patch.Scale) - 0.5, c.Mark.DiameterPx / patch.Scale));
                }
            }
        }

        bool[] labels = new bool[marks.Count];
        foreach (int partner in SpeckMatcher.Pair(truth.Specks, marks).Where(p => p >= 0))
        {
            labels[partner] = true;
        }

        // What nobody can say (glare, a speck too faint to see) teaches nothing.
        bool[] open = [.. marks.Select((m, i) => !labels[i] && CodeAt(codes, m) == (byte)MaskCode.Unassessed)];
        marks = [.. marks.Where((_, i) => !open[i])];
        candidates = [.. candidates.Where((_, i) => !open[i])];
        labels = [.. labels.Where((_, i) => !open[i])];
        return new CandidateSample(
            one.Key, one.Set.Split('/')[0], GroupOf(one), truth.Specks, marks, candidates.ConvertAll(c => c.Features), labels, [.. candidates.Select(CountsWithoutJudge)]);
    }

    private bool CountsWithoutJudge(SpeckCandidate c) => c.ByNetwork
        ? c.CentreScore >= options.SpeckCentreScore
        : c[SpeckFeature.SignalToNoise] > options.SureSignalToNoise && c[SpeckFeature.Amplitude] * StrengthPerResponse > options.SureStrength;

    private static string GroupOf(TruthCase one)
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(one.JsonPath!));
        return document.RootElement.TryGetProperty("group", out JsonElement group) ? group.GetString()! : one.Key;
    }

    private static List<FoundLeaf> Leaves(Mat codes)
    {
        using Mat there = new();
        using Mat chewed = new();
        Cv2.Compare(codes, Scalar.All(0), there, CmpTypes.GT);
        Cv2.InRange(codes, Scalar.All((int)MaskCode.Chewed), Scalar.All((int)MaskCode.Chewed), chewed);
        there.SetTo(Scalar.All(0), chewed);
        using Mat labels = new();
        using Mat stats = new();
        using Mat centres = new();
        int count = Cv2.ConnectedComponentsWithStats(there, labels, stats, centres);
        double all = Cv2.CountNonZero(there);
        List<FoundLeaf> leaves = [];
        for (int i = 1; i < count; i++)
        {
            ReadOnlySpan<int> row = stats.AsRow<int>(i);
            if (row[(int)ConnectedComponentsTypes.Area] < LeastShare * all)
            {
                continue;
            }

            Rect box = new(row[0], row[1], row[2], row[3]);
            using Mat view = new(labels, box);
            Mat mask = new();
            Cv2.InRange(view, Scalar.All(i), Scalar.All(i), mask);
            leaves.Add(new FoundLeaf(box, mask, []));
        }

        return leaves;
    }

    private static byte CodeAt(Mat codes, SpeckMark mark)
        => codes.AsRow<byte>(Math.Clamp((int)Math.Round(mark.Y), 0, codes.Rows - 1))[Math.Clamp((int)Math.Round(mark.X), 0, codes.Cols - 1)];
}
