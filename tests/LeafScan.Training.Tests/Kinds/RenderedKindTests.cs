using LeafScan.Leaves;
using LeafScan.Leaves.Kinds;
using LeafScan.Photos;
using LeafScan.Photos.Pictures;
using LeafScan.Training.Kinds;
using LeafScan.Training.Rendering;

namespace LeafScan.Training.Tests.Kinds;

/// <summary>The shipped model on pictures of seeds that are kept aside.</summary>
public sealed class RenderedKindTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-kinds-").FullName;

    [Theory]
    [InlineData(PhotoKind.Twig, "twig")]
    [InlineData(PhotoKind.Plant, "plant")]
    public void Most_twigs_and_whole_plants_are_measured_as_what_they_are(PhotoKind kind, string name)
    {
        int told = 0;
        for (int seed = KeptAside.First + 100; seed < KeptAside.First + 106; seed++)
        {
            using KindExample example = RenderedKinds.Render(kind, seed);
            told += KindOf(example) == name ? 1 : 0;
        }

        Assert.True(told >= 4, $"{told} of 6 were told");
    }

    [Fact]
    public void Most_tap_sheets_are_refused_and_said_to_be_one()
    {
        const PhotoKind kind = PhotoKind.Tap;
        int refused = 0;
        for (int seed = KeptAside.First + 100; seed < KeptAside.First + 106; seed++)
        {
            using KindExample example = RenderedKinds.Render(kind, seed);
            if (Measure(example, new MeasureOptions()) is { } refusal && refusal.Reason.StartsWith("This looks like", StringComparison.Ordinal))
            {
                refused++;
                Assert.DoesNotContain("This looks like", Measure(example, new MeasureOptions { Kind = "leaf" })?.Reason ?? string.Empty, StringComparison.Ordinal);
            }
        }

        Assert.True(refused >= 4, $"{refused} of 6 were refused");
    }

    [Fact]
    public void Rendered_leaves_are_not_refused_for_their_kind()
    {
        for (int seed = KeptAside.First + 100; seed < KeptAside.First + 106; seed++)
        {
            using KindExample example = RenderedKinds.Render(PhotoKind.Leaf, seed);
            Assert.DoesNotContain("This looks like", Measure(example, new MeasureOptions())?.Reason ?? string.Empty, StringComparison.Ordinal);
        }
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private PhotoRefusal? Measure(KindExample example, MeasureOptions options)
    {
        using LeafMeasurement measured = Read(example, options);
        return measured.Refusal;
    }

    private string? KindOf(KindExample example)
    {
        using LeafMeasurement measured = Read(example, new MeasureOptions());
        return measured.Reading?.Kind;
    }

    private LeafMeasurement Read(KindExample example, MeasureOptions options)
    {
        string file = Path.Combine(_folder, "photo.jpg");
        PictureWriter.WriteJpeg(example.Pixels, file, 92);
        using PhotoOutcome outcome = PhotoReader.Open(file, new PhotoLimits());
        return LeafMeter.Measure(outcome.Photo!, options);
    }
}
