using System.ComponentModel;
using System.Diagnostics;
using LeafScan.Photos;
using LeafScan.Training.Rendering;
using Xunit.Abstractions;

namespace LeafScan.Training.Tests;

public class PhotoFileTests(ITestOutputHelper said)
{
    private static readonly DateTimeOffset Taken = new(2026, 7, 2, 9, 14, 5, TimeSpan.FromHours(-4));

    [Fact]
    public void Our_own_reader_opens_a_rendered_photo_without_a_doubt_and_finds_its_time()
    {
        string path = Write();
        try
        {
            using PhotoOutcome outcome = PhotoReader.Open(path, new PhotoLimits());
            Assert.NotNull(outcome.Photo);
            Assert.Equal(new CaptureTime(new DateTime(2026, 7, 2, 9, 14, 5), TimeSpan.FromHours(-4)), outcome.Photo.Facts.Taken);
            Assert.DoesNotContain(Flag.DamagedFile.Name, outcome.Photo.Flags);
        }
        finally
        {
            File.Delete(path);
        }
    }

    // Outside reader: ExifTool (Debian package libimage-exiftool-perl).
    [Fact]
    public void Exiftool_reads_the_date_with_its_offset_and_no_position()
    {
        string path = Write();
        try
        {
            string? tags = Exiftool(path);
            if (tags is null)
            {
                said.WriteLine("Skipped: exiftool is not installed (Debian package libimage-exiftool-perl).");
                return;
            }

            Assert.Contains("DateTimeOriginal: 2026:07:02 09:14:05", tags, StringComparison.Ordinal);
            Assert.Contains("OffsetTimeOriginal: -04:00", tags, StringComparison.Ordinal);
            Assert.DoesNotContain("GPS", tags, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain(tags.Split('\n'), line => line.StartsWith("Warning", StringComparison.Ordinal) && !line.Contains("[minor]", StringComparison.Ordinal));
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static string Write()
    {
        string path = Path.Combine(Path.GetTempPath(), $"leafscan-render-{Guid.NewGuid():N}.jpg");
        using RenderedScene scene = SceneRenderer.Render(Some.FlatLeaf(taken: Taken));
        File.WriteAllBytes(path, scene.Jpeg.Span);
        return path;
    }

    private static string? Exiftool(string path)
    {
        ProcessStartInfo start = new("exiftool") { RedirectStandardOutput = true };
        foreach (string argument in (string[])["-s", "-s", "-a", "-validate", "-warning", "-exif:all", "-gps:all", path])
        {
            start.ArgumentList.Add(argument);
        }

        try
        {
            using Process process = Process.Start(start)!;
            string text = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return text;
        }
        catch (Win32Exception)
        {
            return null;
        }
    }
}
