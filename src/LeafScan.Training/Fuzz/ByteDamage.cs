namespace LeafScan.Training.Fuzz;

/// <summary>Damage that knows nothing of what a file holds: what broken cards, cables and copies do.</summary>
internal static class ByteDamage
{
    /// <summary>Cuts the end off; at least so many bytes of it.</summary>
    public static byte[] Cut(byte[] whole, Random random, int atLeast = 1) => whole[..random.Next(1, Math.Max(2, whole.Length - atLeast))];

    /// <summary>Changes up to 40 single bytes from a place on.</summary>
    public static byte[] Change(byte[] whole, Random random, int from = 0)
    {
        byte[] bytes = [.. whole];
        for (int i = random.Next(1, 41); i > 0; i--)
        {
            bytes[random.Next(Math.Min(from, bytes.Length - 1), bytes.Length)] ^= (byte)random.Next(1, 256);
        }

        return bytes;
    }

    /// <summary>Overwrites a run with chance, with zeros or with a piece from elsewhere in the file.</summary>
    public static byte[] Overwrite(byte[] whole, Random random)
    {
        byte[] bytes = [.. whole];
        int length = random.Next(1, Math.Max(2, bytes.Length / 3));
        Span<byte> run = bytes.AsSpan(random.Next(bytes.Length - length + 1), length);
        switch (random.Next(3))
        {
            case 0:
                random.NextBytes(run);
                break;
            case 1:
                run.Clear();
                break;
            default:
                whole.AsSpan(random.Next(whole.Length - length + 1), length).CopyTo(run);
                break;
        }

        return bytes;
    }

    /// <summary>Takes a run out.</summary>
    public static byte[] TakeOut(byte[] whole, Random random)
    {
        int from = random.Next(whole.Length);
        return [.. whole[..from], .. whole[Math.Min(whole.Length, from + random.Next(1, Math.Max(2, whole.Length / 4)))..]];
    }

    /// <summary>Puts a run in twice.</summary>
    public static byte[] Repeat(byte[] whole, Random random)
    {
        int from = random.Next(whole.Length);
        int to = Math.Min(whole.Length, from + random.Next(1, Math.Max(2, whole.Length / 4)));
        return [.. whole[..to], .. whole[from..]];
    }

    /// <summary>Any of them.</summary>
    public static (string Damage, byte[] Bytes) Any(byte[] whole, Random random) => random.Next(5) switch
    {
        0 => ("cut off", Cut(whole, random)),
        1 => ("bytes changed", Change(whole, random)),
        2 => ("a run overwritten", Overwrite(whole, random)),
        3 => ("a run taken out", TakeOut(whole, random)),
        _ => ("a run repeated", Repeat(whole, random)),
    };
}
