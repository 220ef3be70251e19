namespace LeafScan.Leaves.Reading;

/// <summary>Values of a pixel in the mask picture.</summary>
public enum MaskCode
{
    /// <summary>Not leaf.</summary>
    Background = 0,

    /// <summary>Sound tissue.</summary>
    Sound = 1,

    /// <summary>Inside a speck.</summary>
    Speck = 2,

    /// <summary>Diffusely yellowed.</summary>
    Yellowed = 3,

    /// <summary>Dead brown tissue.</summary>
    Browned = 4,

    /// <summary>Missing leaf inside the rebuilt outline: bite or hole.</summary>
    Chewed = 5,

    /// <summary>Leaf that cannot be judged: glare, deep shadow, blur.</summary>
    Unassessed = 6,
}
