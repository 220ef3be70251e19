using System.Security.Cryptography;
using System.Text;

namespace LeafScan.Web.Safety;

/// <summary>What became of a guess.</summary>
internal enum GuessResult
{
    /// <summary>The code is right.</summary>
    Right,

    /// <summary>The code is wrong.</summary>
    Wrong,

    /// <summary>Too many wrong ones: nothing is looked at for a while.</summary>
    Locked,
}

/// <summary>
/// Keeps the pairing code and the devices that have paired since the server was started. Both live as long as the server: after a
/// new start a phone scans the new code.
/// </summary>
internal sealed class Doorkeeper
{
    public const string CookieName = "leafscan";

    /// <summary>Wrong guesses in a row from one address before it has to wait.</summary>
    public const int WrongFromOne = 5;

    /// <summary>Wrong guesses from all addresses before everybody has to wait.</summary>
    public const int WrongFromAll = 25;

    /// <summary>How long the wait is.</summary>
    public static readonly TimeSpan Wait = TimeSpan.FromMinutes(10);

    // No letters that are taken for one another on paper: 31 signs, eight of them make 39 bits.
    private const string Signs = "ABCDEFGHJKMNPQRSTUVWXYZ23456789";
    private const int CodeLength = 8;
    private const int MostDevices = 200;
    private const int MostAddresses = 1000;

    private readonly Lock _gate = new();
    private readonly TimeProvider _clock;
    private readonly List<byte[]> _devices = [];
    private readonly Dictionary<string, (int Wrong, DateTimeOffset Last)> _guesses = [];
    private int _wrongFromAll;
    private DateTimeOffset _lastWrong;

    public Doorkeeper(TimeProvider clock)
    {
        _clock = clock;
        Code = NewCode();
    }

    /// <summary>The code as it is shown and typed, without spaces.</summary>
    public string Code { get; }

    /// <summary>Looks at a guess.</summary>
    /// <param name="guess">What was typed; spaces, hyphens and letter case do not count.</param>
    /// <param name="from">Address it came from.</param>
    /// <param name="token">Secret for the device's cookie when the guess is right.</param>
    public GuessResult Guess(string? guess, string from, out string? token)
    {
        token = null;
        lock (_gate)
        {
            DateTimeOffset now = _clock.GetUtcNow();
            Forget(now);
            if (_wrongFromAll >= WrongFromAll || (_guesses.TryGetValue(from, out (int Wrong, DateTimeOffset Last) seen) && seen.Wrong >= WrongFromOne))
            {
                return GuessResult.Locked;
            }

            string typed = new([.. (guess ?? "").Where(char.IsLetterOrDigit).Select(char.ToUpperInvariant)]);
            if (!CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(typed), Encoding.UTF8.GetBytes(Code)))
            {
                _guesses[from] = (seen.Wrong + 1, now);
                _wrongFromAll++;
                _lastWrong = now;
                return GuessResult.Wrong;
            }

            _guesses.Remove(from);
            token = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(32));
            if (_devices.Count == MostDevices)
            {
                _devices.RemoveAt(0);
            }

            _devices.Add(SHA256.HashData(Encoding.UTF8.GetBytes(token)));
            return GuessResult.Right;
        }
    }

    /// <summary>Whether a cookie is that of a paired device.</summary>
    public bool Knows(string? token)
    {
        if (token is not { Length: 64 })
        {
            return false;
        }

        byte[] hash = SHA256.HashData(Encoding.UTF8.GetBytes(token));
        lock (_gate)
        {
            return _devices.Any(known => CryptographicOperations.FixedTimeEquals(known, hash));
        }
    }

    private void Forget(DateTimeOffset now)
    {
        foreach (string old in _guesses.Where(pair => now - pair.Value.Last >= Wait).Select(pair => pair.Key).ToList())
        {
            _guesses.Remove(old);
        }

        if (_guesses.Count > MostAddresses)
        {
            _guesses.Remove(_guesses.MinBy(pair => pair.Value.Last).Key);
        }

        if (now - _lastWrong >= Wait)
        {
            _wrongFromAll = 0;
        }
    }

    private static string NewCode()
    {
        char[] code = new char[CodeLength];
        for (int i = 0; i < code.Length; i++)
        {
            code[i] = Signs[RandomNumberGenerator.GetInt32(Signs.Length)];
        }

        return new string(code);
    }
}
