using LeafScan.Leaves.Reading;
using LeafScan.Notes.Client;
using LeafScan.Records;
using LeafScan.Trends;

namespace LeafScan.Notes.Cards;

/// <summary>What a card is made with besides the record.</summary>
public sealed record CardRequest
{
    /// <summary>How days are written.</summary>
    public NoteForms Forms { get; init; } = new(DateForm.DayMonthInWords, false);

    /// <summary>Who sends it.</summary>
    public string? By { get; init; }

    /// <summary>How to reach them.</summary>
    public string? Contact { get; init; }

    /// <summary>Draws a photo on record, of it one leaf where a number is given (1 for the largest). Null, the default, for a card without a picture.</summary>
    public Func<PhotoOnRecord, int?, DrawnPhoto>? Draw { get; init; }
}

/// <summary>Composes cards.</summary>
/// <param name="request">What else goes in.</param>
public sealed class CardComposer(CardRequest request)
{
    private const int MostPictureTries = 3;

    /// <summary>The card of a plant on its last walk, or on a day; null when nothing that counts was measured on it then.</summary>
    /// <param name="store">The record.</param>
    /// <param name="plant">The plant.</param>
    /// <param name="day">Day of the walk; null for the last.</param>
    public MeasureCard? OfPlant(RecordStore store, Plant plant, DateOnly? day)
    {
        IReadOnlyList<LeafOnRecord> all = store.LeavesOfPlant(plant.Id);
        DateOnly? walk = SteadyChance.SeriesOf(all).LastOrDefault(point => point.Leaves.Damage is not null && (day is null || point.WalkedOn == day))?.WalkedOn;
        LeafOnRecord[] leaves = [.. all.Where(leaf => leaf.WalkedOn == walk)];
        if (Card(plant, walk, isOfPhoto: false, plant.Name ?? plant.Species ?? plant.Code, leaves) is not { } card)
        {
            return null;
        }

        // The leaf nearest to the mean stands for the others; a photo that is gone gives way to the next.
        Dictionary<long, PhotoOnRecord> photos = store.PhotosOfPlant(plant.Id).ToDictionary(photo => photo.Id);
        foreach (LeafOnRecord leaf in leaves.OrderBy(leaf => Math.Abs(leaf.Damage - card.Damage)).ThenBy(leaf => leaf.PhotoId).Take(MostPictureTries))
        {
            int? number = leaves.Count(other => other.PhotoId == leaf.PhotoId) == 1 ? null : leaf.Ordinal + 1;
            PhotoOnRecord? photo = photos.GetValueOrDefault(leaf.PhotoId);
            NotePicture? picture = photo is not null && File.Exists(photo.PathSeen) ? request.Draw?.Invoke(photo, number).Picture : null;
            if (photo is not null && (picture is not null || request.Draw is null))
            {
                return card with { Picture = picture, Photo = new CardPhoto(photo.FileName, photo.Sha256, number, leaf.Damage), Flags = leaf.Flags };
            }
        }

        return card with { PictureMissing = "No picture: the photos are no longer at hand. The figures were measured on them and stand." };
    }

    /// <summary>The card of one photo on record, or of one of its leaves; null when no leaf of it counts.</summary>
    /// <param name="store">The record.</param>
    /// <param name="photo">The photo.</param>
    /// <param name="leaf">The leaf, 1 for the largest; null for all.</param>
    public MeasureCard? OfPhoto(RecordStore store, PhotoOnRecord photo, int? leaf)
    {
        if (store.ReadingOf(photo.Id) is not { } reading)
        {
            return null;
        }

        Plant? plant = photo.PlantId is { } id ? store.FindPlants(photo.PlantCode!, photo.PlaceName).FirstOrDefault(one => one.Id == id) : null;
        string heading = plant?.Name ?? plant?.Species ?? plant?.Code ?? photo.FileName;
        MeasureCard? card = OfReading(plant, photo.WalkedOn, heading, reading, leaf);
        return card is null || request.Draw is not { } draw ? card
            : draw(photo, leaf).Picture is { } picture ? card with { Picture = picture }
            : card with { PictureMissing = "No picture: the photo is no longer at hand. The figures were measured on it and stand." };
    }

    /// <summary>The card of a photo that is on no record; null when no leaf of it counts.</summary>
    /// <param name="drawn">The photo, measured and drawn.</param>
    /// <param name="leaf">The leaf, 1 for the largest; null for all.</param>
    public MeasureCard? OfFile(DrawnPhoto drawn, int? leaf)
    {
        ArgumentNullException.ThrowIfNull(drawn.Reading);
        DateOnly? day = drawn.Facts?.Taken is { } taken ? DateOnly.FromDateTime(taken.Local) : null;
        return OfReading(null, day, drawn.Reading.File, drawn.Reading, leaf) is { } card ? card with { Picture = drawn.Picture } : null;
    }

    private MeasureCard? OfReading(Plant? plant, DateOnly? day, string heading, PhotoReading reading, int? leaf)
    {
        LeafOnRecord[] all = [.. reading.Leaves.Select((one, place) => AsOnRecord(one, place, reading, day))];
        LeafOnRecord[] shown = leaf is { } number ? [.. all.Skip(number - 1).Take(1)] : all;
        return Card(plant, day, isOfPhoto: true, heading, shown) is not { } card ? null : card with
        {
            Photo = new CardPhoto(reading.File, reading.Sha256, leaf, card.Damage),
            Flags = [.. shown.SelectMany(one => one.Flags).Distinct(StringComparer.Ordinal)],
        };
    }

    private MeasureCard? Card(Plant? plant, DateOnly? day, bool isOfPhoto, string heading, LeafOnRecord[] leaves)
    {
        LeafFigures figures = LeafFigures.Of(leaves, new TrendOptions(), SteadyChance.New());
        return figures is not { Damage: { } damage, DamageInterval: { } interval, Shares: { } shares } ? null : new MeasureCard
        {
            Forms = request.Forms,
            Heading = heading,
            Under = plant is null ? [] : PlantLines.Of(plant),
            Plant = plant,
            Day = day,
            Kind = leaves[0].Kind,
            IsOfPhoto = isOfPhoto,
            Damage = damage,
            Interval = interval,
            LeafCount = figures.LeafCount,
            PhotoCount = figures.PhotoCount,
            Shares = shares,
            By = request.By,
            Contact = request.Contact,
        };
    }

    // Figures of leaves that are on no record are put together as those of the record are.
    private static LeafOnRecord AsOnRecord(LeafReading leaf, int place, PhotoReading photo, DateOnly? day) => new()
    {
        LeafId = place,
        Kind = photo.Kind,
        PlantId = 0,
        WalkId = 0,
        WalkedOn = day ?? DateOnly.MinValue,
        PhotoId = 0,
        FileName = photo.File,
        Ordinal = place,
        AreaPx = leaf.AreaPx,
        AreaMm2 = leaf.AreaMm2,
        Shares = leaf.Shares,
        Damage = leaf.Damage,
        DamageLow = leaf.DamageLow,
        DamageHigh = leaf.DamageHigh,
        SpeckCount = leaf.SpeckCount,
        SpeckDensityPerCm2 = leaf.SpeckDensityPerCm2,
        SpeckDiameterMedianPx = leaf.SpeckDiameterMedianPx,
        Flags = [.. photo.Flags.Union(leaf.Flags, StringComparer.Ordinal)],
    };
}
