using LeafScan.Leaves;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Training.Rendering.Camera;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Bench.Repeat;

/// <summary>Shoots photos of known truth again and measures every shot through the doors that every user goes through.</summary>
internal static class RepeatRun
{
    /// <summary>Measures.</summary>
    /// <param name="cases">Photos; those without full truth are left out.</param>
    /// <param name="shots">Shots of each photo.</param>
    /// <param name="seed">Seed of the shots.</param>
    /// <param name="options">How to measure.</param>
    /// <param name="folder">An existing folder to which the shots are written.</param>
    /// <param name="said">Told progress.</param>
    /// <param name="cancel">Stops between photos.</param>
    public static IReadOnlyList<LeafRepeat> Over(
        IReadOnlyList<TruthCase> cases, int shots, int seed, MeasureOptions options, string folder, Action<string> said, CancellationToken cancel)
    {
        Random random = Chance.FromSeed(seed);
        TruthCase[] full = [.. cases.Where(c => c.Kind == TruthKind.Full)];
        List<LeafRepeat> leaves = [];
        foreach (TruthCase one in full)
        {
            Random own = random.Split();
            leaves.Add(Leaf(one, [.. Enumerable.Range(0, shots).Select(_ => ShotSpec.Choose(own))], options, folder, cancel));
            said($"{leaves.Count} of {full.Length} photos shot again");
        }

        return leaves;
    }

    /// <summary>Measures one photo and its shots.</summary>
    public static LeafRepeat Leaf(TruthCase one, IReadOnlyList<ShotSpec> shots, MeasureOptions options, string folder, CancellationToken cancel)
    {
        double truth = CaseMeter.DamageOf(TruthFile.Read(one.JsonPath!));
        using Mat codes = Cv2.ImRead(one.MaskPath, ImreadModes.Grayscale);
        using PhotoOutcome outcome = PhotoReader.Open(one.PhotoPath, new PhotoLimits(), cancel);
        if (outcome.Photo is not { } photo)
        {
            return new LeafRepeat(one.Key, one.Set.Split('/')[0], truth, null, [], shots.Count);
        }

        ShotReading? itself = Read(photo, codes, options, cancel);
        using Mat there = new();
        Cv2.Threshold(codes, there, 0, 255, ThresholdTypes.Binary);
        Rect leaf = Cv2.BoundingRect(there);
        List<ShotReading> read = [];
        for (int i = 0; i < shots.Count; i++)
        {
            cancel.ThrowIfCancellationRequested();
            using Mat pixels = Reshoot.Pixels(photo.Pixels, shots[i], leaf);
            using Mat seen = Reshoot.Codes(codes, shots[i], leaf);
            string path = Path.Combine(folder, $"{one.Key.Replace('/', '-')}.{i + 1}.jpg");
            File.WriteAllBytes(path, PhotoFile.Jpeg(pixels, new CameraSpec { Seed = shots[i].Seed, JpegQuality = shots[i].JpegQuality }));
            using PhotoOutcome again = PhotoReader.Open(path, new PhotoLimits(), cancel);
            if (again.Photo is { } shot && Read(shot, seen, options, cancel) is { } reading)
            {
                read.Add(reading);
            }
        }

        return new LeafRepeat(one.Key, one.Set.Split('/')[0], truth, itself, read, shots.Count - read.Count);
    }

    private static ShotReading? Read(Photo photo, Mat codes, MeasureOptions options, CancellationToken cancel)
    {
        using LeafMeasurement measurement = LeafMeter.Measure(photo, options, cancel);
        if (measurement.Reading is not { } reading)
        {
            return null;
        }

        LeafShares shares = CaseMeter.Total(reading.Leaves);
        double iou = CaseMeter.Iou(codes, measurement.Mask, v => v is not (0 or (byte)MaskCode.Chewed));
        return new ShotReading(shares.Damage, shares.Stippled, reading.Leaves.Sum(l => l.SpeckCount), iou, Shown(codes));
    }

    /// <summary>True damage in a picture of mask codes: what is hurt over what is there and can be judged, 0..1.</summary>
    /// <param name="codes">8-bit picture of <see cref="MaskCode"/>.</param>
    internal static double Shown(Mat codes)
    {
        long hurt = 0, judged = 0;
        int rows = codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            foreach (byte code in Pixels.Bytes(codes, y))
            {
                bool harmed = (MaskCode)code is MaskCode.Speck or MaskCode.Yellowed or MaskCode.Browned;
                hurt += harmed ? 1 : 0;
                judged += harmed || (MaskCode)code == MaskCode.Sound ? 1 : 0;
            }
        }

        return judged == 0 ? 0 : (double)hurt / judged;
    }
}
