using System.Globalization;
using LeafScan.Leaves;
using LeafScan.Leaves.Greenness;
using LeafScan.Photos;
using LeafScan.Records;

namespace LeafScan.Walks.Foliage;

/// <summary>The sound colour off a photo of a twig or plant in health, with the checks and words that every door says.</summary>
/// <param name="Healthy">What is kept; null when the photo is of no use.</param>
/// <param name="Refusal">Why it is of no use, and what to do; null when it is of use.</param>
/// <param name="Remarks">What speaks against it although it is taken, whole sentences.</param>
public sealed record HealthyFromPhoto(HealthyOnRecord? Healthy, PhotoRefusal? Refusal, IReadOnlyList<string> Remarks)
{
    /// <summary>What holds for every plant that gets one.</summary>
    public const string OldNumbersStay = "Photos that are on record already keep their numbers.";

    /// <summary>What happened, a sentence; null when the photo is of use.</summary>
    public string? Useless => Refusal is { } refusal ? $"The healthy photo {refusal.FileName} is of no use: {refusal.Reason}" : null;

    /// <summary>Reads it.</summary>
    /// <param name="path">The photo's file.</param>
    /// <param name="how">How photos are measured; a kind that is said counts.</param>
    /// <param name="cancel">Stops between steps.</param>
    /// <param name="name">What people call the photo; null for the file's name.</param>
    /// <param name="sha256">Fingerprint that the file must have, lower-case hex; null for any.</param>
    public static HealthyFromPhoto Read(string path, MeasureOptions how, CancellationToken cancel, string? name = null, string? sha256 = null)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits(), cancel);
        if (outcome.Photo is not { } photo)
        {
            return No(outcome.Refusal!, name);
        }

        if (sha256 is not null && photo.Facts.Sha256 != sha256)
        {
            return No(new PhotoRefusal(photo.Facts.FileName, "Its file is another one than when it was measured.", "Put the file back where it was."), name);
        }

        HealthyPhoto healthy = HealthyPhoto.Read(photo, how, cancel);
        if (healthy.Colour is not { } colour)
        {
            return No(healthy.Refusal!, name);
        }

        string file = name ?? photo.Facts.FileName;
        List<string> remarks = [];
        if (healthy.Damage >= HealthyPhoto.HardlyHealthyFrom)
        {
            remarks.Add(string.Create(CultureInfo.InvariantCulture, $"On the healthy photo {file} {healthy.Damage * 100:0.0} % of the foliage is discoloured; the colour of the rest is taken."));
        }

        if (!colour.LightKnown)
        {
            remarks.Add($"Nothing white lies in the healthy photo {file}: its light cannot be compared with that of other photos, so only a clear loss of green counts.");
        }

        return new HealthyFromPhoto(new HealthyOnRecord(file, colour), null, remarks);
    }

    private static HealthyFromPhoto No(PhotoRefusal refusal, string? name) => new(null, name is null ? refusal : refusal with { FileName = name }, []);
}
