using System.Globalization;
using LeafScan.Leaves;
using LeafScan.Photos;
using LeafScan.Training.Kinds;
using LeafScan.Training.Rendering.Backgrounds;
using LeafScan.Walks.Tags;
using OpenCvSharp;

namespace LeafScan.Training.FrameCheck;

/// <summary>
/// How many tag photos on soil, mulch, gravel and foliage are read, how many are noticed without being read, how many pass unnoticed,
/// and how many photos of leaves are taken for tags. A tag that passes unnoticed is the one harm: leaves after it go to the wrong plant.
/// </summary>
/// <param name="seed">First seed.</param>
/// <param name="pictures">Pictures for each line.</param>
/// <param name="tell">Takes a line of progress.</param>
public sealed class TagNoticeRun(int seed, int pictures, Action<string> tell)
{
    private static readonly BackgroundKind[] Grounds = [BackgroundKind.Soil, BackgroundKind.Mulch, BackgroundKind.Gravel, BackgroundKind.Foliage];

    /// <summary>The table as Markdown.</summary>
    /// <param name="leafPhotos">Photos of leaves without a tag.</param>
    public string Table(IReadOnlyList<string> leafPhotos)
    {
        List<string> lines = ["| photo | pixels to a square | read | noticed, not read | unnoticed |", "| --- | ---: | ---: | ---: | ---: |"];
        foreach (string trouble in (string[])["near", "far", "shaken", "tilted"])
        {
            foreach (double px in (double[])[1.5, 2.5, 4, 6])
            {
                lines.Add(Line(trouble, px));
            }

            tell(trouble);
        }

        int taken = leafPhotos.Count(path => TagLooker.Look(path, new MeasureOptions(), new PhotoLimits()).Any);
        return string.Join('\n', lines) + string.Create(CultureInfo.InvariantCulture, $"\n\nPhotos of leaves taken for an unread tag: {taken} of {leafPhotos.Count}.\n");
    }

    private string Line(string trouble, double px)
    {
        (int read, int noticed) = (0, 0);
        for (int i = 0; i < pictures; i++)
        {
            Random random = new(seed + i);
            double part = (double)i / pictures;
            using Mat tag = TagScene.Draw(
                "B12", px, asPhoto: true, random, size => DrawnGround.Paint(Grounds[i % Grounds.Length], size, random),
                trouble == "shaken" ? px * (0.6 + (0.6 * part)) : 0,
                trouble == "tilted" ? 45 + (15 * part) : null);
            using Mat photo = new();
            if (trouble == "far")
            {
                using Mat wide = DrawnGround.Paint(Grounds[i % Grounds.Length], new Size(tag.Cols * 3, tag.Rows * 3), random);
                using Mat middle = wide.SubMat(new Rect(tag.Cols, tag.Rows, tag.Cols, tag.Rows));
                tag.CopyTo(middle);
                wide.CopyTo(photo);
            }
            else
            {
                tag.CopyTo(photo);
            }

            TagSeen seen = Look(photo);
            read += seen.Codes.Count > 0 ? 1 : 0;
            noticed += seen.Unread ? 1 : 0;
        }

        return string.Create(CultureInfo.InvariantCulture, $"| {trouble} | {px} | {read} | {noticed} | {pictures - read - noticed} |");
    }

    private static TagSeen Look(Mat photo)
    {
        string file = Path.Combine(Path.GetTempPath(), $"leafscan-tag-{Guid.NewGuid():n}.png");
        Cv2.ImWrite(file, photo);
        try
        {
            return TagLooker.Look(file, new MeasureOptions(), new PhotoLimits());
        }
        finally
        {
            File.Delete(file);
        }
    }
}
