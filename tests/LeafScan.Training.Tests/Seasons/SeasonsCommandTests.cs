using LeafScan.Training.Commands;

namespace LeafScan.Training.Tests.Seasons;

public sealed class SeasonsCommandTests
{
    [Theory]
    [InlineData("seasons", "--seasons", "0")]
    [InlineData("seasons", "--seed", "970000")]
    [InlineData("seasons", "--seed", "899990", "--seasons", "20")]
    [InlineData("seasons", "--photo-noise", "-1")]
    [InlineData("seasons", "--plant-variety", "11")]
    public void What_cannot_be_run_is_refused(params string[] words)
        => Assert.Equal(1, TrainingCommand.Build().Parse(words).Invoke());

    [Fact]
    public void A_few_seasons_are_run()
        => Assert.Equal(0, TrainingCommand.Build().Parse(["seasons", "--seasons", "2", "--json"]).Invoke());
}
