using System.Diagnostics;
using LeafScan.Frame;
using LeafScan.Leaves.Greenness;
using LeafScan.Leaves.Kinds;
using LeafScan.Leaves.Learned;
using LeafScan.Leaves.Needles;
using LeafScan.Leaves.Outline;
using LeafScan.Leaves.Reading;
using LeafScan.Leaves.WholePlant;
using LeafScan.Photos;
using OpenCvSharp;

namespace LeafScan.Leaves;

/// <summary>The door of this project: a photo in, its reading and its mask out.</summary>
public static class LeafMeter
{
    /// <summary>
    /// Measures every leaf of a photo. A photo in which no leaf is found gives a refusal with reason and advice.
    /// </summary>
    /// <param name="photo">Upright sRGB photo; not changed and not disposed.</param>
    /// <param name="options">How to measure; its hash is stored with each reading.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static LeafMeasurement Measure(Photo photo, MeasureOptions options, CancellationToken cancel = default) => Measure(photo, options, [], cancel);

    /// <summary>The same with what a person said of the outlines.</summary>
    /// <param name="photo">Upright sRGB photo; not changed and not disposed.</param>
    /// <param name="options">How to measure.</param>
    /// <param name="edits">Outlines that are others or no leaves, in the order they were said; empty for none.</param>
    /// <param name="cancel">Stops between steps.</param>
    public static LeafMeasurement Measure(Photo photo, MeasureOptions options, IReadOnlyList<OutlineEdit> edits, CancellationToken cancel = default)
    {
        FrameReading frame = ReadFrame(photo, options, cancel);
        using Mat? balanced = options.Frame.Balance ? FrameReader.Balanced(photo.Pixels, frame) : null;
        Mat pixels = balanced ?? photo.Pixels;
        using Mat? painted = FrameReader.WithoutPrint(pixels, frame);
        Mat plain = painted ?? pixels;
        KindDecision kind = TellKind(plain, options);
        if (kind.Refusal is { } refused)
        {
            return Refused(photo, refused.Reason, refused.Advice);
        }

        cancel.ThrowIfCancellationRequested();
        if (kind.Kind != PhotoKind.Leaf)
        {
            // The rim of a whole plant's photo is a wall or the sky.
            bool asTaken = kind.Kind == PhotoKind.Plant && frame.PaperWhite is not null;
            return asTaken ? Foliage(photo, photo.Pixels, frame.WithoutPaper(), kind, options, cancel) : Foliage(photo, plain, frame, kind, options, cancel);
        }

        MeasureOptions looking = options with { Outline = LeafScale.Search(options.Outline, frame, plain.Size()) };
        List<JudgedLeaf> judged = LeafFinder.Find(pixels, plain, looking, edits, cancel, out (string Reason, string Advice) none);
        if (judged.Count == 0)
        {
            string looks = kind.ElseLooksLike is { } thing ? $" The photo looks like {thing}." : string.Empty;
            return Refused(photo, none.Reason + looks, none.Advice);
        }

        Mat mask = new(photo.Pixels.Size(), MatType.CV_8UC1, Scalar.All(0));
        try
        {
            List<LeafReading> leaves = judged.ConvertAll(leaf => LeafScale.Apply(LeafReader.Read(leaf, mask, options), frame));
            return new LeafMeasurement { Reading = ReadingOf(photo, frame, kind, leaves), Mask = mask };
        }
        catch
        {
            mask.Dispose();
            throw;
        }
        finally
        {
            judged.ForEach(leaf => leaf.Dispose());
        }
    }

    private static FrameReading ReadFrame(Photo photo, MeasureOptions options, CancellationToken cancel)
    {
        using Activity? step = Steps.Begin("frame");
        return FrameReader.Read(photo.Pixels, options.Frame, cancel);
    }

    private static KindDecision TellKind(Mat plain, MeasureOptions options)
    {
        using Activity? step = Steps.Begin("kind");
        return KindDecision.For(plain, options, ModelFiles.Kind);
    }

