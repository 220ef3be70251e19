using LeafScan.Records;

namespace LeafScan.Training.Fuzz;

/// <summary>restore: backups. What is refused leaves the record as it was.</summary>
internal sealed class BackupTarget(RecordOriginal original, string folder) : IFuzzTarget
{
    private readonly FuzzFolder _data = new(Path.Combine(folder, "restore"));
    private readonly string _file = Path.Combine(folder, "backup.db");

    public string Name => "backups";

    public FuzzFile Next(Random random)
    {
        (string damage, byte[] bytes) = ByteDamage.Any(original.Backup, random);
        return new FuzzFile(damage, bytes, 0);
    }

    public FuzzResult Try(FuzzFile file)
    {
        File.WriteAllBytes(_file, file.Bytes);
        string data = _data.Fresh();
        original.CopyTo(data);
        try
        {
            RecordStore.Restore(data, _file, TimeProvider.System);
        }
        catch (RecordException)
        {
            return new FuzzResult("refused", original.FaultIn(data));
        }

        return new FuzzResult(RecordQuestions.Ask(data) == 0 ? "taken" : "taken, some questions refused in words");
    }

    public void Dispose()
    {
    }
}

/// <summary>The record's own file, damaged on the disk.</summary>
internal sealed class RecordFileTarget(RecordOriginal original, string folder) : IFuzzTarget
{
    private readonly FuzzFolder _data = new(Path.Combine(folder, "record"));

    public string Name => "records";

    public FuzzFile Next(Random random)
    {
        (string damage, byte[] bytes) = ByteDamage.Any(original.Record, random);
        return new FuzzFile(damage, bytes, 0);
    }

    public FuzzResult Try(FuzzFile file)
    {
        string data = _data.Fresh();
        File.WriteAllBytes(Path.Combine(data, RecordStore.FileName), file.Bytes);
        try
        {
            return new FuzzResult(RecordQuestions.Ask(data) == 0 ? "all questions answered" : "some questions refused in words");
        }
        catch (RecordException)
        {
            return new FuzzResult("refused");
        }
    }

    public void Dispose()
    {
    }
}
