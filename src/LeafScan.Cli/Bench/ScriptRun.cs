using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using LeafScan.Leaves;
using LeafScan.Photos;
using LeafScan.Walks.Measuring;

namespace LeafScan.Cli.Bench;

/// <summary>The same measure scripted with scikit-image, beside ours.</summary>
/// <param name="Seconds">Seconds of the script for the bench photo, from the file on, its start left out: the middle one of three starts; null when it did not run.</param>
/// <param name="WhyNot">Why it did not run; null when it did.</param>
/// <param name="Photos">Demo photos whose truth is known, read by both.</param>
/// <param name="ScriptError">Mean error of the script's damage on them, 0..1.</param>
/// <param name="OwnError">Mean error of ours, 0..1.</param>
/// <param name="ScriptChewedError">Mean error of the script's chewed share on them, 0..1.</param>
/// <param name="OwnChewedError">Mean error of ours, 0..1.</param>
internal sealed record ScriptRun(double? Seconds, string? WhyNot, int Photos, double? ScriptError, double? OwnError, double? ScriptChewedError = null, double? OwnChewedError = null)
{
    // Every sixth of the demo's photos: each plant on each walk.
    private const int EveryNth = 6;

    private const int Starts = 3;

    /// <summary>Runs the script where python3 and scikit-image are present.</summary>
    /// <param name="programFolder">Folder of the program's own files.</param>
    /// <param name="photo">The bench photo.</param>
    /// <param name="cancel">Ends the script.</param>
    public static ScriptRun Of(string programFolder, string photo, CancellationToken cancel)
    {
        string samples = Path.Combine(programFolder, "sample-images");
        string[] files = [.. Directory.EnumerateFiles(samples, "*.jpg", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Where((_, i) => i % EveryNth == 0)];
        string script = Path.Combine(programFolder, "reference", "leaf_script.py");

        // A python of one's own may come first on the path; Debian's packages belong to the system's.
        string python = "python3";
        (double Seconds, Figures Found)[]? first = Lines(python, script, [photo, .. files], cancel);
        if (first is null)
        {
            python = "/usr/bin/python3";
            first = Lines(python, script, [photo, .. files], cancel);
        }

        if (first is not { } lines)
        {
            return new ScriptRun(null, "python3 with scikit-image was not found; on Debian: apt install python3-skimage", 0, null, null);
        }

        double scripted = 0, own = 0, scriptedChewed = 0, ownChewed = 0;
        for (int i = 0; i < files.Length; i++)
        {
            Figures truth = Truth(samples, files[i]), ours = Own(files[i]);
            scripted += Math.Abs(lines[i + 1].Found.Damage - truth.Damage);
            own += Math.Abs(ours.Damage - truth.Damage);
            scriptedChewed += Math.Abs(lines[i + 1].Found.Chewed - truth.Chewed);
            ownChewed += Math.Abs(ours.Chewed - truth.Chewed);
        }

        // One run of a slow script says more of the machine's other work than of the script.
        double[] seconds = [lines[0].Seconds, .. Enumerable.Range(1, Starts - 1).Select(_ => Lines(python, script, [photo], cancel)?[0].Seconds ?? lines[0].Seconds)];
        Array.Sort(seconds);
        return new ScriptRun(seconds[Starts / 2], null, files.Length, scripted / files.Length, own / files.Length, scriptedChewed / files.Length, ownChewed / files.Length);
    }

    private static (double Seconds, Figures Found)[]? Lines(string python, string script, string[] photos, CancellationToken cancel)
    {
        ProcessStartInfo start = new(python, [script, .. photos]) { RedirectStandardOutput = true, RedirectStandardError = true };
        try
        {
            using Process? process = Process.Start(start);
            if (process is null)
            {
                return null;
            }

            using CancellationTokenRegistration stop = cancel.Register(() => process.Kill(entireProcessTree: true));
            process.ErrorDataReceived += (_, _) => { };
            process.BeginErrorReadLine();
            string[] lines = process.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
            process.WaitForExit();
            cancel.ThrowIfCancellationRequested();
            return process.ExitCode == 0 && lines.Length == photos.Length ? Array.ConvertAll(lines, Line) : null;
        }
        catch (Win32Exception)
        {
            return null;
        }
    }

    private static (double Seconds, Figures Found) Line(string line)
    {
        using JsonDocument document = JsonDocument.Parse(line);
        double Number(string name) => document.RootElement.GetProperty(name).GetDouble();
        return (Number("seconds"), new Figures(Number("damage"), Number("chewed")));
    }

    // Damage is of the leaf that is there; the truth's shares are of the leaf before it was chewed.
    private static Figures Truth(string samples, string photo)
    {
        string truth = Path.Combine(samples, "truth", Path.ChangeExtension(Path.GetRelativePath(samples, photo), ".truth.json"));
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(truth));
        JsonElement shares = document.RootElement.GetProperty("shares");
        double Share(string name) => shares.GetProperty(name).GetDouble();
        return new Figures((Share("stippled") + Share("yellowed") + Share("browned")) / (1 - Share("chewed")), Share("chewed"));
    }

    private static Figures Own(string photo)
    {
        using PhotoOutcome outcome = PhotoReader.Open(photo, new PhotoLimits());
        using LeafMeasurement? measured = outcome.Photo is { } opened ? LeafMeter.Measure(opened, new MeasureOptions()) : null;
        return measured?.Reading is { } reading && PhotoSummary.Of(reading) is var all ? new Figures(all.Damage, all.Shares.Chewed) : new Figures(0, 0);
    }

    private readonly record struct Figures(double Damage, double Chewed);

    /// <summary>What the script says, in a sentence.</summary>
    public string Sentence(double ownSeconds) => Seconds is not { } seconds
        ? $"No comparison with a script: {WhyNot}."
        : string.Create(CultureInfo.InvariantCulture, $"The same measure as a script in scikit-image: {seconds:0.0} s, {seconds / ownSeconds:0.0} times ours. Mean error on {Photos} demo photos: damage {ScriptError * 100:0.0} points by the script, {OwnError * 100:0.0} by ours; chewed {ScriptChewedError * 100:0.0} and {OwnChewedError * 100:0.0}.");
}
