using System.Diagnostics;
using LeafScan.Leaves;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Bench;

/// <summary>Measures one photo through the doors that every user goes through, and lays the reading beside the truth.</summary>
internal static class CaseMeter
{
    /// <summary>Classes of a speck's true diameter: name and upper end in pixels.</summary>
    public static IReadOnlyList<(string Name, double Below)> SizeClasses { get; } =
        [("under 3 px", 3), ("3 to 5 px", 5), ("5 to 8 px", 8), ("8 px and more", double.MaxValue)];

    public static PhotoRow Measure(TruthCase one, MeasureOptions options, CancellationToken cancel)
    {
        Stopwatch watch = Stopwatch.StartNew();
        using PhotoOutcome outcome = PhotoReader.Open(one.PhotoPath, new PhotoLimits(), cancel);
        using LeafMeasurement? measurement = outcome.Photo is { } photo ? LeafMeter.Measure(photo, options, cancel) : null;
        double seconds = watch.Elapsed.TotalSeconds;
        string? refused = outcome.Refusal?.Reason ?? measurement?.Refusal?.Reason;
        PhotoReading? reading = measurement?.Reading;
        PhotoRow row = new()
        {
            Key = one.Key,
            Set = one.Set.Split('/')[0],
            Kind = one.Kind,
            Refused = refused,
            LeavesFound = reading?.Leaves.Count ?? 0,
            Seconds = seconds,
            Shares = new Dictionary<string, SharePair>(),
        };
        using Mat truth = Cv2.ImRead(one.MaskPath, ImreadModes.Grayscale);
        return one.Kind switch
        {
            TruthKind.Full => Full(row, TruthFile.Read(one.JsonPath!), truth, reading, measurement?.Mask),
            TruthKind.Unpainted => Unpainted(row, truth, reading, measurement?.Mask),
            TruthKind.Outline => row with { OutlineIou = Iou(truth, measurement?.Mask, one.MaskPath.EndsWith(".jpg", StringComparison.Ordinal) ? v => v > 16 : v => v > 127) },
            _ => CloseUpRow(row, one, truth, outcome.Photo, options),
        };
    }

    private static PhotoRow Full(PhotoRow row, TruthFile truth, Mat codes, PhotoReading? reading, Mat? mask)
    {
        LeafShares? measured = reading is null ? null : Total(reading.Leaves);
        SpeckMark[] found = reading is null ? [] : [.. reading.Leaves.SelectMany(l => l.SpeckCentres)];
        bool[] hits = SpeckMatcher.Match(truth.Specks, found);
        bool single = truth.Leaves == 1 && reading?.Leaves.Count == 1;
        return row with
        {
            Difficulty = truth.Difficulty,
            Background = truth.Background,
            OutlineIou = Iou(codes, mask, v => v is not (0 or (byte)MaskCode.Chewed)),
            LeavesTrue = truth.Leaves,
            Shares = new Dictionary<string, SharePair>
            {
                ["stippled"] = new(truth.Shares.Stippled, measured?.Stippled),
                ["yellowed"] = new(truth.Shares.Yellowed, measured?.Yellowed),
                ["browned"] = new(truth.Shares.Browned, measured?.Browned),
                ["chewed"] = new(truth.Shares.Chewed, measured?.Chewed),
                ["damage"] = new(DamageOf(truth), measured?.Damage),
            },
            SpecksTrue = truth.Specks.Count,
            SpecksFound = found.Length,
            SpecksMatched = hits.Count(h => h),
            SpecksPairable = SpeckMatcher.MostPairs(truth.Specks, found),
            SpecksBySize = ByClass(SizeClasses, [.. truth.Specks.Select(s => s.DiameterPx)], hits),
            SpecksByCover = ByClass(SpeckCover.Classes, SpeckCover.Of(truth.Specks, codes.Size()), hits),
            DamageLow = single ? reading!.Leaves[0].DamageLow : null,
            DamageHigh = single ? reading!.Leaves[0].DamageHigh : null,
        };
    }

