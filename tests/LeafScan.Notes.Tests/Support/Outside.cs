using System.Diagnostics;
using OpenCvSharp;

namespace LeafScan.Notes.Tests.Support;

/// <summary>Poppler's programs, which know nothing of how the PDF was made; tests are skipped where they are missing.</summary>
internal static class Outside
{
    public static string Run(string program, params string[] words)
    {
        ProcessStartInfo start = new(program, words) { RedirectStandardOutput = true, RedirectStandardError = true };
        using Process process = Process.Start(start) ?? throw new InvalidOperationException($"{program} did not start.");
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, errors.Result);
        return output;
    }

    public static bool Has(string program)
    {
        try
        {
            using Process? process = Process.Start(new ProcessStartInfo(program, "-v") { RedirectStandardOutput = true, RedirectStandardError = true });
            process?.WaitForExit();
            return process is not null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }

    /// <summary>One page as grey pixels.</summary>
    public static Mat Raster(byte[] pdf, int page, int dotsPerInch)
    {
        string folder = Directory.CreateTempSubdirectory("leafscan-notes-").FullName;
        try
        {
            string file = Path.Combine(folder, "page.pdf");
            File.WriteAllBytes(file, pdf);
            Run("pdftoppm", "-r", $"{dotsPerInch}", "-f", $"{page}", "-l", $"{page}", "-singlefile", "-gray", "-png", file, Path.Combine(folder, "page"));
            return Cv2.ImRead(Path.Combine(folder, "page.png"), ImreadModes.Grayscale);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}

/// <summary>A test that needs pdftoppm (Debian package poppler-utils) and says so when it is skipped.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NeedsPopplerAttribute : TheoryAttribute
{
    private static readonly bool Here = Outside.Has("pdftoppm") && Outside.Has("pdfinfo");

    public NeedsPopplerAttribute()
    {
        if (!Here)
        {
            Skip = "Skipped: pdftoppm and pdfinfo (Debian package poppler-utils) are not installed.";
        }
    }
}
