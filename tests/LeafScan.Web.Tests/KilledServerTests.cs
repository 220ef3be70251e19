using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Json;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using LeafScan.Records;
using LeafScan.Web.Tests.Support;

namespace LeafScan.Web.Tests;

/// <summary>The real program, killed in the middle of things (SIGKILL: it gets no chance to tidy up) and started again.</summary>
public sealed class KilledServerTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-killed-").FullName;
    private readonly List<Process> _started = [];

    [Fact]
    public async Task Killed_while_receiving_and_while_measuring_nothing_is_lost_and_nothing_is_doubled()
    {
        byte[][] photos = [Some.LeafPhoto(0), Some.LeafPhoto(1), Some.LeafPhoto(2)];
        (Process first, HttpClient page) = await StartAsync();
        using JsonDocument walk = JsonDocument.Parse(await (await page.PostAsJsonAsync(new Uri("/api/walks", UriKind.Relative), new { place = "Hill" })).Content.ReadAsStringAsync());
        long id = walk.RootElement.GetProperty("id").GetInt64();

        // Half of a photo is on its way while the first of two others is being measured.
        using TcpClient half = new("127.0.0.1", page.BaseAddress!.Port);
        byte[] head = Encoding.ASCII.GetBytes(string.Create(
            CultureInfo.InvariantCulture,
            $"PUT /api/walks/{id}/photos/{Some.Sha(photos[2])}?name=c.jpg HTTP/1.1\r\nHost: 127.0.0.1:{page.BaseAddress.Port}\r\nX-LeafScan: 1\r\nContent-Length: {photos[2].Length}\r\n\r\n"));
        await half.GetStream().WriteAsync(head);
        await half.GetStream().WriteAsync(photos[2].AsMemory(0, photos[2].Length / 2));
        await half.GetStream().FlushAsync();
        foreach ((byte[] photo, string name) in photos.Zip(["a.jpg", "b.jpg"]))
        {
            Assert.Equal(202, await PutAsync(page, id, photo, name));
        }

        string inbox = Path.Combine(_folder, "inbox");
        await UntilAsync(() => EventsSoFar() >= 3 && Directory.Exists(inbox) && Directory.EnumerateFiles(inbox).Any(file => new FileInfo(file).Length > 0));
        first.Kill();
        await first.WaitForExitAsync();
        Assert.NotEmpty(Directory.EnumerateFiles(inbox));
        using (RecordStore dead = RecordStore.Open(_folder, TimeProvider.System))
        {
            Assert.True(dead.CountUploads().Waiting >= 1);
            Assert.Empty(dead.CheckIntegrity());
        }

        (Process second, HttpClient again) = await StartAsync();
        Assert.Equal(404, await HeadAsync(again, id, photos[2]));
        Assert.Equal(200, await HeadAsync(again, id, photos[0]));
        foreach ((byte[] photo, string name) in photos.Zip(["a.jpg", "b.jpg", "c.jpg"]))
        {
            Assert.Contains(await PutAsync(again, id, photo, name), new[] { 200, 202 });
        }

        await UntilAsync(() => Waiting() == 0);
        second.Kill();
        await second.WaitForExitAsync();
        using RecordStore store = RecordStore.Open(_folder, TimeProvider.System);
        Assert.Equal(["a.jpg", "b.jpg", "c.jpg"], store.Photos().Select(photo => photo.FileName));
        Assert.All(store.Photos(), photo => Assert.Single(store.ReadingsOfPhoto(photo.Id)));
        Assert.Equal(new UploadCounts(0, 3, 0), store.CountUploads());
        Assert.Empty(store.CheckIntegrity());
        Assert.Empty(Directory.EnumerateFiles(inbox));
        Assert.Equal(3, Directory.EnumerateFiles(Path.Combine(_folder, "photos"), "*", SearchOption.AllDirectories).Count());
    }

    [Fact]
    public async Task Asked_to_stop_it_finishes_the_photo_in_hand_and_ends_with_code_0()
    {
        (Process process, HttpClient page) = await StartAsync();
        using JsonDocument walk = JsonDocument.Parse(await (await page.PostAsJsonAsync(new Uri("/api/walks", UriKind.Relative), new { place = "Hill" })).Content.ReadAsStringAsync());
        Assert.Equal(202, await PutAsync(page, walk.RootElement.GetProperty("id").GetInt64(), Some.LeafPhoto(4), "a.jpg"));
        await UntilAsync(() => EventsSoFar() >= 2);
        using Process kill = Process.Start("kill", ["-TERM", process.Id.ToString(CultureInfo.InvariantCulture)]);
        await process.WaitForExitAsync();
        Assert.Equal(0, process.ExitCode);
        using RecordStore store = RecordStore.Open(_folder, TimeProvider.System);
        Assert.Equal(new UploadCounts(0, 1, 0), store.CountUploads());
    }

    [Fact]
    public async Task A_reading_that_was_on_record_when_the_server_was_killed_is_not_made_again()
    {
        // As it stands between the two commits: the photo on record, the upload still waiting.
        await using TestPage page = new();
        long walk = (await page.DoAsync(HttpMethod.Post, "/api/walks", new { place = "Hill" })).GetProperty("id").GetInt64();
        PhotoOnRecord known = Some.Photo(page.Store, "Hill", new DateOnly(2026, 8, 4), "EU-1", "a.jpg", 0.1);
        page.Store.AddUpload(new NewUpload { WalkId = walk, Sha256 = known.Sha256, FileName = "a.jpg", Folder = "", StoredAs = "photos/2026-08-04/a.jpg" });
        await page.PutPhotoAsync(walk, Encoding.UTF8.GetBytes("wakes the worker"), "name=b.txt");
        await page.UntilMeasuredAsync();
        Assert.Single(page.Store.ReadingsOfPhoto(known.Id));
        Assert.Equal(known.Id, page.Store.FindUpload(walk, known.Sha256)!.PhotoId);
    }

    [Fact]
    public async Task A_second_server_on_the_same_folder_or_port_says_so_in_one_sentence_with_code_4()
    {
        (Process _, HttpClient page) = await StartAsync();
        Process sameFolder = Run("--port", "0");
        Assert.Contains("Another leafscan serve already works", await sameFolder.StandardError.ReadToEndAsync(), StringComparison.Ordinal);
        await sameFolder.WaitForExitAsync();
        Assert.Equal(4, sameFolder.ExitCode);

        string other = Directory.CreateTempSubdirectory("leafscan-other-").FullName;
        Process samePort = Run("--port", page.BaseAddress!.Port.ToString(CultureInfo.InvariantCulture), "--data-dir", other);
        string said = await samePort.StandardError.ReadToEndAsync();
        await samePort.WaitForExitAsync();
        Directory.Delete(other, recursive: true);
        Assert.Equal(4, samePort.ExitCode);
        Assert.Contains("is taken by another program", said, StringComparison.Ordinal);
        Assert.Single(said.Trim().Split('\n'));
    }

    public void Dispose()
    {
        foreach (Process process in _started)
        {
            if (!process.HasExited)
            {
                process.Kill();
                process.WaitForExit();
            }

            process.Dispose();
        }

        Directory.Delete(_folder, recursive: true);
    }

    private async Task<(Process Process, HttpClient Page)> StartAsync()
    {
        Process process = Run("--port", "0");
        string? address = await process.StandardOutput.ReadLineAsync();
        Assert.NotNull(address);
        HttpClient page = new() { BaseAddress = new Uri(address) };
        page.DefaultRequestHeaders.Add("X-LeafScan", "1");
        return (process, page);
    }

    private Process Run(params string[] words)
    {
        ProcessStartInfo start = new("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "leafscan.dll"));
        start.ArgumentList.Add("serve");
        foreach (string word in words.Contains("--data-dir") ? words : [.. words, "--data-dir", _folder])
        {
            start.ArgumentList.Add(word);
        }

        Process process = Process.Start(start)!;
        _started.Add(process);
        return process;
    }

    private static async Task<int> PutAsync(HttpClient page, long walk, byte[] photo, string name)
    {
        using ByteArrayContent content = new(photo);
        using HttpResponseMessage answer = await page.PutAsync(new Uri($"/api/walks/{walk}/photos/{Some.Sha(photo)}?name={name}", UriKind.Relative), content);
        return (int)answer.StatusCode;
    }

    private static async Task<int> HeadAsync(HttpClient page, long walk, byte[] photo)
    {
        using HttpRequestMessage request = new(HttpMethod.Head, new Uri($"/api/walks/{walk}/photos/{Some.Sha(photo)}", UriKind.Relative));
        using HttpResponseMessage answer = await page.SendAsync(request);
        return (int)answer.StatusCode;
    }

    private long EventsSoFar()
    {
        using RecordStore store = RecordStore.Open(_folder, TimeProvider.System);
        return store.LastUploadEvent();
    }

    private int Waiting()
    {
        using RecordStore store = RecordStore.Open(_folder, TimeProvider.System);
        return store.CountUploads().Waiting;
    }

    private static async Task UntilAsync(Func<bool> happened)
    {
        for (int i = 0; i < 2400 && !happened(); i++)
        {
            await Task.Delay(25);
        }

        Assert.True(happened());
    }
}
