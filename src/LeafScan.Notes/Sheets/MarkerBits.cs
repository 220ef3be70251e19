using OpenCvSharp;
using OpenCvSharp.Aruco;

namespace LeafScan.Notes.Sheets;

/// <summary>The squares of a marker of OpenCV's dictionary DICT_4X4_50, border included.</summary>
internal static class MarkerBits
{
    /// <summary>Squares along a side: four of the code and one of the border on each end.</summary>
    public const int Side = 6;

    /// <summary>True where it is black; row by row.</summary>
    /// <param name="id">Number of the marker, 0 to 49.</param>
    public static bool[,] Of(int id)
    {
        using Dictionary dictionary = CvAruco.GetPredefinedDictionary(PredefinedDictionaryType.Dict4X4_50);
        using Mat picture = new();
        dictionary.GenerateImageMarker(id, Side, picture, borderBits: 1);
        picture.GetArray(out byte[] levels);
        bool[,] black = new bool[Side, Side];
        for (int i = 0; i < levels.Length; i++)
        {
            black[i / Side, i % Side] = levels[i] < 128;
        }

        return black;
    }
}
