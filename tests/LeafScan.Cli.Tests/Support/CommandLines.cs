using System.Text;

namespace LeafScan.Cli.Tests.Support;

/// <summary>Command lines as people write them.</summary>
internal static class CommandLines
{
    /// <summary>Splits words at blanks, with double and single quotes, as a shell does.</summary>
    public static string[] Split(string line)
    {
        List<string> words = [];
        StringBuilder word = new();
        char quote = '\0';
        bool begun = false;
        foreach (char letter in line.Trim())
        {
            if (quote == '\0' && letter is '"' or '\'')
            {
                (quote, begun) = (letter, true);
            }
            else if (letter == quote)
            {
                quote = '\0';
            }
            else if (quote == '\0' && letter == ' ')
            {
                if (begun)
                {
                    words.Add(word.ToString());
                    word.Clear();
                    begun = false;
                }
            }
            else
            {
                word.Append(letter);
                begun = true;
            }
        }

        return begun ? [.. words, word.ToString()] : [.. words];
    }

    /// <summary>Lines in code blocks of a Markdown file that call leafscan; "selftest" is the launcher's own word.</summary>
    public static IEnumerable<string> InDocument(string path)
    {
        bool inside = false;
        foreach (string line in File.ReadLines(path))
        {
            if (line.StartsWith("```", StringComparison.Ordinal))
            {
                inside = !inside;
                continue;
            }

            string command = line.Split(" # ")[0].Trim();
            if (inside && (command.StartsWith("leafscan ", StringComparison.Ordinal) || command.StartsWith("./leafscan ", StringComparison.Ordinal))
                && !command.EndsWith("selftest", StringComparison.Ordinal))
            {
                yield return command;
            }
        }
    }
}

/// <summary>Files of the repository the tests were built from.</summary>
internal static class RepositoryFiles
{
    public static string Find(string name)
    {
        for (string? folder = AppContext.BaseDirectory; folder is not null; folder = Path.GetDirectoryName(folder))
        {
            if (File.Exists(Path.Combine(folder, "LeafScan.sln")))
            {
                return Path.Combine(folder, name);
            }
        }

        throw new FileNotFoundException("The repository was not found above the tests.");
    }
}
