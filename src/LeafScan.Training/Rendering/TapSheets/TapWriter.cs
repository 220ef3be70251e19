using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using LeafScan.Frame;
using OpenCvSharp;

namespace LeafScan.Training.Rendering.TapSheets;

/// <summary>Writes a rendered tap: NAME.a.jpg, NAME.b.jpg and NAME.truth.json with every thing's place in both photos.</summary>
public static class TapWriter
{
    private static readonly JsonSerializerOptions Readable = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <summary>Writes the three files.</summary>
    /// <param name="tap">The pair.</param>
    /// <param name="folder">Folder to write to; made when missing.</param>
    public static void Write(RenderedTap tap, string folder)
    {
        Directory.CreateDirectory(folder);
        string path = Path.Combine(folder, tap.Spec.Name);
        File.WriteAllBytes(path + ".a.jpg", tap.First.Span);
        File.WriteAllBytes(path + ".b.jpg", tap.Second.Span);
        File.WriteAllText(path + ".truth.json", Json(tap.Spec).ToJsonString());
    }

    /// <summary>
    /// The truth: crawling counts mites that moved and are whole in both photos, fastMovers the same for predators, still
    /// all the rest; things lists each with kind, place [x, y] in both photos (pixels), length in mm and pixels, whether it
    /// crawls and whether it is in both photos; alignment maps the first photo onto the second (nine numbers, row by row).
    /// </summary>
    public static JsonObject Json(TapSpec spec)
    {
        PlaneMap first = TapGeometry.ToPhoto(spec, spec.First);
        PlaneMap second = TapGeometry.ToPhoto(spec, spec.Second);
        JsonArray things = [];
        int crawling = 0;
        int fast = 0;
        foreach (TapThing thing in spec.Things)
        {
            (Point2d a, _, double mm) = TapGeometry.Place(thing, first, false);
            (Point2d b, _, _) = TapGeometry.Place(thing, second, true);
            bool both = Inside(a) && Inside(b);
            crawling += both && thing.Crawls && thing.Kind == TapKind.Mite ? 1 : 0;
            fast += both && thing.Crawls && thing.Kind == TapKind.Predator ? 1 : 0;
            things.Add(new JsonObject
            {
                ["kind"] = JsonNamingPolicy.CamelCase.ConvertName(thing.Kind.ToString()),
                ["a"] = Place(a),
                ["b"] = Place(b),
                ["lengthMm"] = Math.Round(thing.LengthMm, 4),
                ["lengthPx"] = Math.Round(thing.LengthMm * mm, 3),
                ["movedMm"] = Math.Round(thing.WayMm, 4),
                ["crawls"] = thing.Crawls,
                ["inBoth"] = both,
            });
        }

        return new JsonObject
        {
            ["kind"] = "tap",
            ["difficulty"] = spec.Difficulty,
            ["seed"] = spec.Seed,
            ["pixelsPerMm"] = spec.PixelsPerMm * spec.First.Zoom,
            ["secondsBetween"] = spec.SecondsBetween,
            ["crawling"] = crawling,
            ["fastMovers"] = fast,
            ["still"] = spec.Things.Count - spec.Things.Count(t => t.Crawls),
            ["alignment"] = new JsonArray([.. TapGeometry.FirstToSecond(spec).Values.Select(v => (JsonNode)v)]),
            ["things"] = things,
            ["scene"] = JsonSerializer.SerializeToNode(spec with { Things = [] }, Readable),
        };

        bool Inside(Point2d at) => at.X > 3 && at.Y > 3 && at.X < spec.WidthPx - 4 && at.Y < spec.HeightPx - 4;
        static JsonArray Place(Point2d at) => [Math.Round(at.X, 3), Math.Round(at.Y, 3)];
    }
}
