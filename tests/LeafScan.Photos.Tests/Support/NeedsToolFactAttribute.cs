namespace LeafScan.Photos.Tests.Support;

/// <summary>A test that needs a program from outside the project; skipped, and said so, when it is not installed.</summary>
public sealed class NeedsToolTheoryAttribute : TheoryAttribute
{
    public NeedsToolTheoryAttribute(string tool)
    {
        if (!OutsideTool.Exists(tool))
        {
            Skip = $"{tool} is not installed";
        }
    }
}

/// <summary>The same for a single case.</summary>
public sealed class NeedsToolFactAttribute : FactAttribute
{
    public NeedsToolFactAttribute(string tool)
    {
        if (!OutsideTool.Exists(tool))
        {
            Skip = $"{tool} is not installed";
        }
    }
}
