using System.Collections.Frozen;

namespace LeafScan.Photos;

/// <summary>
/// A named doubt about a photo or a leaf reading. Doubt is never silence and never an exception: it travels with the
/// number. This is the one registry; code, JSON, pages and docs all read it.
/// </summary>
/// <param name="Name">Stable camelCase name, as written to JSON.</param>
/// <param name="Meaning">What it says, one sentence.</param>
/// <param name="Advice">What to do about it, one sentence.</param>
public sealed record Flag(string Name, string Meaning, string Advice)
{
    /// <summary>The file is cut off or corrupt; pixels may be invented by the decoder.</summary>
    public static readonly Flag DamagedFile = new("damagedFile",
        "The file is cut off or corrupt, so part of the picture may not be real.",
        "Copy the photo again from the phone; do not rely on this reading.");

    /// <summary>No scale was found: areas in mm and densities are not given.</summary>
    public static readonly Flag NoScale = new("noScale",
        "Nothing in the frame gives a scale, so there are shares but no millimetres.",
        "Nothing to do for shares; lay a scale sheet beside the leaf for densities.");

    /// <summary>The scale is rough.</summary>
    public static readonly Flag ScaleRough = new("scaleRough",
        "The scale comes from a tag or from fewer than three squares of a sheet, so lengths may be off by up to 6 percent.",
        "Show at least three black corner squares of the scale sheet.");

    /// <summary>The scale sheet is not flat.</summary>
    public static readonly Flag SheetBent = new("sheetBent",
        "The scale sheet is bent or folded, so lengths and areas on it are less sure.",
        "Lay the sheet on a board or clip it to one.");

    /// <summary>The camera's tones are not those of the scale sheet's print.</summary>
    public static readonly Flag ToneOff = new("toneOff",
        "The scale sheet's paper is burnt out or its grey steps are not as printed, so pale specks and colours are less sure.",
        "Take it again with less exposure and without HDR, night or beauty modes.");

    /// <summary>The colour of the light was taken from plain paper about the leaf.</summary>
    public static readonly Flag WhiteFromPaper = new("whiteFromPaper",
        "The light has a colour; it was taken out as if the plain surface around the leaf were white paper.",
        "Nothing to do on white paper; on any other surface photograph the leaf again on white paper or on a scale sheet.");

    /// <summary>The network and the colour way do not agree on a twig or plant.</summary>
    public static readonly Flag WaysDiffer = new("waysDiffer",
        "The network and the plain comparison of colours do not agree on this twig or plant; the range holds what both say.",
        "Look at the overlay whether it follows the foliage and its damage; take the photo again before a plain surface if it does not.");

    /// <summary>The whole photo lacks fine detail.</summary>
    public static readonly Flag Blurred = new("blurred",
        "The photo is blurred, so small specks may be missed.",
        "Take it again with the focus on the leaf or the sheet and a steady hand.");

    /// <summary>The photo is too dark to judge colours well.</summary>
    public static readonly Flag TooDark = new("tooDark",
        "The photo is too dark for a sure colour judgement.",
        "Take it again with more light.");

    /// <summary>Much of the photo is burnt out.</summary>
    public static readonly Flag TooBright = new("tooBright",
        "Much of the photo is burnt out.",
        "Take it again in shade or with less exposure.");

    /// <summary>Glare covers a good part of the leaf.</summary>
    public static readonly Flag Glare = new("glare",
        "Shine covers part of the leaf; that part was not judged.",
        "Turn the leaf or stand so that the sun is not mirrored.");

    /// <summary>The leaf is small in the frame.</summary>
    public static readonly Flag LeafTooSmall = new("leafTooSmall",
        "The leaf covers few pixels, so specks cannot be counted one by one.",
        "Come closer until the leaf fills most of the frame.");

    /// <summary>The leaf is cut by the edge of the photo.</summary>
    public static readonly Flag LeafCutOff = new("leafCutOff",
        "The leaf runs out of the frame; only the visible part was measured.",
        "Take it again with the whole leaf in the frame.");

    /// <summary>The outline is not certain.</summary>
    public static readonly Flag OutlineUnsure = new("outlineUnsure",
        "The edge of the leaf could not be told surely from what lies behind it.",
        "Lay the leaf on a plain sheet, or hold a sheet behind it.");

    /// <summary>Specks touch each other so much that their number is a lower bound.</summary>
    public static readonly Flag CountIsLowerBound = new("countIsLowerBound",
        "Specks run together, so their number is at least the one given.",
        "Rely on the share of area.");

    /// <summary>Specks have run together into fields in which a good part of them are likely places that the network names, as many as the area allows.</summary>
    public static readonly Flag CountEstimated = new("countEstimated",
        "Specks run together: in such fields their number is an estimate, and their places are likely ones only.",
        "Rely on the share of area.");

    /// <summary>Too few pixels a speck: no count, share by texture only.</summary>
    public static readonly Flag SpecksTooFine = new("specksTooFine",
        "Specks cover too few pixels to be counted; the share comes from texture and is rough.",
        "Come closer.");

    /// <summary>The edge of the leaf is cut straight and cannot be rebuilt.</summary>
    public static readonly Flag StraightCut = new("straightCut",
        "The leaf ends in a straight cut that cannot be rebuilt; the missing part was not counted as chewed.",
        "Photograph the whole leaf.");

    /// <summary>The photo had no colour at all.</summary>
    public static readonly Flag NoColour = new("noColour",
        "The photo is grey, so yellow and brown cannot be told apart from sound tissue.",
        "Take it again in colour.");

