using System.Globalization;

namespace LeafScan.Records.Tests;

/// <summary>What the tests run as a second process: it records photos and prints the number of each one that is committed.</summary>
internal static class ChildProgram
{
    /// <summary>Arguments: data folder, first photo number, how many. Prints the trouble's kind and ends with 4 when there is trouble.</summary>
    private static int Main(string[] arguments)
    {
        int first = int.Parse(arguments[1], CultureInfo.InvariantCulture);
        int count = int.Parse(arguments[2], CultureInfo.InvariantCulture);
        try
        {
            using RecordStore store = RecordStore.Open(arguments[0], TimeProvider.System);
            Walk walk = store.FindOrAddWalk(store.FindOrAddPlace("Nursery").Id, Some.Day);
            Console.WriteLine("open");
            for (int number = first; number < first + count; number++)
            {
                store.RecordPhoto(Some.Photo(walk.Id, number, "B12", Some.Leaf(), Some.Leaf(), Some.Leaf()));
                Console.WriteLine(number.ToString(CultureInfo.InvariantCulture));
            }

            return 0;
        }
        catch (RecordException trouble)
        {
            Console.WriteLine(trouble.Trouble);
            Console.WriteLine(trouble.Message);
            return 4;
        }
    }
}
