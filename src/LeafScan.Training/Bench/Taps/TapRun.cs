using System.Diagnostics;
using LeafScan.Photos;
using LeafScan.Taps;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.TapSheets;

namespace LeafScan.Training.Bench.Taps;

/// <summary>Renders pairs of photos of tap sheets and reads them as the command does, from their files.</summary>
public static class TapRun
{
    /// <summary>Renders and reads one pair.</summary>
    /// <param name="seed">Seed of the sheet.</param>
    /// <param name="level">How hard.</param>
    /// <param name="longSidePx">Long side of the photos.</param>
    /// <param name="wish">What the sheet must have.</param>
    /// <param name="withScale">True when the scale is told, as by a printed sheet.</param>
    /// <param name="keepIn">Folder that keeps the pair and its truth; null for a passing one.</param>
    /// <param name="photos">Photos of the sheet: 2, or more for a burst over the same time.</param>
    public static TapScore One(int seed, Difficulty level, int longSidePx, TapWish wish, bool withScale, string? keepIn = null, int photos = 2)
    {
        TapSpec spec = TapChooser.Choose(seed, level, longSidePx, wish);
        if (photos > 2)
        {
            return Burst(spec, withScale, photos);
        }

        RenderedTap tap = TapRenderer.Render(spec);
        string folder = keepIn ?? Directory.CreateTempSubdirectory("leafscan-tap").FullName;
        try
        {
            TapWriter.Write(tap, folder);
            string path = Path.Combine(folder, tap.Spec.Name);
            TapOptions options = Options(tap.Spec, withScale);
            long start = Stopwatch.GetTimestamp();
            using PhotoOutcome first = PhotoReader.Open(path + ".a.jpg", new PhotoLimits());
            using PhotoOutcome second = PhotoReader.Open(path + ".b.jpg", new PhotoLimits());
            TimeSpan decoding = Stopwatch.GetElapsedTime(start);
            start = Stopwatch.GetTimestamp();
            TapOutcome outcome = TapReader.Read([first.Photo!, second.Photo!], options);
            return TapScore.Of(tap.Spec, outcome) with { DecodeMs = decoding.TotalMilliseconds, ReadMs = Stopwatch.GetElapsedTime(start).TotalMilliseconds };
        }
        finally
        {
            if (keepIn is null)
            {
                Directory.Delete(folder, true);
            }
        }
    }

    private static TapScore Burst(TapSpec spec, bool withScale, int photos)
    {
        TapOptions options = new()
        {
            Sheets = withScale ? [.. Enumerable.Range(0, photos).Select(i => SheetPlace.FromAbove(spec.PixelsPerMm * (spec.First.Zoom + ((spec.Second.Zoom - spec.First.Zoom) * i / (photos - 1.0)))))] : [],
        };
        List<PhotoOutcome> opened = [];
        string folder = Directory.CreateTempSubdirectory("leafscan-tap").FullName;
        try
        {
            IReadOnlyList<ReadOnlyMemory<byte>> files = TapBurst.Render(spec, photos);
            List<string> paths = [.. files.Select((_, i) => Path.Combine(folder, $"{i}.jpg"))];
            for (int i = 0; i < photos; i++)
            {
                File.WriteAllBytes(paths[i], files[i].Span);
            }

            long start = Stopwatch.GetTimestamp();
            opened.AddRange(paths.Select(path => PhotoReader.Open(path, new PhotoLimits())));
            TimeSpan decoding = Stopwatch.GetElapsedTime(start);
            start = Stopwatch.GetTimestamp();
            TapOutcome outcome = TapReader.Read([.. opened.Select(one => one.Photo!)], options);
            return TapScore.Of(spec, outcome, photos) with { DecodeMs = decoding.TotalMilliseconds, ReadMs = Stopwatch.GetElapsedTime(start).TotalMilliseconds };
        }
        finally
        {
            opened.ForEach(one => one.Dispose());
            Directory.Delete(folder, true);
        }
    }

    private static TapOptions Options(TapSpec spec, bool withScale) => new()
    {
        Sheets = withScale ? [SheetPlace.FromAbove(spec.PixelsPerMm * spec.First.Zoom), SheetPlace.FromAbove(spec.PixelsPerMm * spec.Second.Zoom)] : [],
    };
}
