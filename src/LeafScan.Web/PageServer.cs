using System.Net;
using System.Text.Encodings.Web;
using System.Text.Json.Serialization;
using System.Text.Unicode;
using LeafScan.Records;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Verdicts;
using LeafScan.Web.Api;
using LeafScan.Web.Drawing;
using LeafScan.Web.Measuring;
using LeafScan.Web.Pages;
using LeafScan.Web.Progress;
using LeafScan.Web.Safety;
using LeafScan.Web.Uploads;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace LeafScan.Web;

/// <summary>The door of this project: builds the server that shows the page and answers its requests.</summary>
public static class PageServer
{
    // A photo in hand is finished before the program ends; the largest takes this long on a slow machine.
    private static readonly TimeSpan PatienceAtTheEnd = TimeSpan.FromMinutes(3);

    // What is written as JSON is short; photos have a limit of their own.
    private const long MostBytesOfJson = 1_000_000;

    /// <summary>Builds the server; it listens once it is started.</summary>
    /// <param name="options">How.</param>
    /// <param name="store">The record; not disposed.</param>
    /// <param name="also">Changes the builder, for tests that serve without a socket; null for nothing.</param>
    public static WebApplication Build(ServerOptions options, RecordStore store, Action<WebApplicationBuilder>? also = null)
    {
        SteadyMemory.Keep();

        // Before anybody can send anything: what arrives from now on is not left over.
        new PhotoFiles(store).DropParts();

        // Empty: neither settings files nor environment variables may open this server to the network by accident.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { ApplicationName = typeof(PageServer).Assembly.GetName().Name });
        builder.WebHost.UseKestrelCore();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = MostBytesOfJson;
            kestrel.Listen(options.Lan ? IPAddress.Any : IPAddress.Loopback, options.Port, listen => listen.Protocols = HttpProtocols.Http1);
        });
        AddServices(builder.Services, options, store);
        also?.Invoke(builder);
        WebApplication app = builder.Build();
        UseSteps(app);
        app.MapOpenApi("/openapi/{documentName}.json");
        MapApi(app);
        app.MapFallback("{*path}", PageFiles.AnswerAsync);
        return app;
    }

    /// <summary>Addresses at which a started server listens, such as "http://127.0.0.1:8470".</summary>
    public static IReadOnlyList<string> AddressesOf(WebApplication app)
        => [.. app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()?.Addresses ?? []];

    /// <summary>Port at which a started server listens; 0 when it has none.</summary>
    public static int PortOf(WebApplication app) => AddressesOf(app) is [string first, ..] ? new Uri(first.Replace("0.0.0.0", "127.0.0.1", StringComparison.Ordinal)).Port : 0;

    /// <summary>What a phone needs to get in, for the terminal: a warning, the code, the link and its picture.</summary>
    public static string PairingWords(WebApplication app)
    {
        ServerOptions options = app.Services.GetRequiredService<ServerOptions>();
        Doorkeeper doorkeeper = app.Services.GetRequiredService<Doorkeeper>();
        string warning = "Other machines of this network can now reach the page, unencrypted: use it only in a network that you trust.";
        return PairingLink.Of(options, doorkeeper, PortOf(app)) is { } link
            ? $"{warning}\nScan with the phone, or open {link.Split('#')[0]} and type {doorkeeper.Code}:\n{PairingLink.Blocks(link)}"
            : $"{warning}\nNo network was found; on the phone type the code {doorkeeper.Code}.";
    }

    private static void AddServices(IServiceCollection services, ServerOptions options, RecordStore store)
    {
        services.AddRoutingCore();
        services.AddSingleton(options);
        services.AddSingleton(store);
        services.AddSingleton(options.Clock);
        services.AddSingleton<Doorkeeper>();
        services.AddSingleton<KeptVerdicts>();
        services.AddSingleton<KeptLeafStates>();
        services.AddSingleton<KeptEntries>();
        services.AddSingleton<PhotoFiles>();
        services.AddSingleton<DrawnRoom>();
        services.AddSingleton<ProgressBell>();
        services.AddSingleton<MeasureGate>();
        services.AddSingleton<PhotoAgain>();
        services.AddSingleton<PictureDrawer>();
        services.AddSingleton<NoteMaker>();
        services.AddSingleton<ViewsDrawer>();
        services.AddSingleton<TapSheets>();
        services.AddSingleton<TapDrawer>();
        services.AddSingleton<ServerHealth>();
        services.AddHostedService<MeasureWorker>();
        services.AddHostedService<VerdictsAhead>();
        services.Configure<HostOptions>(host => host.ShutdownTimeout = PatienceAtTheEnd);
        services.Configure<RouteHandlerOptions>(route => route.ThrowOnBadRequest = true);
        services.ConfigureHttpJsonOptions(json =>
        {
            // Signs that mean something in HTML are written as \u003C and the like, wherever an answer may end up.
            json.SerializerOptions.Encoder = JavaScriptEncoder.Create(UnicodeRanges.All);
            json.SerializerOptions.NumberHandling = JsonNumberHandling.Strict;
            json.SerializerOptions.RespectNullableAnnotations = true;
        });
        services.AddOpenApi("v1", ApiDescription.Describe);
    }

    private static void UseSteps(WebApplication app)
    {
        app.UseMiddleware<AnswerHeaders>();
        app.UseMiddleware<LastNet>();
        app.UseMiddleware<HostCheck>();
        app.UseMiddleware<OriginCheck>();
        app.UseMiddleware<PairingCheck>();
        app.UseRouting();
    }

    private static void MapApi(WebApplication app)
    {
        RouteGroupBuilder api = app.MapGroup("/api");
        StateApi.Map(api);
        PlantsApi.Map(api);
        FoliageApi.Map(api);
        WalksApi.Map(api);
        UploadsApi.Map(api);
        EventsApi.Map(api);
        PhotosApi.Map(api);
        PicturesApi.Map(api);
        CareApi.Map(api);
        NotesApi.Map(api);
        TapPhotosApi.Map(api);
        OverviewApi.Map(api);
        NextApi.Map(api);
        UpkeepApi.Map(api);
        PairingApi.Map(api);
        api.MapFallback(() => Problem.Of(StatusCodes.Status404NotFound, "There is no such address.", "Nothing was changed. All addresses are described at /openapi/v1.json.")).ExcludeFromDescription();
    }
}
