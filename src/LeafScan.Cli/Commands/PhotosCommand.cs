using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Cli.Walks;
using LeafScan.Leaves;
using LeafScan.Leaves.Kinds;
using LeafScan.Photos;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>photos: what is on record and how each photo's plant was found; assign corrects it, remove puts it into the bin.</summary>
internal static class PhotosCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<string?> plant = new("--plant") { Description = "Only of this plant; - for photos without a plant.", HelpName = "CODE" };
        Option<string?> place = new("--place") { Description = "Only of this place.", HelpName = "NAME" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new("photos", "Lists the photos on record, and how the plant of each was found.", "leafscan photos --plant EU-1", "leafscan photos --plant - --json")
        {
            plant, place, json, Assign(world), Remove(world),
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            string? code = parsed.GetValue(plant);
            List<PhotoOnRecord> photos =
            [
                .. store.Photos().Where(photo => (code is null || (code == "-" ? photo.PlantCode is null : string.Equals(photo.PlantCode, code, StringComparison.OrdinalIgnoreCase)))
                    && (parsed.GetValue(place) is not { } where || string.Equals(photo.PlaceName, where, StringComparison.OrdinalIgnoreCase))),
            ];
            string? target = JsonOut.Target(parsed, json);
            if (target is not null)
            {
                JsonOut.Write(world, target, Document(photos));
            }

            if (target != JsonOut.StandardOutput)
            {
                Write(world.Out, photos);
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand Assign(Surroundings world)
    {
        Argument<string> photo = PhotoChoice.NewArgument();
        Argument<string> code = new("PLANT") { Description = "Code of the right plant, begun when it is new; - for none." };
        Option<string?> was = PhotoChoice.NewPlantOption();
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> reason = new("--reason") { Description = "Why, for the list of edits.", HelpName = "TEXT" };
        Option<bool> following = new("--following") { Description = "Also the photos without a plant that were taken after it on that walk, up to the next tag." };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new(
            "assign", "Corrects the plant of a photo.", "leafscan photos assign IMG_0411.jpg EU-2", "leafscan photos assign 17 - --reason \"shows the path\"", "leafscan photos assign IMG_0430.jpg EU-3 --following")
        {
            photo, code, was, place, reason, following, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            PhotoOnRecord found = PhotoChoice.One(store, parsed.GetValue(photo)!, parsed.GetValue(was), parsed.GetValue(place));
            string? wanted = parsed.GetValue(code) is "-" ? null : parsed.GetValue(code);
            List<PhotoOnRecord> after = parsed.GetValue(following) ? Following(store, found) : [];
            store.MovePhotos([found.Id, .. after.Select(one => one.Id)], wanted, parsed.GetValue(reason) ?? "photos assign");
            PhotoOnRecord now = store.FindPhoto(found.Sha256)!;
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.photo-assigned/1", tool = ToolVersion.Current, file = now.FileName, place = now.PlaceName, before = found.PlantCode, plant = now.PlantCode, following = after.Select(one => one.FileName) },
                $"{now.FileName} now belongs to {now.PlantCode ?? "no plant"}, not to {found.PlantCode ?? "none"}.{(after.Count == 0 ? string.Empty : $" So {(after.Count == 1 ? "does" : "do")} {Words.Count(after.Count, "photo")} after it.")}", "To take it back: leafscan undo");
        });
        return command;
    }

    // In the order in which they were taken; the next tag opens another plant's group.
    private static List<PhotoOnRecord> Following(RecordStore store, PhotoOnRecord first)
    {
        if (CaptureTime.Parse(first.Taken) is not { } from)
        {
            throw new CommandException(ExitCode.WrongUse, $"{first.FileName} has no capture time, so nothing tells which photos came after it. Nothing was changed. Leave out --following and assign them one by one.");
        }

        return
        [
            .. store.Photos(first.WalkId).Where(photo => photo.Id != first.Id)
                .Select(photo => (Photo: photo, At: CaptureTime.Parse(photo.Taken)?.Local))
                .Where(photo => photo.At >= from.Local && photo.At?.Date == from.Local.Date)
                .OrderBy(photo => photo.At).Select(photo => photo.Photo)
                .TakeWhile(photo => photo.Kind != PhotoKind.Tag.Name() && photo.PlantBy != PlantGuess.TagWord)
                .Where(photo => photo.PlantCode is null),
        ];
    }

    private static ExampleCommand Remove(Surroundings world)
    {
        Argument<string> photo = PhotoChoice.NewArgument();
        Option<string?> plant = PhotoChoice.NewPlantOption();
        Option<string?> place = PlantChoice.NewPlaceOption();
        Option<string?> reason = new("--reason") { Description = "Why, for the list of edits.", HelpName = "TEXT" };
        Option<string?> json = JsonOut.NewOption();
        ExampleCommand command = new("remove", "Puts a photo into the bin: it counts nowhere and can be taken back.", "leafscan photos remove IMG_0411.jpg --reason \"a thumb\"")
        {
            photo, plant, place, reason, json,
        };
        command.SetAction(parsed =>
        {
            using RecordStore store = DataPlace.OpenExisting(parsed, world);
            PhotoOnRecord found = PhotoChoice.One(store, parsed.GetValue(photo)!, parsed.GetValue(plant), parsed.GetValue(place));
            store.PutInBin(BinKind.Photo, found.Id, parsed.GetValue(reason) ?? "photos remove");
            return Answer.Give(
                world, parsed, json,
                new { schema = "leafscan.binned/1", tool = ToolVersion.Current, kind = "photo", number = found.Id, file = found.FileName },
                $"In the bin: {found.FileName}. The file itself was not touched. To take it back: leafscan bin restore photo {Words.Number((int)found.Id)}");
        });
        return command;
    }

    private static void Write(TextWriter writer, List<PhotoOnRecord> photos)
    {
        if (photos.Count == 0)
        {
            writer.WriteLine("No such photo is on record.");
            return;
        }

        TextTable table = new(">number", "photo", "walk", "place", "plant", "found by", "shows", "leaf");
        foreach (PhotoOnRecord photo in photos)
        {
            table.Add(
                Words.Number((int)photo.Id), photo.FileName, Words.Day(photo.WalkedOn), photo.PlaceName, photo.PlantCode ?? "-", PlantQuestions.Source(photo.PlantBy), photo.Kind, LeafText.Of(photo.LeafAge, photo.LeafTag));
        }

        table.WriteTo(writer);
    }

    private static object Document(List<PhotoOnRecord> photos) => new
    {
        schema = "leafscan.photos/1",
        tool = ToolVersion.Current,
        photos = photos.Select(photo => new
        {
            number = photo.Id,
            file = photo.FileName,
            sha256 = photo.Sha256,
            date = Words.Day(photo.WalkedOn),
            place = photo.PlaceName,
            plant = photo.PlantCode,
            plantBy = photo.PlantBy,
            kind = photo.Kind,
            taken = photo.Taken,
            leafAge = LeafText.InDocuments(photo.LeafAge),
            leafLabel = photo.LeafTag,
        }),
    };
}
