namespace LeafScan.Training.Bench;

/// <summary>What is known to be true of a photo.</summary>
public enum TruthKind
{
    /// <summary>A code for every pixel, shares and specks: NAME.truth.png and NAME.truth.json.</summary>
    Full,

    /// <summary>The outline only: NAME.mask.png (255 leaf) or NAME.cutout.jpg (background black).</summary>
    Outline,

    /// <summary>
    /// The scene before damage was painted, NAME.base.jpg beside the truth of NAME.jpg: the outline is that of the whole leaf,
    /// and every speck that is measured is a false one.
    /// </summary>
    Unpainted,

    /// <summary>Brown tissue as marked by people on a close-up without an outline: NAME.mask.png with NAME.votes.png beside it.</summary>
    Browned,
}

/// <summary>A photo with the files that hold its truth.</summary>
/// <param name="Set">Name of the folder it was found through.</param>
/// <param name="PhotoPath">The photo.</param>
/// <param name="Kind">What is known.</param>
/// <param name="MaskPath">The picture that holds the truth.</param>
/// <param name="JsonPath">Shares and specks; null unless everything is known.</param>
public sealed record TruthCase(string Set, string PhotoPath, TruthKind Kind, string MaskPath, string? JsonPath)
{
    /// <summary>Set and file, by which two runs are laid side by side.</summary>
    public string Key => Set + "/" + Path.GetFileNameWithoutExtension(PhotoPath);
}
