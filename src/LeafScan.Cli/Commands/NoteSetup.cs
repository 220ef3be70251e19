using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves.Reading;
using LeafScan.Notes.Client;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>What notes and cards are made with.</summary>
internal static class NoteSetup
{
    /// <summary>Who writes for a place, and in which form.</summary>
    public static NoteLook Look(RecordStore? store, long? placeId, NoteAsked asked) => store is null
        ? NoteLook.Of(new Settings(), null, asked)
        : NoteLook.Of(Settings.Load(store.Folder), placeId is { } id ? store.CountryOfPlace(id) : null, asked);

    /// <summary>Draws a photo on record the way it was measured, with what a person said of its leaves; tells why not on standard error.</summary>
    public static DrawnPhoto Draw(RecordStore store, PhotoOnRecord photo, PictureChoice choice, ParseResult parsed, Surroundings world, CancellationToken cancel)
    {
        Plant? plant = photo.PlantId is { } id ? store.FindPlant(id) : null;
        PictureChoice how = (choice with { Options = PrinterScale.Options(parsed, world, null).AsMeasured(plant, store.ReadingsOfPhoto(photo.Id)[0].Origin) }).AsRecorded(photo, store.CorrectionsOf(photo.Id));
        DrawnPhoto drawn = NotePictures.Draw(photo.PathSeen, photo.Sha256, how, cancel);
        if (drawn.Refusal is { } refusal)
        {
            world.Err.WriteLine(Words.OneLine($"No picture of {photo.FileName}: {refusal.Reason} {refusal.Advice}"));
        }
        else if (store.ReadingOf(photo.Id) is { } onRecord && !IsSame(onRecord, drawn.Reading!))
        {
            world.Err.WriteLine(Words.OneLine($"{photo.FileName}: the numbers are those on record; the lines in the picture are drawn by this version of LeafScan, which finds other marks than the one that measured it. Look at the picture before you send it."));
        }

        return drawn;
    }

    // Half a point of damage is no more than other rounding of the same picture makes.
    private static bool IsSame(PhotoReading onRecord, PhotoReading drawn)
    {
        const double Near = 0.005;
        return onRecord.Leaves.Count == drawn.Leaves.Count && onRecord.Leaves.Zip(drawn.Leaves).All(pair => Math.Abs(pair.First.Damage - pair.Second.Damage) <= Near);
    }
}
