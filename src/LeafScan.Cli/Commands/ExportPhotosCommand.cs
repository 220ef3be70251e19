using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>export photos: copies of photos that tell nothing but what they show.</summary>
internal static class ExportPhotosCommand
{
    private const int Quality = 92;

    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Argument<string?> code = ExportTableCommand.PlantArgument();
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> block = GroupChoice.NewBlockOption();
        Option<string?> client = GroupChoice.NewClientOption();
        Option<DateOnly?> from = ExportTableCommand.NewFrom();
        Option<DateOnly?> to = ExportTableCommand.NewTo();
        Option<string> folder = new("--out") { Description = "Folder to write into; begun when missing. Files there are not overwritten.", HelpName = "DIR", Required = true };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "photos", "Writes copies of photos without position, time, camera or any other word in them: drawn anew from their pixels, upright, as JPEG.",
            "leafscan export photos EU-1 --out for-the-client", "leafscan export photos --place \"Hill nursery\" --from 2026-07-02 --to 2026-07-02 --out walk")
        {
            code, place, block, client, from, to, folder, json,
        };
        command.SetAction((parsed, cancel) =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            GroupChoice group = new(parsed.GetValue(place), parsed.GetValue(block), parsed.GetValue(client));
            PhotoOnRecord[] photos = [.. ExportTableCommand.Range(store, parsed.GetValue(code), group, parsed.GetValue(from), parsed.GetValue(to)).Of(store)];
            if (photos.Length == 0)
            {
                throw new CommandException(ExitCode.NothingMeasurable, "No photo on record is meant; nothing was written. All photos: leafscan photos");
            }

            string target = Path.GetFullPath(parsed.GetValue(folder)!);
            List<Copied> copied = [];
            List<PhotoRefusal> refused = [];
            HashSet<string> taken = new(StringComparer.OrdinalIgnoreCase);
            foreach (PhotoOnRecord photo in photos)
            {
                cancel.ThrowIfCancellationRequested();
                string name = FreeName(photo, target, taken);
                if (Copy(photo, name, target, cancel) is { } refusal)
                {
                    refused.Add(refusal);
                }
                else
                {
                    copied.Add(new Copied(name, photo));
                }
            }

            Answer.Give(world, parsed, json, Document(target, copied, refused), $"Written: {Words.Count(copied.Count, "photo")} into {target}, without position or any other word of the camera.");
            RefusalLines.Write(world, refused);
            return Task.FromResult(refused.Count == 0 ? ExitCode.Done : copied.Count == 0 ? ExitCode.NothingMeasurable : ExitCode.SomeRefused);
        });
        return command;
    }

    private sealed record Copied(string File, PhotoOnRecord Photo);

    private static PhotoRefusal? Copy(PhotoOnRecord photo, string name, string folder, CancellationToken cancel)
    {
        using PhotoOutcome opened = PhotoReader.Open(photo.PathSeen, new PhotoLimits(), cancel);
        if (opened.Photo is not { } picture)
        {
            return opened.Refusal! with { FileName = photo.FileName };
        }

        if (picture.Facts.Sha256 != photo.Sha256)
        {
            return new PhotoRefusal(photo.FileName, "The file is not the one that is on record.", "Bring the photo back to its place.");
        }

        PictureWriter.WriteJpeg(picture.Pixels, Path.Combine(folder, name), Quality);
        return null;
    }

    // Plant and day first, so that the files sort as a series. Names of photos and plants may hold what a file name must not.
    private static string FreeName(PhotoOnRecord photo, string folder, HashSet<string> taken)
    {
        string stem = Safe($"{photo.PlantCode ?? "no-plant"}_{Words.Day(photo.WalkedOn)}_{Path.GetFileNameWithoutExtension(photo.FileName)}");
        for (int i = 1; ; i++)
        {
            string name = i == 1 ? $"{stem}.jpg" : FormattableString.Invariant($"{stem}-{i}.jpg");
            if (!File.Exists(Path.Combine(folder, name)) && taken.Add(name))
            {
                return name;
            }
        }
    }

    private static string Safe(string name)
    {
        const int Longest = 120;
        string safe = string.Concat(name.Take(Longest).Select(letter => char.IsLetterOrDigit(letter) || letter is '-' or '_' or '.' or ' ' ? letter : '-')).Trim(' ', '.');
        return char.IsHighSurrogate(safe[^1]) ? safe[..^1] : safe;
    }

    private static object Document(string folder, List<Copied> copied, List<PhotoRefusal> refused) => new
    {
        schema = "leafscan.photos-exported/1",
        tool = ToolVersion.Current,
        folder,
        photos = copied.Select(one => new { file = one.File, photo = one.Photo.FileName, sha256OfPhoto = one.Photo.Sha256, date = Words.Day(one.Photo.WalkedOn), place = one.Photo.PlaceName, plant = one.Photo.PlantCode }),
        refused = refused.Select(refusal => new { file = refusal.FileName, reason = refusal.Reason, advice = refusal.Advice }),
    };
}
