using System.Diagnostics;

namespace LeafScan.Photos;

/// <summary>
/// The steps of reading a photo, for whoever wants to know where the time goes: each is an <see cref="Activity"/> of the
/// source <see cref="SourceName"/>. Nobody listens unless asked to, and then a step costs nothing.
/// </summary>
public static class Steps
{
    /// <summary>Name of the source, for listeners.</summary>
    public const string SourceName = "LeafScan.Steps";

    private static readonly ActivitySource Source = new(SourceName);

    /// <summary>Begins a step; disposing what comes back ends it. Null, which may be disposed as well, when nobody listens.</summary>
    /// <param name="name">What is done, in a word or two.</param>
    public static Activity? Begin(string name) => Source.StartActivity(name);
}
