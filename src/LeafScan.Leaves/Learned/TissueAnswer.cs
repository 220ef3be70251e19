using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using LeafScan.Leaves.Baseline;
using LeafScan.Leaves.Specks;
using LeafScan.Leaves.Specks.Judge;
using OpenCvSharp;

namespace LeafScan.Leaves.Learned;

/// <summary>
/// The tissue network's answer in bytes, drawn out to planes of full size. The file gives for each two by two pixels 44 bytes:
/// six class scores, the speck centre's score in four windows that follow one another, and the diameter's score, each for the
/// four pixels row by row (models/training/head_in_bytes.py). A score outside its window is at its end. The network's own last
/// steps took nearly half of its time (decision 054). A second output names places of single specks (<see cref="SpeckPlaces"/>). Memory is pooled.
/// </summary>
internal sealed class TissueAnswer : IDisposable
{
    /// <summary>Bytes for each two by two pixels.</summary>
    public const int Depth = (TissueScores.Classes + CentreWindows + 1) * 4;

    private const int CentreWindows = 4;

    private const float ClassLow = -16, ClassWidth = 32, CentreLow = -9, CentreWidth = 4, DiameterLow = -5, DiameterWidth = 6.4f, LargestDiameterPx = 40;

    private static readonly float[] CentreChances = [.. Enumerable.Range(0, (CentreWindows * 255) + 1).Select(q => Chance(CentreLow + (q * CentreWidth / 255)))];

    private static readonly float[] DiametersPx = [.. Enumerable.Range(0, 256).Select(q => LargestDiameterPx * Chance(DiameterLow + (q * DiameterWidth / 255)))];

    private readonly float[] _classes;
    private readonly float[] _centres;
    private readonly float[] _diameters;
    private readonly Size _size;

    private TissueAnswer(Size size)
    {
        int plane = size.Width * size.Height;
        _size = size;
        _classes = PlanePool.Rent(TissueScores.Classes * plane);
        _centres = PlanePool.Rent(plane);
        _diameters = PlanePool.Rent(plane);
    }

    /// <summary>Asks a tissue network, whichever way it answers: in bytes, or in planes of floats as one that is still learning does.</summary>
    /// <param name="network">The network.</param>
    /// <param name="planes">The picture.</param>
    /// <param name="part">The part of the patch that the picture shows.</param>
    /// <param name="use">Receives the scores; they are gone when it returns.</param>
    public static void Ask(Network network, Planes planes, Rect part, Action<TissueScores> use)
    {
        if (!network.AnswersInBytes)
        {
            network.Run(planes.Values, planes.Channels, planes.Size, outputs => use(new TissueScores(outputs[0], outputs[1], outputs[2], planes.Size, part)));
            return;
        }

        TissueAnswer? drawn = null;
        List<SpeckPlace> places = [];
        network.RunToBytes(planes.Values, planes.Channels, planes.Size, outputs =>
        {
            drawn = Of(outputs[0], planes.Size);
            places = outputs.Length > 1 ? SpeckPlaces.Of(outputs[1].Span, planes.Size, part) : [];
        });
        using TissueAnswer answer = drawn!;
        use(answer.Scores(part, places));
    }

    /// <summary>Draws the answer out.</summary>
    /// <param name="bytes">Half the height x half the width x <see cref="Depth"/>.</param>
    /// <param name="size">Full size, both sides even.</param>
    private static TissueAnswer Of(ReadOnlyMemory<byte> bytes, Size size)
    {
        if (bytes.Length != size.Width / 2 * (size.Height / 2) * Depth)
        {
            throw new InvalidOperationException("The tissue network's answer has another size than its picture; the model file does not fit this program.");
        }

        TissueAnswer answer = new(size);
        Bands.Run(size.Height / 2, (first, end) =>
        {
            for (int y = first; y < end; y++)
            {
                answer.Row(bytes.Span.Slice(y * (size.Width / 2) * Depth, size.Width / 2 * Depth), y);
            }
        });
        return answer;
    }

    /// <summary>As planes; gone when this is disposed.</summary>
    /// <param name="part">The part of the patch that the network looked at.</param>
    /// <param name="places">Places of single specks.</param>
    private TissueScores Scores(Rect part, IReadOnlyList<SpeckPlace> places)
    {
        int plane = _size.Width * _size.Height;
        return new TissueScores(_classes.AsMemory(0, TissueScores.Classes * plane), _centres.AsMemory(0, plane), _diameters.AsMemory(0, plane), _size, part) { Places = places };
    }

    /// <inheritdoc />
    public void Dispose()
    {
        PlanePool.Return(_classes);
        PlanePool.Return(_centres);
        PlanePool.Return(_diameters);
    }

    private static float Chance(float score) => 1 / (1 + MathF.Exp(-score));

    private void Row(ReadOnlySpan<byte> bytes, int y)
    {
        int width = _size.Width, plane = width * _size.Height, upper = 2 * y * width;
        Vector128<float> low = Vector128.Create(ClassLow), step = Vector128.Create(ClassWidth / 255);
        for (int c = 0; c < TissueScores.Classes; c++)
        {
            Span<float> above = _classes.AsSpan((c * plane) + upper, width), below = _classes.AsSpan((c * plane) + upper + width, width);
            ref float up = ref MemoryMarshal.GetReference(above);
            ref float down = ref MemoryMarshal.GetReference(below);
            for (int x = 0, at = 4 * c; x < width; x += 2, at += Depth)
            {
                Vector128<float> four = low + (step * Vector128.ConvertToSingle(Four(bytes, at)));
                four.GetLower().StoreUnsafe(ref up, (nuint)x);
                four.GetUpper().StoreUnsafe(ref down, (nuint)x);
            }
        }

        Span<float> upCentre = _centres.AsSpan(upper, width), downCentre = _centres.AsSpan(upper + width, width);
        Span<float> upSize = _diameters.AsSpan(upper, width), downSize = _diameters.AsSpan(upper + width, width);
        const int FirstCentre = TissueScores.Classes * 4, Size = FirstCentre + (CentreWindows * 4);
        for (int x = 0, at = 0; x < width; x += 2, at += Depth)
        {
            Vector128<int> sum = Four(bytes, at + FirstCentre) + Four(bytes, at + FirstCentre + 4) + Four(bytes, at + FirstCentre + 8) + Four(bytes, at + FirstCentre + 12);
            upCentre[x] = CentreChances[sum.GetElement(0)];
            upCentre[x + 1] = CentreChances[sum.GetElement(1)];
            downCentre[x] = CentreChances[sum.GetElement(2)];
            downCentre[x + 1] = CentreChances[sum.GetElement(3)];
            upSize[x] = DiametersPx[bytes[at + Size]];
            upSize[x + 1] = DiametersPx[bytes[at + Size + 1]];
            downSize[x] = DiametersPx[bytes[at + Size + 2]];
            downSize[x + 1] = DiametersPx[bytes[at + Size + 3]];
        }
    }

    private static Vector128<int> Four(ReadOnlySpan<byte> bytes, int at)
        => Vector128.WidenLower(Vector128.WidenLower(Vector128.CreateScalar(MemoryMarshal.Read<uint>(bytes[at..])).AsByte())).AsInt32();
}
