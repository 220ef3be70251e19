using Microsoft.ML.Data;
using Microsoft.ML.Transforms.Image;

namespace LeafScan.Leaves.Kinds;

/// <summary>What goes into the photo-kind pipeline.</summary>
internal sealed class KindInput
{
    /// <summary>A small upright copy of the photo. Made by us from checked pixels, never decoded from a file.</summary>
    [ImageType(KindPicture.SidePx, KindPicture.SidePx)]
    public MLImage? Picture { get; set; }

    /// <summary>The true kind, 0 for the first (key columns count from 0 in rows, whatever their own numbers are). Read in training only.</summary>
    [KeyType(6)]
    public uint Kind { get; set; }

    /// <summary>How much the row counts in training.</summary>
    public float Weight { get; set; } = 1;
}

/// <summary>The pixels that the pipeline took out of the picture.</summary>
internal sealed class KindPixels
{
    /// <summary>Red, green, blue of each pixel, 0..255, row by row.</summary>
    [VectorType(KindFeatures.SidePx * KindFeatures.SidePx * 3)]
    public float[] Pixels { get; set; } = [];
}

/// <summary>What is computed from the pixels.</summary>
internal sealed class KindFigures
{
    /// <summary>See <see cref="KindFeatures.Names"/>.</summary>
    [VectorType(KindFeatures.Count)]
    public float[] Figures { get; set; } = [];
}

/// <summary>What comes out of the pipeline.</summary>
internal sealed class KindOutput
{
    /// <summary>Chance of each kind, in the order of <see cref="PhotoKinds.All"/>.</summary>
    public float[] Score { get; set; } = [];
}