    // Bites were painted too: what the truth calls chewed away was leaf before.
    private static PhotoRow Unpainted(PhotoRow row, Mat codes, PhotoReading? reading, Mat? mask) => row with
    {
        OutlineIou = Iou(codes, mask, v => v != 0),
        SpecksTrue = 0,
        SpecksFound = reading?.Leaves.Sum(l => l.SpeckCount) ?? 0,
        Shares = new Dictionary<string, SharePair> { ["stippled"] = new(0, reading is null ? null : Total(reading.Leaves).Stippled) },
    };

    public static double DamageOf(TruthFile truth)
    {
        double hurt = truth.Shares.Stippled + truth.Shares.Yellowed + truth.Shares.Browned;
        return truth.Shares.Chewed < 1 ? hurt / (1 - truth.Shares.Chewed) : 0;
    }

    // Shares of all leaves of a photo together, each leaf by its area.
    public static LeafShares Total(IReadOnlyList<LeafReading> leaves)
    {
        double area = leaves.Sum(l => l.AreaPx);
        return new LeafShares(Of(s => s.Sound), Of(s => s.Stippled), Of(s => s.Yellowed), Of(s => s.Browned), Of(s => s.Chewed), Of(s => s.Unassessed));

        double Of(Func<LeafShares, double> share) => area > 0 ? leaves.Sum(l => share(l.Shares) * l.AreaPx) / area : 0;
    }

    private static Dictionary<string, SpeckClass> ByClass(IReadOnlyList<(string Name, double Below)> names, double[] values, bool[] hits)
    {
        Dictionary<string, SpeckClass> classes = names.ToDictionary(c => c.Name, _ => new SpeckClass(0, 0));
        for (int i = 0; i < hits.Length; i++)
        {
            string name = names.First(c => values[i] < c.Below).Name;
            classes[name] = new SpeckClass(classes[name].Truth + 1, classes[name].Matched + (hits[i] ? 1 : 0));
        }

        return classes;
    }

    public static double Iou(Mat truth, Mat? measured, Func<byte, bool> isLeaf)
    {
        if (measured is null || measured.Size() != truth.Size())
        {
            return 0;
        }

        long both = 0, either = 0;
        int rows = truth.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> t = Pixels.Bytes(truth, y);
            Span<byte> m = Pixels.Bytes(measured, y);
            for (int x = 0; x < t.Length; x++)
            {
                bool leaf = isLeaf(t[x]);
                bool found = m[x] is not (0 or (byte)MaskCode.Chewed);
                both += leaf && found ? 1 : 0;
                either += leaf || found ? 1 : 0;
            }
        }

        return either == 0 ? 1 : (double)both / either;
    }

    // The outline is another question: whether the photo was refused as a user's would be stays in the row.
    private static PhotoRow CloseUpRow(PhotoRow row, TruthCase one, Mat truth, Photo? photo, MeasureOptions options)
    {
        using Mat? codes = photo is null ? null : CloseUp.Codes(photo.Pixels, options);
        return row with { Shares = BrownedOf(truth, codes), Marks = MarksOf(one, codes) };
    }

    private static MarkOverlap? MarksOf(TruthCase one, Mat? measured)
    {
        string path = one.MaskPath.Replace(".mask.png", ".votes.png", StringComparison.Ordinal);
        if (measured is null || !File.Exists(path))
        {
            return null;
        }

        using Mat votes = Cv2.ImRead(path, ImreadModes.Grayscale);
        return votes.Size() == measured.Size() ? MarkOverlap.Of(votes, measured) : null;
    }

    // On close-ups without an outline both are shares of the photo.
    private static Dictionary<string, SharePair> BrownedOf(Mat truth, Mat? measured)
    {
        double marked = Cv2.CountNonZero(truth) / (double)truth.Total();
        double? found = null;
        if (measured is not null)
        {
            using Mat brown = new();
            Cv2.InRange(measured, Scalar.All((int)MaskCode.Browned), Scalar.All((int)MaskCode.Browned), brown);
            found = Cv2.CountNonZero(brown) / (double)measured.Total();
        }

        return new Dictionary<string, SharePair> { ["browned"] = new(marked, found) };
    }
}
