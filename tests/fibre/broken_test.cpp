// What is said of broken catalogue files: one line, the place, how to mend it.
#include <doctest/doctest.h>

#include <string>

#include "fibre/catalogue.hpp"

using namespace battwright;

namespace {

// A whole kind; a test breaks one line of it.
const std::string whole = R"(format = 1
[sources]
clip = "our own clip of last spring"
[[kind]]
id = "harbour-mule"
name = "Harbour mule"
family = "wool"
form = "fibre"
staple = "95 mm"
staple_cv = "40 %"
diameter = "29 um"
diameter_cv = "25 %"
density = "1.31 g/cm3"
allowance = "17 %"
lustre = 0.2
slipperiness = 0.25
crimp = "4 per cm"
retention = "100 %"
label_eu = "wool"
label_us = "wool"
colours = ["#efe6d2", "#2b2623"]
also = ["mule"]
sources = { staple = "clip", diameter = "memory" }
)";

std::string replaced(const std::string& old_text, const std::string& new_text) {
    std::string text = whole;
    const std::size_t at = text.find(old_text);
    REQUIRE_MESSAGE(at != std::string::npos, old_text);
    return text.replace(at, old_text.size(), new_text);
}

std::string complaint(const std::string& text) {
    const auto read = fibre::Catalogue::from_text(text, "f.toml");
    return read ? "" : measure::to_line(read.error());
}

}  // namespace

TEST_CASE("the whole one reads") {
    CHECK(complaint(whole) == "");
    const auto read = fibre::Catalogue::from_text(whole, "f.toml");
    REQUIRE(read);
    CHECK(read->kinds().front().sources.at("staple") == "our own clip of last spring");
    CHECK(read->kinds().front().sources.at("diameter") == "memory");
}

TEST_CASE("keys, words and ids that are not known") {
    CHECK(complaint(replaced("lustre = 0.2", "luster = 0.2")) ==
          "f.toml:15:1: unknown key \"luster\" in kind \"harbour-mule\"; did you mean lustre?");
    CHECK(complaint(replaced("[sources]\nclip", "[source]\nclip"))
              .starts_with("f.toml:2:2: unknown key \"source\""));
    CHECK(
        complaint(replaced("format = 1", "format = 1\nqqqqqqqqqqqqq = 2")) ==
        "f.toml:2:1: unknown key \"qqqqqqqqqqqqq\" in the file; known here: format, sources, base and kind");
    CHECK(complaint(replaced("\"wool\"\nform", "\"wol\"\nform")) ==
          "f.toml:7:10: \"wol\" is no family; write one of wool, hair, silk, bast, cotton, regenerated, "
          "synthetic, sparkle, inclusion, unknown");
    CHECK(complaint(replaced("form = \"fibre\"", "form = \"lump\"")) ==
          "f.toml:8:8: \"lump\" is no form; write one of fibre, nep, lock, film");
    CHECK(complaint(replaced("id = \"harbour-mule\"", "id = \"Harbour Mule\"")) ==
          "f.toml:5:6: the id \"Harbour Mule\" is not in small letters and dashes; "
          "write it as in id = \"harbour-mule\"");
    CHECK(complaint(replaced("family = \"wool\"", "family = \"wool\"\nlike = \"tide-pool\"")) ==
          "f.toml:8:8: no kind is called \"tide-pool\"; "
          "write the id of a kind that stands above it or in the built-in catalogue");
}

TEST_CASE("sources that are not known") {
    CHECK(complaint(replaced("staple = \"clip\"", "staple = \"clp\"")) ==
          "f.toml:23:22: no source is called \"clp\"; did you mean clip?");
    CHECK(complaint(replaced("staple = \"clip\"", "stape = \"clip\""))
              .starts_with("f.toml:23:13: unknown key \"stape\" in sources; did you mean staple"));
    CHECK(complaint(replaced("staple = \"clip\"", "staple = 3")) ==
          "f.toml:23:22: staple is a whole number; write it in quotes");
    CHECK(
        complaint(replaced("sources = { staple = \"clip\", diameter = \"memory\" }", "sources = \"clip\"")) ==
        "f.toml:23:11: sources is a text; write a table, as in sources = { staple = \"memory\" }");
}

