using LeafScan.Leaves.Reading;
using LeafScan.Training.Rendering.Blades;
using LeafScan.Training.Rendering.Damage;
using LeafScan.Training.Rendering.Support;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.Truth;

/// <summary>
/// Collects the exact mask of a scene: each blade's masks go through the same warp as its light, and a pixel gets a code
/// where at least half of it is covered. Owns its pictures.
/// </summary>
internal sealed class TruthMask(Size photo) : IDisposable
{
    private readonly Dictionary<int, List<Speck>> _specks = [];
    private readonly Dictionary<int, string> _hosts = [];

    /// <summary>8-bit <see cref="MaskCode"/> of each pixel.</summary>
    public Mat Codes { get; } = Pixels.NewMask(photo);

    /// <summary>8-bit: number of the leaf plus 1, 0 for background.</summary>
    public Mat Leaf { get; } = Pixels.NewMask(photo);

    /// <summary>Adds a blade that lies on top of all before.</summary>
    /// <param name="leaf">Number of the leaf it belongs to, from 0.</param>
    /// <param name="host">Kind of plant.</param>
    /// <param name="blade">The blade.</param>
    /// <param name="pose">How it lies.</param>
    /// <param name="box">The pixels it reaches.</param>
    /// <param name="mapX">Sheet x for each fine pixel of the box.</param>
    /// <param name="mapY">Sheet y for each fine pixel of the box.</param>
    public void Add(int leaf, string host, Blade blade, LeafPose pose, Rect box, Mat mapX, Mat mapY)
    {
        _hosts.TryAdd(leaf, host);
        using Mat whole = Warp.Coverage(blade.Whole, mapX, mapY, box.Size);
        using Mat present = Warp.Coverage(blade.Present, mapX, mapY, box.Size);
        using Mat speck = Warp.Coverage(blade.Damage.SpeckMask, mapX, mapY, box.Size);
        using Mat yellow = Warp.Coverage(blade.Damage.YellowMask, mapX, mapY, box.Size);
        using Mat brown = Warp.Coverage(blade.Damage.BrownMask, mapX, mapY, box.Size);
        for (int y = 0; y < box.Height; y++)
        {
            Span<byte> w = Pixels.Bytes(whole, y);
            Span<byte> p = Pixels.Bytes(present, y);
            Span<byte> s = Pixels.Bytes(speck, y);
            Span<byte> d = Pixels.Bytes(yellow, y);
            Span<byte> b = Pixels.Bytes(brown, y);
            Span<byte> code = Pixels.Bytes(Codes, box.Y + y)[box.X..];
            Span<byte> number = Pixels.Bytes(Leaf, box.Y + y)[box.X..];
            for (int x = 0; x < w.Length; x++)
            {
                if (w[x] < 128)
                {
                    continue;
                }

                bool there = p[x] >= 128;
                if (!there && code[x] != 0)
                {
                    // Another blade of the scene shows through the hole.
                    continue;
                }

                number[x] = (byte)(leaf + 1);
                code[x] = (byte)(!there ? MaskCode.Chewed
                    : b[x] >= 128 ? MaskCode.Browned
                    : s[x] >= 128 ? MaskCode.Speck
                    : d[x] >= 128 ? MaskCode.Yellowed
                    : MaskCode.Sound);
            }
        }

        List<Speck> specks = CollectionsOf(leaf);
        foreach (Speck one in blade.Damage.Specks)
        {
            Point2d at = pose.ToPhoto(one.X, one.Y);
            specks.Add(new Speck(at.X, at.Y, one.DiameterPx * Math.Sqrt(pose.AreaAt(one.X, one.Y)), one.Strength));
        }
    }

    /// <summary>Makes background of what something else covers by at least one half.</summary>
    /// <param name="cover">Float 0..1, size of the photo.</param>
    public void Cover(Mat cover)
    {
        using Mat hidden = new();
        Cv2.Compare(cover, Scalar.All(0.5), hidden, CmpTypes.GE);
        Codes.SetTo(Scalar.All(0), hidden);
        Leaf.SetTo(Scalar.All(0), hidden);
    }

    /// <summary>Counts shares and specks from what was collected.</summary>
    public SceneTruth Sum()
    {
        var counts = new int[256, 8];
        int rows = Codes.Rows;
        for (int y = 0; y < rows; y++)
        {
            Span<byte> code = Pixels.Bytes(Codes, y);
            Span<byte> number = Pixels.Bytes(Leaf, y);
            for (int x = 0; x < code.Length; x++)
            {
                counts[number[x], code[x]]++;
            }
        }

        List<LeafTruth> leaves = [];
        var total = new int[8];
        foreach (int leaf in _hosts.Keys.Order())
        {
            var own = new int[8];
            for (int code = 1; code < own.Length; code++)
            {
                own[code] = counts[leaf + 1, code];
                total[code] += own[code];
            }

            leaves.Add(Truth(_hosts[leaf], own, [.. CollectionsOf(leaf).Where(s => Shows(s, leaf))]));
        }

        string hosts = string.Join("+", leaves.Select(l => l.Host).Distinct());
        return new SceneTruth(leaves, Truth(hosts, total, [.. leaves.SelectMany(l => l.Specks)]));
    }

    /// <inheritdoc />
    public void Dispose()
    {
        Codes.Dispose();
        Leaf.Dispose();
    }

    private static LeafTruth Truth(string host, int[] counts, List<Speck> specks)
    {
        int area = counts.Sum();
        double all = Math.Max(1, area);
        TrueShares shares = new(counts[(int)MaskCode.Speck] / all, counts[(int)MaskCode.Yellowed] / all, counts[(int)MaskCode.Browned] / all, counts[(int)MaskCode.Chewed] / all);
        return new LeafTruth(host, area, shares, specks.Count, specks);
    }

    private bool Shows(Speck speck, int leaf)
    {
        int x = (int)Math.Round(speck.X);
        int y = (int)Math.Round(speck.Y);
        if (x < 0 || y < 0 || x >= Codes.Cols || y >= Codes.Rows)
        {
            return false;
        }

        MaskCode code = (MaskCode)Pixels.Bytes(Codes, y)[x];
        return Pixels.Bytes(Leaf, y)[x] == leaf + 1 && code is not (MaskCode.Chewed or MaskCode.Browned or MaskCode.Background);
    }

    private List<Speck> CollectionsOf(int leaf)
    {
        if (!_specks.TryGetValue(leaf, out List<Speck>? list))
        {
            list = [];
            _specks[leaf] = list;
        }

        return list;
    }
}
