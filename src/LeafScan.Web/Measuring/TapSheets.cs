using System.Text.Json;
using System.Text.Json.Serialization;
using LeafScan.Frame;
using LeafScan.Leaves;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Records;
using LeafScan.Taps;
using LeafScan.Taps.Overlay;
using LeafScan.Web.Uploads;
using OpenCvSharp;

namespace LeafScan.Web.Measuring;

/// <summary>A reading of a sheet as it is kept.</summary>
/// <param name="Width">Width of the first photo, upright.</param>
/// <param name="Height">Its height.</param>
/// <param name="Day">Day of the first photo by the camera's clock; null when it does not tell.</param>
/// <param name="SecondsTold">Seconds that a person told; null when the camera's clock was taken.</param>
/// <param name="Reading">The reading.</param>
internal sealed record KeptReading(int Width, int Height, DateOnly? Day, double? SecondsTold, TapReading Reading);

/// <summary>Reads two photos of a tap sheet and keeps what they gave.</summary>
internal sealed class TapSheets(RecordStore store, PhotoFiles files, MeasureGate gate)
{
    private static readonly string[] Endings = [".jpg", ".png", ".heic", ".bin"];

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
    };

    /// <summary>Name of a sheet's photo, relative to the data folder.</summary>
    public static string NameFor(string sha256, string ending) => $"photos/taps/{sha256}{ending}";

    /// <summary>Where a sheet's photo lies; null when it never came or has gone.</summary>
    public string? Find(string? sha256)
        => sha256 is not null && Api.UploadsApi.IsPrint(sha256) ? Endings.Select(ending => files.PathOf(NameFor(sha256, ending))).FirstOrDefault(File.Exists) : null;

    /// <summary>The overlay of a pair; it may have to be drawn.</summary>
    public string OverlayPath(string first, string second) => Path.Combine(files.Drawn, $"tap-{first[..32]}-{second[..32]}.jpg");

    /// <summary>What is kept of a sheet.</summary>
    public static KeptReading ReadingOf(TapSheetOnRecord sheet) => JsonSerializer.Deserialize<KeptReading>(sheet.Reading, Json)!;

    /// <summary>The specks of a sheet with what was said of them and stands.</summary>
    public IReadOnlyList<SaidSpeck> SaidOf(TapSheetOnRecord sheet, TapReading reading) => Lay(reading, store.TapCorrections(sheet.Id));

    /// <summary>The count that is kept with a tap; null when the photos gave none and nobody said anything.</summary>
    public static int? Mites(TapReading reading, IReadOnlyList<SaidSpeck> said)
        => reading.Crawling is null && said.All(speck => speck.Said is null) ? null : said.Count(speck => speck.IsMite);

    /// <summary>Specks with what stands of some corrections.</summary>
    public static IReadOnlyList<SaidSpeck> Lay(TapReading reading, IReadOnlyList<TapCorrection> corrections)
        => SpeckSayings.Lay(reading.Specks, [.. corrections.Where(one => one.TakenBackAt is null).Select(one => new SpeckSaying(one.X, one.Y, one.Word switch
        {
            TapWord.Mite => SpeckWord.Mite,
            TapWord.Predator => SpeckWord.Predator,
            _ => SpeckWord.NotMite,
        }))]);

    /// <summary>Reads two photos that lie here. The same pair read by the same version is not read again.</summary>
    /// <param name="first">Fingerprint of the first.</param>
    /// <param name="second">Fingerprint of the second.</param>
    /// <param name="seconds">Seconds between them; null to take the camera's clock.</param>
    /// <param name="cancel">Stops while it waits for its turn.</param>
    public async Task<(TapSheetOnRecord? Sheet, TapRefusal? Refusal)> ReadAsync(string first, string second, double? seconds, CancellationToken cancel)
    {
        if (store.TapSheetsOf(first, second).FirstOrDefault(sheet => sheet.ToolVersion == ToolVersion.Current && ReadingOf(sheet).SecondsTold == seconds) is { } known)
        {
            return (known, null);
        }

        FrameOptions frame = Options.For(store.Folder).Frame;
        string[] paths = [Find(first)!, Find(second)!];
        (KeptReading? kept, TapRefusal? refusal) = await gate.RunAsync(() => Read(paths, new TapOptions { SecondsBetween = seconds }, frame, OverlayPath(first, second)), cancel).ConfigureAwait(false);
        return kept is null ? (null, refusal) : (store.AddTapSheet(first, second, ToolVersion.Current, JsonSerializer.Serialize(kept, Json)), null);
    }

    private static (KeptReading? Kept, TapRefusal? Refusal) Read(string[] paths, TapOptions options, FrameOptions frame, string overlay)
    {
        List<TapShot> shots = [];
        List<SheetPlace> places = [];
        try
        {
            // One decoded photo at a time: what is kept of it is small.
            foreach (string path in paths)
            {
                using PhotoOutcome opened = PhotoReader.Open(path, new PhotoLimits());
                if (opened.Photo is not { } photo)
                {
                    return (null, new TapRefusal(opened.Refusal!.Reason, opened.Refusal.Advice));
                }

                SheetPlace? place = TapSheet.In(photo.Pixels, frame, CancellationToken.None);
                shots.Add(TapShot.Look(Named(photo, shots.Count == 0 ? "the first photo" : "the second photo"), options, place));
                places.AddRange(place is null ? [] : [place]);
            }

            TapOutcome outcome = TapReader.Read(shots, options with { Sheets = places.Count == shots.Count ? places : [] });
            if (outcome.Reading is not { } reading)
            {
                return (null, outcome.Refusal);
            }

            using PhotoOutcome first = PhotoReader.Open(paths[0], new PhotoLimits());
            using Mat picture = TapOverlayPainter.Paint(first.Photo!, reading);
            PictureWriter.WriteJpeg(picture, overlay);
            return (new KeptReading(shots[0].WidthPx, shots[0].HeightPx, shots[0].Taken is { } taken ? DateOnly.FromDateTime(taken.Local) : null, options.SecondsBetween, reading), null);
        }
        finally
        {
            shots.ForEach(shot => shot.Dispose());
        }
    }

    // The file is named after its fingerprint; a sentence about it should not be. The pixels stay the opened photo's own.
#pragma warning disable CA2000
    private static Photo Named(Photo photo, string words) => new(photo.Facts with { FileName = words }, photo.Pixels, photo.Flags);
#pragma warning restore CA2000
}