    /// <summary>No part of the leaf could be taken as sound: the leaf's own colour is a guess.</summary>
    public static readonly Flag SoundColourUnsure = new("soundColourUnsure",
        "Hardly any of the leaf looks sound, so its own healthy colour is a guess.",
        "Compare with a sound leaf of the same plant.");

    /// <summary>The light of a healthy photo and of this one could not be compared.</summary>
    public static readonly Flag LightNotCompared = new("lightNotCompared",
        "Nothing white lies in both this photo and the healthy one, so a difference of light may count as a difference of colour.",
        "Lay twigs on white paper or the scale sheet in both photos; photograph plants in the same light.");

    /// <summary>The foliage is greener than on its healthy photo.</summary>
    public static readonly Flag HealthyPhotoUnlike = new("healthyPhotoUnlike",
        "The foliage is greener than on its healthy photo, so it was measured by its own colour.",
        "Look whether the healthy photo shows this plant, and sound.");

    /// <summary>What the photo shows is not certain; it was measured as a leaf.</summary>
    public static readonly Flag KindUnsure = new("kindUnsure",
        "The photo may not show a single leaf; it was measured as one.",
        "Look at the overlay; if it shows a leaf all is well.");

    /// <summary>There is a plant tag that could not be read.</summary>
    public static readonly Flag TagUnread = new("tagUnread",
        "A plant tag seems to be in the photo and could not be read, so the photos after it have no plant.",
        "Say which plant it is with photos assign; photograph tags from near, in focus and clean.");

    /// <summary>Tag, folder and file name disagree about the plant.</summary>
    public static readonly Flag PlantUnsure = new("plantUnsure",
        "Tag, folder and file name do not agree on the plant.",
        "Look which plant it is, and correct it with photos assign if need be.");

    /// <summary>Much of a whole plant has the colours of fall.</summary>
    public static readonly Flag FallColourPossible = new("fallColourPossible",
        "Much of the plant has the colours of fall, so colour that was lost may be the season and not damage.",
        "Compare with the same plant in summer, and look at its leaves from near.");

    /// <summary>A tap sheet was seen in one photo only, so nothing tells what walks.</summary>
    public static readonly Flag OnePhotoOnly = new("onePhotoOnly",
        "One photo cannot tell a mite from dust, so there are candidates and no count.",
        "Take a second photo of the same sheet five to fifteen seconds after the first.");

    /// <summary>The smallest mite wanted covers too few pixels of a tap photo.</summary>
    public static readonly Flag MitesTooSmall = new("mitesTooSmall",
        "The smallest mites cover less than three pixels or drown in blur and noise, so some may be missed.",
        "Come closer, use a smaller sheet or the phone's full resolution.");

    /// <summary>Nothing says how many seconds passed between two tap photos.</summary>
    public static readonly Flag SecondsUnknown = new("secondsUnknown",
        "Nothing says how many seconds lie between the photos; ten were taken to tell mites from faster things.",
        "Say the seconds, or use photos with the camera's own date and time.");

    /// <summary>Many specks of a tap sheet moved alike.</summary>
    public static readonly Flag WindBlown = new("windBlown",
        "Many specks moved the same way, as wind moves dust; they were not counted as mites.",
        "Tap again out of the wind.");

    /// <summary>Much of what lay on a tap sheet moved.</summary>
    public static readonly Flag SheetDisturbed = new("sheetDisturbed",
        "Most of what lay on the sheet moved or vanished between the photos, so the count is doubtful.",
        "Lay the sheet down, do not touch it, and take both photos again.");

    /// <summary>Two tap photos share only a part of the sheet.</summary>
    public static readonly Flag SheetPartly = new("sheetPartly",
        "Part of the sheet is in one photo only; mites there were not counted.",
        "Keep the whole sheet in the frame of both photos.");

    /// <summary>A tap sheet was photographed from the side.</summary>
    public static readonly Flag SheetTilted = new("sheetTilted",
        "The sheet was photographed from the side, so its far part shows smaller mites less well.",
        "Hold the phone flat above the sheet.");

    /// <summary>Two files of a tap sheet seem to be one photo.</summary>
    public static readonly Flag SamePhoto = new("samePhoto",
        "Two of the photos differ so little that one seems to be a copy of the other, so nothing can have moved between them.",
        "Name two photos that were taken some seconds apart.");

    /// <summary>A hand moved while a tap photo was taken.</summary>
    public static readonly Flag Shaken = new("shaken",
        "The hand moved while a photo was taken, so specks are smeared one way and small mites may be missed.",
        "Hold the phone with both hands or rest it on something, use more light, and take both photos again.");

    /// <summary>Hard edges of light lie on a tap sheet.</summary>
    public static readonly Flag LightPatchy = new("lightPatchy",
        "Hard edges of sun and shadow or folds lie on the sheet; specks under them were not judged.",
        "Shade the whole sheet with your body, or lay it flat in even light.");

    /// <summary>Every flag there is, by name.</summary>
    public static FrozenDictionary<string, Flag> All { get; } = new[]
    {
        DamagedFile, NoScale, ScaleRough, SheetBent, ToneOff, WhiteFromPaper, WaysDiffer, Blurred, TooDark, TooBright, Glare, LeafTooSmall, LeafCutOff, OutlineUnsure,
        CountIsLowerBound, CountEstimated, SpecksTooFine, StraightCut, NoColour, SoundColourUnsure, LightNotCompared, HealthyPhotoUnlike, KindUnsure, TagUnread, PlantUnsure, FallColourPossible,
        OnePhotoOnly, MitesTooSmall, SecondsUnknown, WindBlown, SheetDisturbed, SheetPartly, SheetTilted, LightPatchy, Shaken, SamePhoto,
    }.ToFrozenDictionary(flag => flag.Name, StringComparer.Ordinal);
}