TEST_CASE("figures of the wrong type, unit or size") {
    CHECK(
        complaint(replaced("staple = \"95 mm\"", "staple = 95")) ==
        "f.toml:9:10: staple is a whole number; write it in quotes with its unit, as in staple = \"75 mm\"");
    CHECK(
        complaint(replaced("\"95 mm\"", "\"95\"")).starts_with("f.toml:9:10: the length \"95\" has no unit"));
    CHECK(complaint(replaced("\"95 mm\"", "\"95 km\"")).starts_with("f.toml:9:10: "));
    CHECK(complaint(replaced("\"95 mm\"", "\"9500 mm\"")) ==
          "f.toml:9:10: the staple length is out of range: 9500 mm; "
          "write 0.5 to 1000 mm, as in staple = \"75 mm\"");
    CHECK(complaint(replaced("\"29 um\"", "\"0 um\"")) ==
          "f.toml:11:12: the diameter is out of range: 0 um; write 2 to 500 um, as in diameter = \"21 um\"");
    CHECK(complaint(replaced("\"1.31 g/cm3\"", "\"1.31 kg\"")) ==
          "f.toml:13:11: the density \"1.31 kg\" is not in g/cm3; "
          "write grams per cubic centimetre, as in \"1.31 g/cm3\"");
    CHECK(complaint(replaced("\"1.31 g/cm3\"", "\"1,31 g/cm3\"")).find("comma") != std::string::npos);
    CHECK(complaint(replaced("\"17 %\"", "\"170 %\""))
              .starts_with("f.toml:14:13: the moisture allowance is out of range: 170 %"));
    CHECK(complaint(replaced("lustre = 0.2", "lustre = 1.2")) ==
          "f.toml:15:10: the lustre is out of range: 1.2; write 0 to 1, as in lustre = 0.3");
    CHECK(complaint(replaced("lustre = 0.2", "lustre = nan"))
              .starts_with("f.toml:15:10: the lustre is out of range"));
    CHECK(complaint(replaced("lustre = 0.2", "lustre = \"0.2\"")) ==
          "f.toml:15:10: lustre is a text; write a number without quotes, as in lustre = 0.3");
    CHECK(complaint(replaced("\"4 per cm\"", "\"4 per yard\""))
              .starts_with("f.toml:17:9: the crimp \"4 per yard\" is not in waves per cm or per in"));
    CHECK(complaint(replaced("\"100 %\"", "\"0 %\""))
              .starts_with("f.toml:18:13: the retention is out of range: 0 %"));
    CHECK(
        complaint(replaced("\"40 %\"", "\"-4 %\"")).starts_with("f.toml:10:13: the percentage is negative"));
    CHECK(complaint(replaced("label_eu = \"wool\"", "label_eu = \"\""))
              .starts_with("f.toml:19:12: label_eu is empty"));
    CHECK(complaint(replaced("name = \"Harbour mule\"", "name = true")) ==
          "f.toml:6:8: name is true or false; write it in quotes");
}

TEST_CASE("what no fibre can be is a slip of the pen, and what one could be is not") {
    // Twice what is known of any: hair's crimp ends near 12 per cm, a kempy fleece's CV near 60 %, wool takes
    // up 36 % at most; the lightest fibre is polypropylene with 0.91 g/cm3 (handbooks).
    const auto refused = [](const char* was, const char* is) {
        return complaint(replaced(was, is)).find("out of range") != std::string::npos;
    };
    CHECK(refused("\"25 %\"", "\"160 %\""));
    CHECK(complaint(replaced("\"25 %\"", "\"60 %\"")).empty());
    CHECK(refused("\"4 per cm\"", "\"22 per cm\""));
    CHECK(complaint(replaced("\"4 per cm\"", "\"12 per cm\"")).empty());
    CHECK(refused("\"17 %\"", "\"55 %\""));
    CHECK(complaint(replaced("\"17 %\"", "\"36 %\"")).empty());
    CHECK(refused("\"100 %\"", "\"110 %\""));
    CHECK(refused("\"1.31 g/cm3\"", "\"0.45 g/cm3\""));
    CHECK(complaint(replaced("\"1.31 g/cm3\"", "\"0.55 g/cm3\"")).empty());
    CHECK(complaint(replaced("\"95 mm\"", "\"9500.123 mm\"")).find("9500.12 mm") != std::string::npos);
}

