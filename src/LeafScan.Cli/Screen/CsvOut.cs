using System.Text;
using LeafScan.Notes.Exports;

namespace LeafScan.Cli.Screen;

/// <summary>Where a command's table for other software goes.</summary>
internal static class CsvOut
{
    /// <summary>Writes the table to a file, or to standard output for "-".</summary>
    public static void Write(Surroundings world, string target, CsvText table)
    {
        if (target == JsonOut.StandardOutput)
        {
            world.Out.Write(table.ToString());
            return;
        }

        SafeFile.Write(target, stream => stream.Write(Encoding.UTF8.GetBytes(table.ToString())));
    }
}
