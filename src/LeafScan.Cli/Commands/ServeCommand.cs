using System.CommandLine;
using System.Globalization;
using System.Net.Sockets;
using LeafScan.Cli.Screen;
using LeafScan.Records;
using LeafScan.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Connections;

namespace LeafScan.Cli.Commands;

/// <summary>serve: the page, until it is stopped.</summary>
internal static class ServeCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build(Surroundings world)
    {
        Option<int> port = new("--port")
        {
            Description = string.Create(CultureInfo.InvariantCulture, $"Port of the page; 0 takes any that is free. Default: {ServerOptions.UsualPort}."),
            HelpName = "N",
            DefaultValueFactory = _ => ServerOptions.UsualPort,
        };
        port.Validators.Add(result =>
        {
            if (result.Number() is < 0 or > 65535)
            {
                result.AddError("--port takes a number from 0 to 65535.");
            }
        });
        Option<bool> lan = new("--lan") { Description = "Lets phones in the same network open the page, once they have scanned a code." };
        ExampleCommand command = new("serve", "Shows the page for the browser until it is stopped with Ctrl-C.", "leafscan serve", "leafscan serve --lan --port 9000")
        {
            port, lan,
        };
        command.SetAction((parsed, cancel) => RunAsync(parsed, world, parsed.GetValue(port), parsed.GetValue(lan), cancel));
        return command;
    }

    private static async Task<int> RunAsync(ParseResult parsed, Surroundings world, int port, bool lan, CancellationToken cancel)
    {
        using RecordStore store = DataPlace.OpenOrBegin(parsed, world);
        using OneServer one = OneServer.Take(store.Folder) ?? throw new CommandException(
            ExitCode.StoreTrouble, $"Another leafscan serve already works in {store.Folder}. Nothing was changed. Use its page, or stop it first.");
        ServerOptions options = new()
        {
            Port = port,
            Lan = lan,
            LanNames = lan ? LanNames.OfThisMachine() : [],
            Clock = world.Time,
            Log = error => Trouble.Log(parsed, world, error),
        };
        WebApplication app = PageServer.Build(options, store);
        await using (app.ConfigureAwait(false))
        {
            try
            {
                await app.StartAsync(cancel).ConfigureAwait(false);
            }
            catch (IOException error) when (error.InnerException is AddressInUseException || error.InnerException is SocketException)
            {
                throw new CommandException(
                    ExitCode.StoreTrouble,
                    string.Create(CultureInfo.InvariantCulture, $"Port {port} is taken by another program, or may not be opened. Nothing was changed. Name another one, for example: leafscan serve --port {(port < 65535 ? port + 1 : 8470)}"),
                    error);
            }
            catch (SocketException error)
            {
                throw new CommandException(
                    ExitCode.StoreTrouble,
                    string.Create(CultureInfo.InvariantCulture, $"Port {port} may not be opened. Nothing was changed. Name another one, for example: leafscan serve --port {ServerOptions.UsualPort}"),
                    error);
            }

            Tell(world, app, options);
            TaskCompletionSource stopped = new(TaskCreationOptions.RunContinuationsAsynchronously);
            using (cancel.Register(stopped.SetResult))
            {
                await stopped.Task.ConfigureAwait(false);
            }

            world.Err.WriteLine("Stopping: the photo in hand is finished first. What waits goes on at the next start.");
            await app.StopAsync(CancellationToken.None).ConfigureAwait(false);
            return ExitCode.Done;
        }
    }

    private static void Tell(Surroundings world, WebApplication app, ServerOptions options)
    {
        int port = PageServer.PortOf(app);
        world.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{port}/"));
        world.Out.Flush();
        world.Err.WriteLine("Open this address in a browser. Ctrl-C stops.");
        if (options.Lan)
        {
            world.Err.WriteLine(PageServer.PairingWords(app));
        }
    }
}
