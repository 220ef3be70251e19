using System.Globalization;
using System.Text;
using System.Text.Json;
using LeafScan.Records;
using LeafScan.Web.Documents;
using LeafScan.Web.Progress;
using Microsoft.Extensions.Hosting;

namespace LeafScan.Web.Api;

/// <summary>
/// /api/events: what becomes of sent photos, as server-sent events (WHATWG HTML, 9.2). A page that was closed goes on where it stopped: the
/// browser names the last event it got, and everything since stands in the record.
/// </summary>
internal static class EventsApi
{
    // A comment now and then keeps routers from closing a quiet connection and shows us a page that is gone.
    private static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(15);

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/events", ListenAsync).WithTags("Sending photos")
        .WithSummary("What becomes of sent photos, as server-sent events.")
        .WithDescription(
            "Events named photo (a PhotoEvent with an id) and counts (a CountsEvent). Last-Event-ID, or the parameter after, goes on behind that event; without either, photos that wait are told first.")
        .Produces<PhotoEvent>(200, "text/event-stream");

    private static async Task ListenAsync(HttpContext context, RecordStore store, ProgressBell bell, IHostApplicationLifetime life, long? walk = null, long? after = null)
    {
        using CancellationTokenSource ending = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, life.ApplicationStopping);
        context.Response.ContentType = "text/event-stream; charset=utf-8";
        context.Response.Headers.CacheControl = "no-cache, no-store";
        try
        {
            Listener listener = new(context.Response, store, walk);
            await listener.BeginAsync(StartOf(context.Request, after), ending.Token).ConfigureAwait(false);
            while (true)
            {
                Task news = bell.Next;
                await listener.TellNewsAsync(ending.Token).ConfigureAwait(false);
                Task first = await Task.WhenAny(news, Task.Delay(Heartbeat, ending.Token)).ConfigureAwait(false);
                ending.Token.ThrowIfCancellationRequested();
                if (first != news)
                {
                    await listener.WriteAsync(": still here\n\n", ending.Token).ConfigureAwait(false);
                }
            }
        }
        catch (OperationCanceledException) when (ending.IsCancellationRequested)
        {
            // The page is gone, or the server stops: the browser asks again by itself.
        }
    }

    private static long? StartOf(HttpRequest request, long? after)
        => long.TryParse(request.Headers["Last-Event-ID"].ToString(), NumberStyles.None, CultureInfo.InvariantCulture, out long last) ? last : after;

    private sealed class Listener(HttpResponse response, RecordStore store, long? walk)
    {
        private long _last;
        private UploadCounts? _told;

        public async Task BeginAsync(long? start, CancellationToken cancel)
        {
            long newest = store.LastUploadEvent();

            // A number that never was comes from another record: begin anew.
            if (start is { } last && last <= newest)
            {
                _last = last;
                await WriteAsync(": goes on\n\n", cancel).ConfigureAwait(false);
                return;
            }

            _last = newest;
            foreach (UploadOnRecord upload in walk is { } one ? store.WaitingUploads(one) : [])
            {
                await TellAsync(new UploadEvent(newest, upload.State, upload), cancel).ConfigureAwait(false);
            }

            await WriteAsync(": begins\n\n", cancel).ConfigureAwait(false);
        }

        public async Task TellNewsAsync(CancellationToken cancel)
        {
            IReadOnlyList<UploadEvent> events;
            do
            {
                events = store.UploadEvents(_last, walk);
                foreach (UploadEvent one in events)
                {
                    await TellAsync(one, cancel).ConfigureAwait(false);
                    _last = one.Id;
                }
            }
            while (events.Count > 0);
            UploadCounts counts = store.CountUploads(walk);
            if (counts != _told)
            {
                _told = counts;
                await WriteAsync($"event: counts\ndata: {JsonSerializer.Serialize(new CountsEvent(counts.Waiting, counts.Measured, counts.Refused), Json)}\n\n", cancel).ConfigureAwait(false);
            }
        }

        public async Task WriteAsync(string text, CancellationToken cancel)
        {
            await response.Body.WriteAsync(Encoding.UTF8.GetBytes(text), cancel).ConfigureAwait(false);
            await response.Body.FlushAsync(cancel).ConfigureAwait(false);
        }

        private Task TellAsync(UploadEvent one, CancellationToken cancel)
            => WriteAsync(string.Create(CultureInfo.InvariantCulture, $"id: {one.Id}\nevent: photo\ndata: {JsonSerializer.Serialize(Of(one), Json)}\n\n"), cancel);

        private PhotoEvent Of(UploadEvent one)
        {
            PhotoOnRecord? photo = one.State == UploadState.Measured && one.Upload.PhotoId is { } id ? store.FindPhoto(id) : null;
            PhotoFigures? figures = photo is null ? null : store.FiguresOf(photo.Id);
            return new PhotoEvent
            {
                UploadId = one.Upload.Id,
                WalkId = one.Upload.Upload.WalkId,
                Sha256 = one.Upload.Upload.Sha256,
                File = one.Upload.Upload.FileName,
                State = DocumentMaker.Lower(one.State),
                PhotoId = photo?.Id,
                PlantId = photo?.PlantId,
                PlantCode = photo?.PlantCode,
                Leaves = figures?.LeafCount,
                Damage = DocumentMaker.Round(figures?.Damage),
                DamageLow = DocumentMaker.Round(figures?.DamageLow),
                DamageHigh = DocumentMaker.Round(figures?.DamageHigh),
                Flags = figures?.Flags ?? [],
                Reason = one.State == UploadState.Refused ? one.Upload.Reason : null,
                Advice = one.State == UploadState.Refused ? one.Upload.Advice : figures is null ? null : PlainWord.AdviceOf(figures.Flags),
                Word = one.State == UploadState.Refused ? one.Upload.Word : figures is null ? null : PlainWord.Of(figures.Flags, figures.LeafCount),
            };
        }
    }
}
