using CsCheck;

namespace LeafScan.Records.Tests;

public sealed class PlantFromPathTests
{
    private static PlantGuess Decide(string inside) => PlantFromPath.Decide("/walks/june", Path.Combine("/walks/june", inside));

    [Theory]
    [InlineData("B12/IMG_0001.jpg", "B12")]
    [InlineData("B12/close/IMG_0001.jpg", "B12")]
    [InlineData("Miller's hedge, \"south\"/a.jpg", "Miller's hedge, \"south\"")]
    [InlineData("  spaced   out /a.jpg", "spaced out")]
    [InlineData("Żywopłot/a.jpg", "Żywopłot")]
    [InlineData("Z\u0307ywopłot/a.jpg", "Żywopłot")]
    [InlineData("柘植 3/a.jpg", "柘植 3")]
    [InlineData("2026/a.jpg", "2026")]
    [InlineData("B12/C13_x.jpg", "B12")]
    [InlineData("DCIM/100ABCDE/B7/IMG_0001.jpg", "B7")]
    public void A_sub_folder_names_the_plant(string inside, string code)
    {
        PlantGuess guess = Decide(inside);
        Assert.Equal((code, "byFolder"), (guess.Code, guess.Word));
    }

    [Theory]
    [InlineData("B12_IMG_0001.jpg", "B12")]
    [InlineData("B12 - x.jpg", "B12")]
    [InlineData("B12.jpg", "B12")]
    [InlineData("B12-3.jpg", "B12")]
    [InlineData("b12 (2).HEIC", "b12")]
    [InlineData("BX-07 front.jpg", "BX-07")]
    [InlineData("12B_front.jpg", "12B")]
    [InlineData("P7_front.jpg", "P7")]
    [InlineData("Öl3 'oben'.jpg", "Öl3")]
    [InlineData("O\u0308l3.jpg", "Öl3")]
    [InlineData("T1024.png", "T1024")]
    [InlineData("DCIM/100ABCDE/B7_0001.jpg", "B7")]
    public void A_code_at_the_start_of_the_name_names_the_plant(string inside, string code)
    {
        PlantGuess guess = Decide(inside);
        Assert.Equal((code, "byFileName"), (guess.Code, guess.Word));
    }

    // The eight-character names follow JEITA CP-3461; the others are names that phones give (common practice, no source).
    [Theory]
    [InlineData("IMG_0001.jpg")]
    [InlineData("IMG_E0001.jpg")]
    [InlineData("IMG0001.jpg")]
    [InlineData("IMG1.jpg")]
    [InlineData("DSC00017.JPG")]
    [InlineData("DSC_0017.JPG")]
    [InlineData("_DSC0017.JPG")]
    [InlineData("DSCN0017.JPG")]
    [InlineData("P1010017.JPG")]
    [InlineData("ABCD0017.JPG")]
    [InlineData("PXL_20260702_131400123.jpg")]
    [InlineData("IMG-20260702-WA0003.jpg")]
    [InlineData("20260702_091400.jpg")]
    [InlineData("2026-07-02 09.14.00.jpg")]
    [InlineData("20260702T091400.jpg")]
    [InlineData("0001.jpg")]
    [InlineData("leaf.jpg")]
    [InlineData("hedge_12.jpg")]
    [InlineData("photo-12.jpg")]
    [InlineData("DCIM/100ABCDE/IMG_0001.jpg")]
    [InlineData("a1b2c3d4-5678-90ab-cdef.jpg")]
    [InlineData(".jpg")]
    [InlineData("\u0007bell/a.jpg")]
    public void Names_that_cameras_give_and_plain_words_are_no_codes(string inside)
    {
        PlantGuess guess = Decide(inside);
        Assert.Equal((null, "unknown"), (guess.Code, guess.Word));
        Assert.Contains("folder", guess.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void A_photo_outside_the_walks_folder_is_judged_by_its_name_alone()
        => Assert.Equal(("B12", "byFileName"), (PlantFromPath.Decide("/walks/june", "/elsewhere/C3/B12_1.jpg").Code, PlantFromPath.Decide("/walks/june", "/elsewhere/C3/B12_1.jpg").Word));

    [Fact]
    public void Any_folder_name_whatever_gives_a_code_that_can_be_kept_or_none()
        => Gen.String.Where(name => name.Length > 0 && !name.Contains('/') && !name.Contains('\0') && name is not "." and not "..").Sample(name =>
        {
            string? code = Decide(name + "/a.jpg").Code;
            return code is null || (NameText.Clean(code) == code && code.Length <= NameText.LongestName);
        });

    [Fact]
    public void Any_file_name_whatever_gives_a_code_with_which_it_begins_or_none()
        => Gen.String.Where(name => !name.Contains('/') && !name.Contains('\0')).Sample(name =>
        {
            string? code = PlantFromPath.CodeAtStart(name);
            return code is null || (name.StartsWith(code, StringComparison.Ordinal) && code.Any(char.IsLetter) && code.Any(char.IsDigit));
        });

    [Fact]
    public void A_code_of_one_letter_and_two_digits_is_found_before_anything_a_camera_adds()
        => Gen.Select(Gen.Char['A', 'Z'], Gen.Int[10, 99], Gen.Int[0, 4].Select(index => new[] { "_", " ", "-", " - ", "." }[index]), Gen.Int[0, 9999]).Sample((letter, number, between, counter) =>
            PlantFromPath.CodeAtStart($"{letter}{number}{between}IMG_{counter:0000}") == $"{letter}{number}");
}
