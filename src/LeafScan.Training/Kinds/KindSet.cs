using LeafScan.Leaves.Kinds;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Kinds;

/// <summary>What goes into training, and what is kept for checking.</summary>
internal static class KindSet
{
    private static readonly PhotoKind[] Renderable = [PhotoKind.Leaf, PhotoKind.Twig, PhotoKind.Plant, PhotoKind.Tap];

    /// <summary>Pictures of every kind, drawn and rendered from a row of seeds.</summary>
    /// <param name="first">First seed.</param>
    /// <param name="count">How many of each kind.</param>
    public static IEnumerable<KindExample> Invented(int first, int count)
    {
        for (int seed = first; seed < first + count; seed++)
        {
            foreach (PhotoKind kind in Renderable)
            {
                yield return RenderedKinds.Render(kind, seed);
            }

            yield return DrawnScan.Draw(seed);
            yield return DrawnTag.Draw(seed);
            yield return DrawnUnusable.Draw(seed);
        }
    }

    /// <summary>All pictures to train on, made one after the other; each belongs to the caller.</summary>
    public static IEnumerable<KindExample> Training(KindTrainingOptions options)
    {
        Random random = Chance.FromSeed(options.Seed);
        foreach (KindExample example in Bases(options, random))
        {
            bool realLeaf = example.Source is not ("rendered" or "drawn") && example.Kind == PhotoKind.Leaf;
            int again = realLeaf ? options.VariationsOfRealLeaves : options.Variations;
            for (int i = 0; i < again; i++)
            {
                yield return KindVariation.Of(example, random, example.Kind == PhotoKind.Leaf ? 0.45 : 0.75);
            }

            if (example.Kind == PhotoKind.Leaf && random.Hit(0.4))
            {
                yield return WithTag(example, random);
            }

            if (example.Kind != PhotoKind.Unusable && random.Hit(0.25))
            {
                yield return DrawnUnusable.Spoil(example, random.Next());
            }

            yield return example;
        }
    }

    /// <summary>Pictures of seeds kept aside, and a third as many spoilt ones.</summary>
    public static IEnumerable<KindExample> KeptAsidePictures(int count)
    {
        int i = 0;
        foreach (KindExample example in Invented(KeptAside.First, count))
        {
            if (example.Kind != PhotoKind.Unusable && i++ % 15 == 0)
            {
                yield return DrawnUnusable.Spoil(example, KeptAside.First + i);
            }

            yield return example;
        }
    }

    private static IEnumerable<KindExample> Bases(KindTrainingOptions options, Random random)
    {
        foreach (KindExample example in Invented(options.Seed * 1000, options.PerKind))
        {
            yield return example;
        }

        foreach (string argument in options.Folders)
        {
            (string folder, PhotoKind kind) = RealPhotos.Parse(argument);
            List<LeafCutout> cutouts = LeafCutout.Read(folder);
            if (cutouts.Count == 0)
            {
                foreach (KindExample example in RealPhotos.Read(folder, kind, number => number is null || number % 2 == 1))
                {
                    yield return example;
                }

                continue;
            }

            foreach (KindExample example in FromCutouts(cutouts, options, random))
            {
                yield return example;
            }

            cutouts.ForEach(cutout => cutout.Dispose());
        }
    }

    private static IEnumerable<KindExample> FromCutouts(List<LeafCutout> cutouts, KindTrainingOptions options, Random random)
    {
        foreach (LeafCutout cutout in cutouts)
        {
            for (int i = 0; i < 4; i++)
            {
                yield return cutout.OnGround(random);
            }

            yield return cutout.CloseUp(random);
        }

        for (int i = 0; i < options.PerKind / 2; i++)
        {
            yield return LeafCutout.Crown(cutouts, (options.Seed * 1000) + i);
        }
    }

    // A tag or scale beside a leaf does not make it a photo of a tag.
    private static KindExample WithTag(KindExample leaf, Random random)
    {
        Mat picture = leaf.Pixels.Clone();
        DrawnTag.Put(picture, random, random.Between(0.12, 0.28), 0.4);
        return leaf with { Source = leaf.Source + ", tag beside it", Pixels = picture };
    }
}
