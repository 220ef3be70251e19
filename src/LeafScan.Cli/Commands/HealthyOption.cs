using System.CommandLine;
using LeafScan.Cli.Screen;
using LeafScan.Leaves;
using LeafScan.Leaves.Greenness;
using LeafScan.Photos;
using LeafScan.Records;

namespace LeafScan.Cli.Commands;

/// <summary>--healthy: a photo of a twig or plant in health, whose colour stands in where the plant has no sound part left.</summary>
internal static class HealthyOption
{
    /// <summary>A new option.</summary>
    public static Option<string?> New(string description) => new("--healthy") { Description = description, HelpName = "PHOTO" };

    /// <summary>Reads the colour; says on standard error where the photo is hardly one of a healthy plant.</summary>
    /// <param name="world">The surroundings.</param>
    /// <param name="path">The photo.</param>
    /// <param name="how">How photos are measured.</param>
    /// <param name="safe">What did not happen when the photo is of no use, a sentence.</param>
    /// <param name="cancel">Stops between steps.</param>
    /// <exception cref="CommandException">The photo is of no use.</exception>
    public static HealthyOnRecord Read(Surroundings world, string path, MeasureOptions how, string safe, CancellationToken cancel)
    {
        using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits(), cancel);
        if (outcome.Photo is not { } photo)
        {
            throw Useless(outcome.Refusal!, safe);
        }

        HealthyPhoto healthy = HealthyPhoto.Read(photo, how, cancel);
        if (healthy.Colour is not { } colour)
        {
            throw Useless(healthy.Refusal!, safe);
        }

        if (healthy.Damage >= HealthyPhoto.HardlyHealthyFrom)
        {
            world.Err.WriteLine($"On the healthy photo {photo.Facts.FileName} {Words.Percent(healthy.Damage)} % of the foliage is discoloured; the colour of the rest is taken.");
        }

        if (!colour.LightKnown)
        {
            world.Err.WriteLine($"Nothing white lies in the healthy photo {photo.Facts.FileName}: its light cannot be compared with that of other photos, so only a clear loss of green counts.");
        }

        return new HealthyOnRecord(photo.Facts.FileName, colour);
    }

    private static CommandException Useless(PhotoRefusal refusal, string safe)
        => new(ExitCode.WrongUse, Words.OneLine($"The healthy photo {refusal.FileName} is of no use: {refusal.Reason} {safe} {refusal.Advice}"));
}
