namespace LeafScan.Records.Tests;

/// <summary>Rules: XDG Base Directory Specification 0.8 (freedesktop.org), with our flag and variable before it.</summary>
public sealed class DataFolderTests
{
    private static DataFolder Resolve(string? flag, params (string Name, string Value)[] environment)
        => DataFolder.Resolve(flag, name => environment.FirstOrDefault(pair => pair.Name == name).Value, "/home/ann", "/home/ann/walks");

    [Fact]
    public void The_flag_comes_first()
        => Assert.Equal(new DataFolder("/a", "--data-dir"), Resolve("/a", ("LEAFSCAN_DATA_DIR", "/b"), ("XDG_DATA_HOME", "/c")));

    [Fact]
    public void The_variable_comes_second()
        => Assert.Equal(new DataFolder("/b", "LEAFSCAN_DATA_DIR"), Resolve(null, ("LEAFSCAN_DATA_DIR", "/b"), ("XDG_DATA_HOME", "/c")));

    [Fact]
    public void The_desktop_standards_folder_comes_third()
        => Assert.Equal(new DataFolder("/c/leafscan", "XDG_DATA_HOME"), Resolve(null, ("XDG_DATA_HOME", "/c")));

    [Theory]
    [InlineData("")]
    [InlineData("relative/folder")]
    public void The_standard_says_that_an_empty_or_relative_folder_is_passed_over(string dataHome)
        => Assert.Equal(new DataFolder("/home/ann/.local/share/leafscan", "default"), Resolve(null, ("XDG_DATA_HOME", dataHome)));

    [Fact]
    public void A_relative_flag_is_meant_from_the_current_folder()
        => Assert.Equal("/home/ann/walks/season 2026/ü", Resolve("season 2026/ü").FolderPath);

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    public void An_empty_flag_is_refused_and_not_taken_for_the_default(string flag)
        => Assert.Equal(RecordTrouble.NoFolder, Assert.Throws<RecordException>(() => Resolve(flag)).Trouble);

    [Fact]
    public void An_account_without_a_home_is_told_what_to_do()
    {
        RecordException trouble = Assert.Throws<RecordException>(() => DataFolder.Resolve(null, _ => null, "", "/"));
        Assert.Contains("--data-dir", trouble.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_new_data_folder_is_for_its_owner_only()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        using var folder = new ScratchFolder();
        string made = Path.Combine(folder.FolderPath, "deep", "data");
        RecordStore.Open(made, folder.Clock).Dispose();

        // The specification asks for 0700.
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(made));
    }
}
