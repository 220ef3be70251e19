using LeafScan.Cli.Screen;

namespace LeafScan.Cli.Tests;

public class ProgressTellerTests
{
    [Fact]
    public void Where_nobody_watches_a_line_comes_every_few_seconds()
    {
        StepClock clock = new();
        using StringWriter errors = new();
        using (ProgressTeller progress = new(new Surroundings { Out = TextWriter.Null, Err = errors, Time = clock }, "Measuring", 10))
        {
            for (int i = 0; i < 10; i++)
            {
                clock.Seconds += 2;
                progress.Step();
            }
        }

        string[] lines = errors.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(["Measuring: 3 of 10 photos, 30 a minute, about 14 s left", "Measuring: 6 of 10 photos, 30 a minute, about 8 s left", "Measuring: 9 of 10 photos, 30 a minute, about 2 s left"], lines.Select(line => line.TrimEnd()));
    }

    [Fact]
    public void A_quick_run_says_nothing()
    {
        using StringWriter errors = new();
        using (ProgressTeller progress = new(new Surroundings { Out = TextWriter.Null, Err = errors, Time = new StepClock() }, "Measuring", 1))
        {
            progress.Step();
        }

        Assert.Empty(errors.ToString());
    }

    private sealed class StepClock : TimeProvider
    {
        public long Seconds { get; set; }

        public override long TimestampFrequency => 1;

        public override long GetTimestamp() => Seconds;
    }
}
