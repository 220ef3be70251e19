namespace LeafScan.Leaves.Kinds;

/// <summary>What a photo shows.</summary>
public enum PhotoKind
{
    /// <summary>One leaf or a few, near enough to be measured; also a close-up of a leaf's surface.</summary>
    Leaf = 1,

    /// <summary>A conifer's twig.</summary>
    Twig,

    /// <summary>A whole plant.</summary>
    Plant,

    /// <summary>The white sheet of a tap test.</summary>
    Tap,

    /// <summary>A plant's tag.</summary>
    Tag,

    /// <summary>Nothing that can be used: black, burnt out, smeared, a floor, a wall, the sky.</summary>
    Unusable,
}

/// <summary>The kinds' names.</summary>
public static class PhotoKinds
{
    /// <summary>Every kind, in the order of the model's scores.</summary>
    public static IReadOnlyList<PhotoKind> All { get; } = Enum.GetValues<PhotoKind>();

    /// <summary>Name as it stands in readings and on the command line: leaf, twig, plant, tap, tag, unusable.</summary>
    public static string Name(this PhotoKind kind) => kind.ToString().ToLowerInvariant();

    /// <summary>The kind of a name; null when there is none of that name.</summary>
    public static PhotoKind? Named(string name) =>
        All.Where(kind => kind.Name() == name).Select(kind => (PhotoKind?)kind).FirstOrDefault();
}
