using System.Globalization;
using LeafScan.Leaves;
using LeafScan.Leaves.Reading;

namespace LeafScan.Notes.Cards;

/// <summary>A card for other programs (schema leafscan.card/1, docs/schemas/card-1.json).</summary>
public static class CardDocument
{
    /// <summary>The document, to be written as JSON in camel case.</summary>
    public static object Of(MeasureCard card)
    {
        LeafShares shares = ReadingRounding.Round(card.Shares);
        return new
        {
            schema = "leafscan.card/1",
            tool = ToolVersion.Current,
            heading = card.Heading,
            plant = card.Plant is not { } plant ? null : new
            {
                code = plant.Code,
                place = plant.PlaceName,
                name = plant.Name,
                species = plant.Species,
                cultivar = plant.Facts.Cultivar,
                block = plant.Facts.Block,
                row = plant.Facts.Row,
                position = plant.Facts.Position,
            },
            date = card.Day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            kind = card.Kind,
            of = card.IsOfPhoto ? "photo" : "walk",
            damage = Math.Round(card.Damage, 6),
            damageLow = Math.Round(card.Interval.Low, 6),
            damageHigh = Math.Round(card.Interval.High, 6),
            level = card.Interval.Level,
            leaves = card.LeafCount,
            photos = card.PhotoCount,
            shares = new { shares.Sound, shares.Stippled, shares.Yellowed, shares.Browned, shares.Chewed, shares.Unassessed },
            words = CardWords.Sentence(card).Replace('\u00A0', ' '),
            photo = card.Photo is not { } photo ? null : new { file = photo.FileName, sha256 = photo.Sha256, leaf = photo.Leaf, damage = Math.Round(photo.Damage, 6) },
            flags = card.Flags,
            limits = CardWords.Limits,
            by = card.By,
            contact = card.Contact,
        };
    }
}
