using System.Diagnostics;
using System.Text.Json;
using LeafScan.Records;
using LeafScan.Web.Tests.Support;

namespace LeafScan.Web.Tests;

/// <summary>What comes next, beside what the command says of the same record on the same day.</summary>
public sealed class NextTests
{
    [Fact]
    public async Task The_page_says_word_for_word_what_the_command_says_with_reasons_sources_and_cautions()
    {
        await using TestPage page = new();
        Some.Season(page.Store);
        page.Store.AddTap(new NewTap { PlantId = page.Store.FindPlants("EU-1")[0].Id, Day = new DateOnly(2026, 8, 3), MitesByLens = 30, Strikes = 5, Predators = 1 });
        JsonElement[] told = [.. (await page.GetAsync("/api/next")).EnumerateArray()];
        foreach (string code in new[] { "EU-1", "EU-2" })
        {
            JsonElement said = await CommandAsync("next", code, "--date", "2026-08-04", "--json", "-", "--data-dir", page.Folder);
            JsonElement plant = told.Single(one => one.GetProperty("code").GetString() == code);
            Assert.Equal(said.GetProperty("lookAgainOn").GetString(), plant.GetProperty("lookAgainOn").GetString());
            Assert.Equal(said.GetProperty("rest").GetBoolean(), plant.GetProperty("rest").GetBoolean());
            Assert.Equal(JsonSerializer.Serialize(said.GetProperty("steps")), JsonSerializer.Serialize(plant.GetProperty("steps")));
            Assert.Equal(JsonSerializer.Serialize(said.GetProperty("cautions")), JsonSerializer.Serialize(plant.GetProperty("cautions")));
            Assert.Equal(said.GetProperty("taps").GetProperty("branches").GetInt32(), plant.GetProperty("taps").GetProperty("branches").GetInt32());
            Assert.Equal(said.GetProperty("taps").GetProperty("stopBecause").GetString(), plant.GetProperty("taps").GetProperty("stopBecause").GetString());
        }

        Assert.NotEmpty(told.Single(one => one.GetProperty("code").GetString() == "EU-1").GetProperty("cautions").EnumerateArray());
        Assert.Equal("EU-2", (await page.GetAsync($"/api/next?plant={page.Store.FindPlants("EU-2")[0].Id}"))[0].GetProperty("code").GetString());
    }

    private static async Task<JsonElement> CommandAsync(params string[] args)
    {
        ProcessStartInfo start = new("dotnet", ["exec", Path.Combine(AppContext.BaseDirectory, "leafscan.dll"), .. args]) { RedirectStandardOutput = true, RedirectStandardError = true };
        using Process command = Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start.");
        Task<string> errors = command.StandardError.ReadToEndAsync();
        string output = await command.StandardOutput.ReadToEndAsync();
        await command.WaitForExitAsync();
        Assert.True(command.ExitCode == 0, await errors);
        return JsonDocument.Parse(output).RootElement;
    }
}
