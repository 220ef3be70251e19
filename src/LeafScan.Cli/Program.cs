using System.Runtime.InteropServices;
using System.Text;
using LeafScan.Cli;

// The result is UTF-8 whatever the locale says: JSON is, and a file name must come out as it went in.
using StreamWriter result = new(Console.OpenStandardOutput(), new UTF8Encoding(encoderShouldEmitUTF8Identifier: false)) { AutoFlush = true };
Surroundings world = new() { Out = result, Err = Console.Error, ErrIsTerminal = !Console.IsErrorRedirected };

using CancellationTokenSource stop = new();
void Stop(PosixSignalContext signal)
{
    // The first signal lets the photo in hand be finished or dropped; a second one ends the program at once.
    signal.Cancel = !stop.IsCancellationRequested;
    stop.Cancel();
}

using PosixSignalRegistration interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
using PosixSignalRegistration terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);

return await Door.RunAsync(args, world, stop.Token).ConfigureAwait(false);
