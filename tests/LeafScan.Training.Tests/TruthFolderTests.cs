using LeafScan.Training.Bench;
using LeafScan.Training.Rendering;
using LeafScan.Training.Rendering.Truth;
using Xunit.Abstractions;

namespace LeafScan.Training.Tests;

public class TruthFolderTests(ITestOutputHelper said)
{
    [Fact]
    public void Written_scenes_are_found_again_with_the_truth_they_were_made_with()
    {
        string folder = Path.Combine(Path.GetTempPath(), $"leafscan-truth-{Guid.NewGuid():N}");
        try
        {
            using RenderedScene scene = SceneRenderer.Render(Some.FlatLeaf(specks: 40));
            SceneWriter.Write(scene, Path.Combine(folder, "walk", "B03"), Path.Combine(folder, "truth", "walk", "B03"));
            TruthCase found = Assert.Single(TruthFolder.List(folder));
            Assert.Equal(TruthKind.Full, found.Kind);
            TruthFile truth = TruthFile.Read(found.JsonPath!);
            Assert.Equal(scene.Truth.Total.Shares, truth.Shares);
            Assert.Equal(scene.Truth.Total.SpeckCount, truth.Specks.Count);
            Assert.Equal("easy", truth.Difficulty);
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    [Fact]
    public void A_photo_from_before_the_damage_is_a_set_of_its_own()
    {
        string folder = Path.Combine(Path.GetTempPath(), $"leafscan-truth-{Guid.NewGuid():N}");
        try
        {
            Directory.CreateDirectory(folder);
            foreach (string name in (string[])["case-001.jpg", "case-001.base.jpg", "case-001.truth.png", "case-001.truth.json", "case-002.base.jpg"])
            {
                File.WriteAllText(Path.Combine(folder, name), "");
            }

            IReadOnlyList<TruthCase> cases = TruthFolder.List(folder);
            Assert.Equal(2, cases.Count);
            TruthCase before = Assert.Single(cases, c => c.Kind == TruthKind.Unpainted);
            Assert.Equal(Path.GetFileName(folder) + " before painting", before.Set);
            Assert.EndsWith("case-001.truth.png", before.MaskPath, StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    [Fact]
    public void Implants_made_by_another_program_are_read_the_same_way()
    {
        string? folder = Implants();
        if (folder is null)
        {
            said.WriteLine("Skipped: ../shared/implants is not there.");
            return;
        }

        IReadOnlyList<TruthCase> cases = TruthFolder.List(folder);
        Assert.Equal(30, cases.Count(c => c.Kind == TruthKind.Full));
        Assert.Equal(10, cases.Count(c => c.Kind == TruthKind.Unpainted));
        TruthFile first = TruthFile.Read(cases.First(c => c.Kind == TruthKind.Full).JsonPath!);
        Assert.Equal(0.06743591369217439, first.Shares.Browned, 12);
        Assert.Empty(first.Specks);
    }

    private static string? Implants()
    {
        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "LeafScan.sln")))
            {
                string folder = Path.Combine(at.FullName, "..", "shared", "implants");
                return Directory.Exists(folder) ? folder : null;
            }
        }

        return null;
    }
}
