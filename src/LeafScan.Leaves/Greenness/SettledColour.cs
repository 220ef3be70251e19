using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves.Greenness;

/// <summary>
/// Which sound colour a twig's or plant's damage is measured against: its own, or that of a photo of it in health where it has lost its
/// green all over. Without such a photo a plant without any green keeps its own colour, and the interval says what it would be had it been
/// a green one.
/// </summary>
/// <param name="Own">The sound colour in use.</param>
/// <param name="Bounds">Damage with a stricter and a more generous threshold.</param>
/// <param name="Flags">Doubts about it.</param>
/// <param name="HealthySha256">The healthy photo that was compared with; null for none.</param>
internal sealed record SettledColour(OwnGreen Own, (double Low, double High) Bounds, IReadOnlyList<string> Flags, string? HealthySha256)
{
    // Two photos of one sound twig on white differ by less than this in ln(R/G) (renders); in unknown light cameras differ more.
    private const double SameWithin = 0.1;
    private const double SameWithinUnknown = 0.22;

    // How far the light may be off in ln(R/G), for the interval: where white was seen in both photos, and where it was not.
    private const double KnownSlack = 0.03;
    private const double LightSlack = 0.12;

    /// <summary>Settles it and changes the codes where the own colour does not hold.</summary>
    /// <param name="codes"><see cref="MaskCode"/>, judged against the own colour; changed.</param>
    /// <param name="planes">Colour.</param>
    /// <param name="own">The own colour that was found.</param>
    /// <param name="bounds">Bounds of damage against it.</param>
    /// <param name="healthy">Colour of the healthy photo; null for none.</param>
    /// <param name="light">The light of this photo.</param>
    /// <param name="look">Thresholds, and what this photo shows.</param>
    public static SettledColour Settle(
        Mat codes, ColourPlanes planes, OwnGreen own, (double Low, double High) bounds, HealthyColour? healthy, FrameLight light, FoliageLook look)
    {
        if (healthy is null)
        {
            List<string> doubts = own.Unsure ? [Flag.SoundColourUnsure.Name] : [];
            if (own is { Unsure: true, Guessed: false })
            {
                OwnGreen green = OwnGreen.Guess(light);
                bounds = bounds with { High = Math.Max(bounds.High, AgainstColour.Judge(codes, planes, green, look, 0, change: false).Damage) };
            }

            return new SettledColour(own, bounds, doubts, null);
        }

        bool comparable = light.Known && healthy.LightKnown && healthy.Kind == look.Kind;
        List<string> flags = comparable ? [] : [Flag.LightNotCompared.Name];
        OwnGreen then = new(
            healthy.RedToGreen + (comparable ? light.RedToGreen : 0), healthy.BlueToGreen + (comparable ? light.BlueToGreen : 0), healthy.Scatter, Unsure: false);
        double lost = own.RedToGreen - then.RedToGreen;
        double same = comparable ? SameWithin : SameWithinUnknown;
        if (!own.Unsure && lost < -same)
        {
            flags.Add(Flag.HealthyPhotoUnlike.Name);
        }

        if (!own.Unsure && lost <= same)
        {
            return new SettledColour(own, bounds, flags, healthy.Sha256);
        }

        double slack = comparable ? KnownSlack : LightSlack;
        (double _, double low, double high) = AgainstColour.Judge(codes, planes, then, look, slack, change: true);
        return new SettledColour(then, (low, high), flags, healthy.Sha256);
    }
}

/// <summary>What a photo of foliage shows and from where on its tissue is damage.</summary>
/// <param name="Kind">twig or plant.</param>
/// <param name="DiscolouredFrom">Loss of green, ln units.</param>
/// <param name="BrownedFrom">ln(R/G) of dead tissue.</param>
internal readonly record struct FoliageLook(string Kind, double DiscolouredFrom, double BrownedFrom);
