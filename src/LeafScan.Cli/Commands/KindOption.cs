using System.CommandLine;
using LeafScan.Cli.Screen;

namespace LeafScan.Cli.Commands;

/// <summary>--kind: what the photos show, said by the person who took them.</summary>
internal static class KindOption
{
    /// <summary>A new option.</summary>
    public static Option<string> New()
    {
        Option<string> kind = new("--kind")
        {
            Description = "What all the photos show: leaf, twig or plant. Default: each is looked at and measured as what it surely shows, else as a leaf; tap sheets are refused.",
        };
        kind.OnlyOneOf(["leaf", "twig", "plant"]);
        return kind;
    }

    /// <summary>A new option for a healthy photo.</summary>
    public static Option<string> OfHealthyPhoto()
    {
        Option<string> kind = new("--kind") { Description = "What the healthy photo shows: twig or plant. Default: it is looked at." };
        kind.OnlyOneOf(["twig", "plant"]);
        return kind;
    }

    /// <summary>A new option for questions to the record: one kind, whatever else the plant has.</summary>
    public static Option<string> OnRecord()
    {
        Option<string> kind = new("--kind")
        {
            Description = "Only readings of this kind: leaf, twig or plant. Default: of each plant its leaves where it has any, else twigs, else whole-plant photos.",
        };
        kind.OnlyOneOf(["leaf", "twig", "plant"]);
        return kind;
    }
}
