using LeafScan.Leaves.Reading;
using LeafScan.Photos;
using LeafScan.Records;
using LeafScan.Trends.NextSteps;
using LeafScan.Trends.Thresholds;
using LeafScan.Trends.Verdicts;

namespace LeafScan.Trends.Tests.Verdicts;

/// <summary>What is kept must be what judging anew says, after every kind of change, and only what a change touches is judged anew.</summary>
public sealed class KeptVerdictsTests : IDisposable
{
    private static readonly DateOnly First = new(2026, 5, 20);

    private readonly string _folder = Directory.CreateTempSubdirectory("leafscan-kept-").FullName;

    [Fact]
    public void Kept_verdicts_are_those_of_judging_anew_after_every_change()
    {
        using RecordStore store = RecordStore.Open(_folder, TimeProvider.System);
        long place = store.FindOrAddPlace("Hill").Id, other = store.FindOrAddPlace("Dale").Id;
        long[] plants = [.. Enumerable.Range(1, 6).Select(i => store.FindOrAddPlant(i == 6 ? other : place, $"P{i}").Id)];
        foreach (long plant in plants)
        {
            store.EditPlant(plant, old => old with { Species = plant == plants[4] ? "Picea glauca" : "Euonymus alatus", Facts = old.Facts with { IsCheck = plant == plants[3] } }, "test");
            for (int week = 0; week < 6; week++)
            {
                Add(store, plant == plants[5] ? other : place, $"P{Array.IndexOf(plants, plant) + 1}", week, 0.02 + (0.02 * week * (plant == plants[3] ? 2 : 1)));
            }

            store.AddTap(new NewTap { PlantId = plant, Day = First, MitesByLens = 30 });
            if (plant != plants[3] && plant != plants[1])
            {
                store.AddCare(plant, First.AddDays(15), CareKind.Rinse);
            }
        }

        KeptVerdicts kept = new(store);
        KeptLeafStates leaves = new(store);
        KeptEntries entries = new(store);
        Same(6);
        Same(0);
        store.AddTap(new NewTap { PlantId = plants[0], Day = First.AddDays(30), MitesByLens = 1 });
        Same(1);

        // The untreated plant of the species at Hill: its own, and those beside it.
        store.AddTap(new NewTap { PlantId = plants[3], Day = First.AddDays(30), MitesByLens = 80 });
        Same(4);
        store.EditPlant(plants[3], old => old with { Facts = old.Facts with { IsCheck = false } }, "treated after all");
        Same(4);
        store.AddCare(plants[1], First.AddDays(14), CareKind.Nothing);
        Same(4);
        store.AddWeather(other, [new WeatherDay(First, 10, 20, "test")]);
        Same(1);
        Add(store, place, "P5", 7, 0.5);
        Same(1);
        store.PutInBin(BinKind.Photo, store.PhotosOfPlant(plants[4])[0].Id, "a thumb");
        Same(1);
        store.UndoLastEdit();
        Same(1);
        store.FindOrAddPlant(other, "P7");
        Same(1);
        Assert.DoesNotContain(999L, kept.Of([999]).Keys);
        SameAdvice(store, leaves, entries, store.Plants(), First.AddDays(30));
        int entriesRead = entries.ReadCount;
        store.EditCare(store.CareOfPlant(plants[0])[0].Id, old => old with { What = CareKind.Oil }, "read the bottle again");
        SameAdvice(store, leaves, entries, store.Plants(), First.AddDays(30));
        Assert.Equal(1, entries.ReadCount - entriesRead);

        void Same(int judgedAnew)
        {
            int before = kept.JudgedCount;
            IReadOnlyList<Plant> all = store.Plants();
            IReadOnlyDictionary<long, Verdict> verdicts = kept.Of(all.Select(plant => plant.Id));
            Assert.Equal(judgedAnew, kept.JudgedCount - before);
            SameAdvice(store, leaves, entries, all, First.AddDays(60));
            IReadOnlyList<Verdict> together = new PlantJudge(store).Judge(all);
            for (int i = 0; i < all.Count; i++)
            {
                Verdict alone = new PlantJudge(store).Judge(all[i]);
                Assert.Equivalent(alone, verdicts[all[i].Id], strict: true);
                Assert.Equivalent(alone, together[i], strict: true);
            }
        }
    }

    // Advice judges the last weeks by themselves, without their care, so that what it keeps is its own.
    private static void SameAdvice(RecordStore store, KeptLeafStates leaves, KeptEntries entries, IReadOnlyList<Plant> all, DateOnly today)
    {
        ThresholdTable thresholds = RecordThresholds.Load(store);
        IReadOnlyList<PlantAdvice> kept = new PlantAdviser(store, thresholds, leaves, entries).Advise(all, today);
        int read = leaves.ReadCount;
        Assert.Equivalent(new PlantAdviser(store, thresholds).Advise(all, today), kept, strict: true);
        Assert.Equivalent(kept, new PlantAdviser(store, thresholds, leaves, entries).Advise(all, today), strict: true);
        Assert.Equal(read, leaves.ReadCount);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static void Add(RecordStore store, long place, string plant, int week, double damage)
    {
        long walk = store.FindOrAddWalk(place, First.AddDays(7 * week)).Id;
        for (int leaf = 0; leaf < 5; leaf++)
        {
            string sha = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes($"{place} {plant} {week} {leaf}")));
            double own = damage + (0.003 * leaf);
            store.RecordPhoto(new NewPhoto
            {
                WalkId = walk,
                Facts = new PhotoFacts { FileName = $"{plant}-{week}-{leaf}.jpg", Path = "/nowhere", Sha256 = sha, ByteLength = 9, Format = PhotoFormat.Jpeg, WidthPx = 100, HeightPx = 100 },
                Reading = new PhotoReading
                {
                    File = "x.jpg",
                    Sha256 = sha,
                    Width = 100,
                    Height = 100,
                    Kind = "leaf",
                    Flags = [],
                    Leaves =
                    [
                        new LeafReading
                        {
                            Outline = [new(10, 10), new(90, 10), new(90, 90)],
                            AreaPx = 6400,
                            Shares = new LeafShares(1 - own, own, 0, 0, 0, 0),
                            Damage = own,
                            DamageLow = own - 0.005,
                            DamageHigh = own + 0.005,
                            SpeckCount = 3,
                            SpeckDiameterMedianPx = 4,
                            SpeckCentres = [],
                            Causes = [],
                            Flags = [],
                        },
                    ],
                },
                Origin = new ReadingOrigin("0.0.1", "0123456789abcdef"),
                Plant = PlantGuess.ByHand(plant),
                LeafTag = $"{leaf}",
            });
        }
    }
}
