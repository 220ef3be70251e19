namespace LeafScan.Training.Bench;

/// <summary>How well people agreed with the truth when they rated shares by eye, as published; to stand beside our figures.</summary>
/// <param name="Study">Where it is from.</param>
/// <param name="What">What was rated.</param>
/// <param name="Condition">With which help.</param>
/// <param name="Ccc">Lin's coefficient, as text: some give a range.</param>
/// <param name="Cb">Its bias part; empty when not given.</param>
/// <param name="R">Its precision part; empty when not given.</param>
public sealed record HumanAnchor(string Study, string What, string Condition, string Ccc, string Cb, string R)
{
    /// <summary>The studies. Read in their abstracts only; other diseases, other leaves, other ranges than ours.</summary>
    public static IReadOnlyList<HumanAnchor> All { get; } =
    [
        new("Yadav et al. 2013, Plant Pathology, doi 10.1111/j.1365-3059.2012.02641.x (authors and year from memory)", "pecan scab on fruit, 23 raters", "by eye", "0.79", "0.86", ""),
        new("the same", "pecan scab on fruit, 23 raters", "with standard area diagrams", "0.89", "0.97", ""),
        new("Hilton et al. 2024, Plant Disease, doi 10.1094/PDIS-09-23-1947-RE", "pecan leaf scab 0.2-48.9 %, 36 raters", "by eye", "0.70", "", ""),
        new("the same", "pecan leaf scab 0.2-48.9 %, 36 raters", "with standard area diagrams", "0.84", "", ""),
        new("Plum rust standard area diagram set, 2019 (abstract; authors not shown)", "plum rust 0.3-35 %, 10 new raters", "by eye", "0.68", "0.78", "0.87"),
        new("the same", "plum rust 0.3-35 %, 10 new raters", "with standard area diagrams", "0.91", "0.97", "0.93"),
        new("Plant Disease 103(6):1347-1356, 2019, doi 10.1094/PDIS-10-18-1718-RE", "leaf spot of table beet, 30 raters", "best aided method", "0.96", "0.99", "0.95"),
        new("Septoria leaf blotch of wheat, University of Liege repository 2268/185427 (abstract)", "percent area, 4 raters", "best rater", "0.986-0.999", "", ""),
        new("the same", "percent area, 4 raters", "two weakest raters", "0.205-0.936", "", ""),
    ];
}
