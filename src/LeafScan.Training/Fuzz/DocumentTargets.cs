using System.Text;
using System.Text.Json;
using LeafScan.Leaves.Reading;
using LeafScan.Records;
using LeafScan.Training.Rendering.Support;
using LeafScan.Trends.Thresholds;

namespace LeafScan.Training.Fuzz;

/// <summary>Files of text: damaged as text three times in four, else as bytes.</summary>
internal abstract class TextTarget(string sound) : IFuzzTarget
{
    public abstract string Name { get; }

    public FuzzFile Next(Random random)
    {
        if (random.Hit(0.75))
        {
            return new FuzzFile("values lie", Encoding.UTF8.GetBytes(TextDamage.Change(sound, random)), 0);
        }

        (string damage, byte[] bytes) = ByteDamage.Any(Encoding.UTF8.GetBytes(sound), random);
        return new FuzzFile(damage, bytes, 0);
    }

    public abstract FuzzResult Try(FuzzFile file);

    public virtual void Dispose()
    {
    }
}

/// <summary>settings.json of a data folder.</summary>
internal sealed class SettingsTarget(RecordOriginal original, string folder) : TextTarget(original.SettingsFile)
{
    private readonly FuzzFolder _data = new(Path.Combine(folder, "settings"));

    public override string Name => "settings";

    public override FuzzResult Try(FuzzFile file)
    {
        string data = _data.Fresh();
        File.WriteAllBytes(Path.Combine(data, Settings.FileName), file.Bytes);
        try
        {
            Settings settings = Settings.Load(data);
            settings.Save(data);
            return new FuzzResult("read", double.IsFinite(settings.PrintedScale.Factor) && Settings.Load(data).PrintedBarMm == settings.PrintedBarMm ? null : "other settings come back than were kept");
        }
        catch (RecordException)
        {
            return new FuzzResult("refused");
        }
    }
}

/// <summary>thresholds.json of an older data folder, which is taken in once.</summary>
internal sealed class ThresholdsTarget(RecordOriginal original, string folder) : TextTarget(Sound)
{
    private const string Sound = """
        {"schema":"leafscan.own-thresholds/1","thresholds":[{"measure":"mites-per-tap","value":5,"plants":"Euonymus alatus","client":null,"region":"here","source":"own records"},{"measure":"damage","value":0.1,"plants":null,"client":"Smith","region":"","source":"a page"}]}
        """;

    private readonly FuzzFolder _data = new(Path.Combine(folder, "thresholds"));

    public override string Name => "thresholds";

    public override FuzzResult Try(FuzzFile file)
    {
        string data = _data.Fresh();
        original.CopyTo(data);
        File.WriteAllBytes(Path.Combine(data, "thresholds.json"), file.Bytes);
        string fate = "refused";
        try
        {
            using RecordStore store = RecordStore.Open(data, TimeProvider.System);
            RecordThresholds.Load(store);
            fate = "taken in";
        }
        catch (RecordException)
        {
            // The person is told; the record must be as it was.
        }

        return new FuzzResult(fate, original.FaultIn(data));
    }
}

/// <summary>weather add: tables of days.</summary>
internal sealed class WeatherTarget : TextTarget
{
    private readonly string _file;
    private readonly string _data;
    private readonly RecordStore _store;
    private readonly long _place;

    public WeatherTarget(RecordOriginal original, string folder)
        : base("date,min,max\n" + string.Concat(Enumerable.Range(1, 30).Select(day => FormattableString.Invariant($"2026-06-{day:00},{10 + (day % 7)}.5,{22 + (day % 5)}\n"))))
    {
        _file = Path.Combine(folder, "weather.csv");
        _data = Path.Combine(folder, "weather");
        original.CopyTo(_data);
        _store = RecordStore.Open(_data, TimeProvider.System);
        _place = _store.FindPlace(RecordOriginal.Place)!.Id;
    }

    public override string Name => "weather";

    public override FuzzResult Try(FuzzFile file)
    {
        File.WriteAllBytes(_file, file.Bytes);
        try
        {
            _store.AddWeather(_place, WeatherTable.Read(_file, isFahrenheit: file.Bytes.Length % 2 == 0), "fuzz");
            bool sane = _store.WeatherOfPlace(_place).All(day => double.IsFinite(day.LowC) && day.LowC <= day.HighC && day is { LowC: >= -90, HighC: <= 60 });
            return new FuzzResult("taken in", sane ? null : "weather that no place on earth has is on record");
        }
        catch (RecordException)
        {
            return new FuzzResult("refused");
        }
    }

    public override void Dispose()
    {
        _store.Dispose();
        base.Dispose();
    }
}

/// <summary>Documents of readings (schema leafscan.reading/1).</summary>
internal sealed class ReadingTarget() : TextTarget(Sound)
{
    private const string Sound = """
        {"schema":"leafscan.reading/1","tool":"1.0.0","photos":[{"file":"a.jpg","sha256":"00","width":400,"height":300,"taken":"2026-07-02T09:14:00-04:00","kind":"leaf","plant":null,"pixelsPerMm":null,"flags":["noScale"],
        "leaves":[{"outline":[[1,2],[30,4],[20,50.5]],"areaPx":700,"areaMm2":null,"shares":{"sound":0.9,"stippled":0.05,"yellowed":0.02,"browned":0.01,"chewed":0.02,"unassessed":0.0},"damage":0.082,"damageLow":0.071,"damageHigh":0.094,
        "speckCount":2,"speckDensityPerCm2":null,"speckDiameterMedianPx":7.1,"speckCentres":[[10,12,7.1],[11,20,6.5]],"causes":[{"cause":"miteStippling","score":0.93,"because":["pale specks"]}],"flags":[]}]}],
        "refused":[{"file":"b.jpg","reason":"The file is empty.","advice":"Copy it again."}]}
        """;

    public override string Name => "readings";

    public override FuzzResult Try(FuzzFile file)
    {
        try
        {
            ReadingJson.Read(Encoding.UTF8.GetString(file.Bytes));
            return new FuzzResult("read");
        }
        catch (JsonException)
        {
            return new FuzzResult("refused");
        }
    }
}
