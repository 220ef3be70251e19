using LeafScan.Records;

namespace LeafScan.Walks.Tags;

/// <summary>
/// Tells the plants of a walk from its tags. Photos are gone through in the order in which they were taken:
/// <list type="number">
/// <item>A tag in the photo itself wins.</item>
/// <item>Else folder and file name count, as ever.</item>
/// <item>Else the tag that was photographed last before it, on the same day of the same walk.</item>
/// </list>
/// Where two of these name different plants the one higher up is taken and the photo is marked
/// (<see cref="WalkFile.PlantUnsure"/>). A tag that cannot be read ends the group before it: the photos after it have no plant until
/// the next tag. Photos without a capture time follow no tag.
/// </summary>
public static class PlantByTag
{
    /// <summary>The same files with their plants. Files that are on record already only lead; what they were given stays.</summary>
    /// <param name="files">All files of a folder, with what they show of tags.</param>
    /// <param name="dayOf">Day of the walk to which a file belongs; null when unknown.</param>
    public static IReadOnlyList<WalkFile> Decide(IReadOnlyList<WalkFile> files, Func<WalkFile, DateOnly?> dayOf)
    {
        if (!files.Any(file => file.Tag.Any))
        {
            return files;
        }

        WalkFile[] decided = [.. WithoutFoldersOfSeveral(files)];
        foreach (IGrouping<DateOnly?, int> walk in Enumerable.Range(0, decided.Length).GroupBy(i => dayOf(decided[i])))
        {
            DecideWalk(decided, [.. walk]);
        }

        return decided;
    }

    // A folder that holds tags of several plants, none of them its own, is no plant's folder, whatever its name.
    private static IEnumerable<WalkFile> WithoutFoldersOfSeveral(IReadOnlyList<WalkFile> files)
    {
        HashSet<string> several =
        [
            .. files.Where(file => file.Plant.Source == PlantSource.ByFolder).GroupBy(file => NameText.Key(file.Plant.Code!))
                .Where(folder => folder.SelectMany(file => file.Tag.Codes).Select(NameText.Key).Distinct().ToList() is { Count: > 1 } codes && !codes.Contains(folder.Key))
                .Select(folder => folder.Key),
        ];
        return files.Select(file => file.Plant.Source == PlantSource.ByFolder && several.Contains(NameText.Key(file.Plant.Code!))
            ? file with { Plant = new PlantGuess(null, PlantSource.Unknown, $"Its folder “{file.Plant.Code}” holds tags of several plants, so the folder's name is no plant's.") }
            : file);
    }

    private static void DecideWalk(WalkFile[] files, int[] members)
    {
        if (!members.Any(i => files[i].Tag.Any))
        {
            return;
        }

        WalkFile? stray = members.Select(i => files[i]).FirstOrDefault(file => file.Tag.Any && file.Taken is null);
        foreach (IGrouping<DateTime, int> sameDay in members.Where(i => files[i].Taken is not null).GroupBy(i => files[i].Taken!.Value.Local.Date))
        {
            // A wrong clock among right ones is a day of its own: nothing tells how its photos lie between the others.
            int[] inOrder = [.. sameDay.OrderBy(i => files[i].Taken!.Value.Local).ThenBy(i => i)];
            Follow(files, inOrder, stray);
        }

        foreach (int i in members.Where(i => files[i].Taken is null))
        {
            files[i] = Timeless(files[i]);
        }
    }

    private static void Follow(WalkFile[] files, int[] inOrder, WalkFile? stray)
    {
        OpenTag? open = null;
        WalkFile? first = inOrder.Select(i => files[i]).FirstOrDefault(file => file.Tag.Any);
        foreach (int i in inOrder)
        {
            WalkFile file = files[i];
            if (file.Tag.Any)
            {
                (files[i], open) = Own(file, open);
            }
            else if (file.Plant.Code is not null)
            {
                bool differs = open?.Code is { } code && !Same(code, file.Plant.Code);
                files[i] = differs ? Doubtful(file, file.Plant, $"The tag taken before it says “{open!.Code}” ({open.Place}).") : file;
            }
            else if (open is null)
            {
                string before = first is null ? "No tag was photographed on that day." : $"It was taken at {OpenTag.Clock(file)}, before the first tag of the walk ({first.Item.Label} at {OpenTag.Clock(first)}).";
                files[i] = file with { Plant = new PlantGuess(null, PlantSource.Unknown, before) };
            }
            else
            {
                PlantGuess plant = open.Of(file);
                files[i] = stray is not null && plant.Code is not null
                    ? Doubtful(file, plant, $"The tag in {stray.Item.Label} has no capture time and may have come between.")
                    : file with { Plant = plant };
            }
        }
    }

    // What a photo with a tag in it shows, and which tag counts after it.
    private static (WalkFile File, OpenTag? Open) Own(WalkFile file, OpenTag? open)
    {
        if (file.Tag.Codes is [string code])
        {
            return (ByOwnTag(file, code), new OpenTag(file, code));
        }

        if (file.Tag.Codes.Count == 0)
        {
            PlantGuess plant = file.Plant.Code is null ? new PlantGuess(null, PlantSource.Unknown, "The tag in it could not be read.") : file.Plant;
            return (file with { Plant = plant }, new OpenTag(file, null));
        }

        // Beside the leaf lies its own tag, and the neighbour's hangs behind it: what came before says which.
        string all = string.Join(" and ", file.Tag.Codes.Select(one => $"“{one}”"));
        return open?.Code is { } before && file.Tag.Codes.Any(one => Same(one, before))
            ? (Doubtful(file, new PlantGuess(before, PlantSource.ByTag, $"Tags of {all} are in it; the one taken before it counts ({open.Place})."), null), open)
            : (Doubtful(file, file.Plant.Code is null ? new PlantGuess(null, PlantSource.Unknown, $"Tags of {all} are in it.") : file.Plant, $"Tags of {all} are in it, and nothing tells which counts."), new OpenTag(file, null));
    }

    private static WalkFile ByOwnTag(WalkFile file, string code)
    {
        PlantGuess plant = new(code, PlantSource.ByTag, $"The tag in it says “{code}”.");
        return file.Plant.Code is { } other && !Same(other, code)
            ? Doubtful(file, plant, file.Plant.Source == PlantSource.ByFolder ? $"But it lies in the folder “{other}”." : $"But its file name begins with “{other}”.")
            : file with { Plant = plant };
    }

    private static WalkFile Timeless(WalkFile file) => file.Tag.Codes switch
    {
        [string code] => Because(ByOwnTag(file, code), "It has no capture time, so no photo can follow it."),
        _ when file.Plant.Code is not null => file,
        _ when file.Tag.Any => file with { Plant = new PlantGuess(null, PlantSource.Unknown, "The tag in it leaves the plant open.") },
        _ => file with { Plant = new PlantGuess(null, PlantSource.Unknown, "It has no capture time, so nothing tells which tag came before it.") },
    };

    private static WalkFile Doubtful(WalkFile file, PlantGuess plant, string? more) =>
        (more is null ? file with { Plant = plant } : Because(file with { Plant = plant }, more)) with { PlantUnsure = true };

    private static WalkFile Because(WalkFile file, string more) => file with { Plant = file.Plant with { Because = $"{file.Plant.Because} {more}" } };

    private static bool Same(string a, string b) => NameText.Key(a) == NameText.Key(b);
}
