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
    [InlineData(PhotoKind.Twig)]
    [InlineData(PhotoKind.Plant)]
    [InlineData(PhotoKind.Tap)]
    public void Most_pictures_of_other_kinds_are_refused_and_say_what_they_look_like(PhotoKind kind)
    {
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
        string file = Path.Combine(_folder, "photo.jpg");
        PictureWriter.WriteJpeg(example.Pixels, file, 92);
        using PhotoOutcome outcome = PhotoReader.Open(file, new PhotoLimits());
        using LeafMeasurement measured = LeafMeter.Measure(outcome.Photo!, options);
        return measured.Refusal;
    }
}