TEST_CASE("colours") {
    CHECK(complaint(replaced("\"#2b2623\"", "\"black\"")) ==
          "f.toml:21:23: \"black\" is no colour; write # and six hexadecimal digits, as in \"#efe6d2\"");
    CHECK(complaint(replaced("\"#2b2623\"", "7"))
              .starts_with("f.toml:21:23: an entry of colours is a whole number"));
    CHECK(complaint(replaced("[\"#efe6d2\", \"#2b2623\"]", "[]"))
              .starts_with("f.toml:21:11: colours is an empty list"));
    CHECK(complaint(replaced("[\"#efe6d2\", \"#2b2623\"]", "\"#efe6d2\""))
              .starts_with("f.toml:21:11: colours is a text; write a list"));
}

TEST_CASE("what is left out is told at the kind it is missing from") {
    CHECK(complaint(replaced("staple = \"95 mm\"\n", "")) ==
          "f.toml:4:1: the kind \"harbour-mule\" has no staple; "
          "write one, or say what it is like, as in like = \"corriedale\"");
    CHECK(complaint(replaced("family = \"wool\"\n", "")).find("has no family") != std::string::npos);
    CHECK(complaint(replaced("colours = [\"#efe6d2\", \"#2b2623\"]\n", "")).find("has no colours") !=
          std::string::npos);
    CHECK(complaint(replaced("id = \"harbour-mule\"\n", "")) ==
          "f.toml:4:1: a kind has no id; write one, as in id = \"harbour-mule\"");
    // A misspelt key is told of, not the key it was meant for.
    CHECK(complaint(replaced("staple = \"95 mm\"", "stapel = \"95 mm\""))
              .starts_with("f.toml:9:1: unknown key"));
}

TEST_CASE("the file itself") {
    CHECK(complaint("") == "f.toml:1:1: the file has no format number; write format = 1 on its first line");
    CHECK(complaint("format = 1\n") ==
          "f.toml:1:1: the file holds no kind; start one with [[kind]] on a line of its own");
    CHECK(complaint(replaced("format = 1", "format = 2")) ==
          "f.toml:1:10: format 2 is not one this program reads; write format = 1, or use a newer battwright");
    CHECK(complaint(replaced("format = 1", "format = \"1\"")) ==
          "f.toml:1:10: format is a text; write format = 1");
    CHECK(complaint("format = 1\nkind = 3\n").starts_with("f.toml:2:8: kind is a whole number"));
    CHECK(
        complaint("format = 1\nkind = [3]\n").starts_with("f.toml:2:9: an entry of kind is a whole number"));
    CHECK(complaint("format = 1\nbase = 3\n").starts_with("f.toml:2:8: base is a whole number"));
    CHECK(complaint(replaced("\"95 mm\"", "95 mm")).starts_with("f.toml:9:"));
    CHECK(complaint(replaced("lustre = 0.2", "lustre = 0.2\nlustre = 0.3")).starts_with("f.toml:16:"));
    CHECK(complaint(replaced("Harbour mule", "Harbour\xff mule")) ==
          "f.toml:6:16: the text is not UTF-8 here; save the file as UTF-8");
    CHECK(complaint("format = 1\nx = " + std::string(100000, '[')).starts_with("f.toml:2:"));
}

TEST_CASE("of several faults the first in the file is told") {
    std::string text = replaced("lustre = 0.2", "lustre = 7");
    text.replace(text.find("\"#2b2623\""), 9, "\"black\"");
    text.replace(text.find("\"29 um\""), 7, "\"29 mm\"");
    CHECK(complaint(text).starts_with("f.toml:11:12: "));
}

TEST_CASE("faults within a base") {
    const std::string base = "[base.harbour]\nfamily = \"wool\"\ndensity = \"1.31\"\nid = \"x\"\n[[kind]]";
    CHECK(complaint(replaced("[[kind]]", base))
              .starts_with("f.toml:6:11: the density \"1.31\" is not in g/cm3"));
    const std::string other = "[base.harbour]\nfamily = \"wool\"\nid = \"x\"\n[[kind]]";
    CHECK(complaint(replaced("[[kind]]", other))
              .starts_with("f.toml:6:1: unknown key \"id\" in base \"harbour\""));
}