    // A twig or a whole plant: one "leaf" that is all of its foliage.
    private static LeafMeasurement Foliage(Photo photo, Mat pixels, FrameReading frame, KindDecision kind, MeasureOptions options, CancellationToken cancel)
    {
        using KindMeasurement measured = kind.Kind == PhotoKind.Twig
            ? TwigMeter.Measure(pixels, options.Twig, cancel, options.Healthy)
            : CrownMeter.Measure(pixels, options.Crown, photo.Facts.Taken, cancel, options.Healthy, options.Frame.Balance && frame.Sheet is not null);
        if (measured.Refusal is { } refused)
        {
            return Refused(photo, refused.Reason, refused.Advice);
        }

        // Nothing in the frame stands where a plant's foliage does, so only a twig beside a scale gets millimetres.
        LeafReading reading = kind.Kind == PhotoKind.Twig ? LeafScale.ApplyToFoliage(measured.Reading!, frame, measured.NeedleLengthPx, measured.WorkScale) : measured.Reading!;
        return new LeafMeasurement { Reading = ReadingOf(photo, frame, kind, [reading]), Mask = measured.Mask!.Clone(), Sound = SoundOf(measured, photo, kind), NeedleLengthPx = measured.NeedleLengthPx };
    }

    // No colour where there was none to be had: a guess is nobody's healthy colour.
    private static HealthyColour? SoundOf(KindMeasurement measured, Photo photo, KindDecision kind) => measured.Sound is not { Guessed: false } sound ? null : new()
    {
        Sha256 = photo.Facts.Sha256,
        Kind = kind.Kind.Name(),
        RedToGreen = Math.Round(sound.RedToGreen, 4),
        BlueToGreen = Math.Round(sound.BlueToGreen, 4),
        Scatter = Math.Round(sound.Scatter, 4),
        LightKnown = measured.LightKnown,
    };

    private static PhotoReading ReadingOf(Photo photo, FrameReading frame, KindDecision kind, List<LeafReading> leaves) => new()
    {
        File = photo.Facts.FileName,
        Sha256 = photo.Facts.Sha256,
        Width = photo.Facts.WidthPx,
        Height = photo.Facts.HeightPx,
        Taken = photo.Facts.Taken?.ToString(),
        Kind = kind.Kind.Name(),
        Plant = frame.Tags.Select(tag => tag.Text.PlantCode).Distinct(StringComparer.Ordinal).Take(2).ToArray() is [string only] ? only : null,
        PixelsPerMm = kind.Kind != PhotoKind.Plant && leaves.MaxBy(l => l.AreaPx) is { } largest ? LeafScale.PixelsPerMm(largest, frame) : null,
        Flags = [.. photo.Flags, .. kind.Flags, .. frame.Flags],
        Leaves = leaves.OrderByDescending(l => l.AreaPx).ToList(),
    };

    // Of a cut-off file much may be plain grey: what was seen in it is then no matter of how the leaf was laid.
    private static LeafMeasurement Refused(Photo photo, string reason, string advice)
        => photo.Flags.Contains(Flag.DamagedFile.Name)
            ? new() { Refusal = new PhotoRefusal(photo.Facts.FileName, $"{Flag.DamagedFile.Meaning} In what could be read: {reason}", "Copy the photo again from the phone; if it is no better there, take it again.") }
            : new() { Refusal = new PhotoRefusal(photo.Facts.FileName, reason, advice) };
}

/// <summary>What measuring one photo gave: a reading with its mask, or a refusal. Owns its mask.</summary>
public sealed class LeafMeasurement : IDisposable
{
    /// <summary>The reading, or null when the photo was refused.</summary>
    public PhotoReading? Reading { get; init; }

    /// <summary>Why nothing could be measured, or null.</summary>
    public PhotoRefusal? Refusal { get; init; }

    /// <summary>8-bit one-channel picture of <see cref="MaskCode"/> values, size of the photo; null when refused.</summary>
    public Mat? Mask { get; init; }

    /// <summary>The sound colour a twig or whole plant was measured against; null for leaves, refusals and where nothing looks alive.</summary>
    public HealthyColour? Sound { get; init; }

    /// <summary>Length of all needles of a twig in view, pixels of the photo; null where they cannot be seen one by one, and for all else.</summary>
    public double? NeedleLengthPx { get; init; }

    /// <inheritdoc />
    public void Dispose() => Mask?.Dispose();
}
