// The catalogue as a thing to ask: fineness, search, layering, the user's own file.
#include "fibre/catalogue.hpp"

#include <doctest/doctest.h>
#include <stdlib.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <optional>

using namespace battwright;
using fibre::Catalogue;
using fibre::Kind;

namespace {

constexpr const char* small_text = R"(format = 1
[[kind]]
id = "harbour-mule"
name = "Harbour mule"
family = "wool"
staple = "4 in"
staple_cv = "40 %"
diameter = "29 um"
diameter_cv = "25 %"
density = "1.31 g/cm3"
allowance = "17 %"
lustre = 0.2
slipperiness = 0.25
crimp = "10 per in"
retention = "100 %"
label_eu = "wool"
label_us = "wool"
colours = ["#efe6d2"]
)";

std::vector<std::string> ids(const std::vector<const Kind*>& found) {
    std::vector<std::string> result;
    for (const Kind* kind : found) result.push_back(kind->id);
    return result;
}

std::vector<std::string> search(const char* query) {
    return ids(Catalogue::builtin().search(query));
}

bool holds(const std::vector<std::string>& words, const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// An environment variable set for one test and put back after it.
class Variable {
  public:
    Variable(std::string name, const std::string& value) : name_(std::move(name)) {
        if (const char* before = getenv(name_.c_str())) before_ = before;
        setenv(name_.c_str(), value.c_str(), 1);
    }
    ~Variable() {
        if (before_)
            setenv(name_.c_str(), before_->c_str(), 1);
        else
            unsetenv(name_.c_str());
    }
    Variable(const Variable&) = delete;
    Variable& operator=(const Variable&) = delete;

  private:
    std::string name_;
    std::optional<std::string> before_;
};

class Folder {
  public:
    Folder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "battwright-fibre-XXXXXX").string();
        REQUIRE(mkdtemp(pattern.data()) != nullptr);
        path_ = pattern;
    }
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    const std::filesystem::path& path() const { return path_; }
    void write(const std::filesystem::path& name, const std::string& text) const {
        std::filesystem::create_directories((path_ / name).parent_path());
        std::ofstream(path_ / name) << text;
    }

  private:
    std::filesystem::path path_;
};

}  // namespace

TEST_CASE("fibre_tex: a round rod, heavier by its spread") {
    // Closed form: 1.31 g/cm3 * pi/4 * (20 um)^2 = 0.4115 tex = 4.1 dtex.
    CHECK(fibre::fibre_tex(20.0, 0.0, 1.31) == doctest::Approx(0.41155).epsilon(1e-4));
    CHECK(fibre::fibre_tex(20.0, 0.25, 1.31) / fibre::fibre_tex(20.0, 0.0, 1.31) == doctest::Approx(1.0625));
    CHECK(fibre::fibre_tex(40.0, 0.0, 1.31) / fibre::fibre_tex(20.0, 0.0, 1.31) == doctest::Approx(4.0));
    // Identity between units: a round fibre of 1 um2 and 1 g/cm3 is 1e-3 tex.
    const double one_square_um = std::sqrt(4.0 / std::numbers::pi);
    CHECK(fibre::fibre_tex(one_square_um, 0.0, 1.0) == doctest::Approx(1e-3).scale(0.0));
}

TEST_CASE("man-made fibres come out at the counts they are sold in (from memory)") {
    const auto dtex = [](const char* id) {
        const Kind* kind = Catalogue::builtin().find(id);
        REQUIRE(kind != nullptr);
        return 10.0 * fibre::fibre_tex(kind->diameter_um, kind->diameter_cv, kind->density_g_cm3);
    };
    CHECK(dtex("viscose") == doctest::Approx(1.7).epsilon(0.05).scale(0.0));
    CHECK(dtex("lyocell") == doctest::Approx(1.4).epsilon(0.06).scale(0.0));
    CHECK(dtex("modal") == doctest::Approx(1.3).epsilon(0.05).scale(0.0));
    CHECK(dtex("nylon") == doctest::Approx(3.3).epsilon(0.05));
    CHECK(dtex("polyester") == doctest::Approx(3.3).epsilon(0.05));
    CHECK(dtex("nylon-trilobal") == doctest::Approx(3.3).epsilon(0.05));
    CHECK(dtex("cotton") == doctest::Approx(1.7).epsilon(0.1).scale(0.0));
    CHECK(dtex("sparkle-film") == doctest::Approx(16.7).epsilon(0.03));
}

TEST_CASE("words for families and forms go there and back") {
    for (int i = 0; i <= static_cast<int>(fibre::Family::unknown); ++i) {
        const auto family = static_cast<fibre::Family>(i);
        CHECK_FALSE(word_for(family).empty());
        CHECK(fibre::family_from(word_for(family)) == family);
    }
    for (int i = 0; i <= static_cast<int>(fibre::Form::film); ++i) {
        const auto form = static_cast<fibre::Form>(i);
        CHECK_FALSE(word_for(form).empty());
        CHECK(fibre::form_from(word_for(form)) == form);
    }
    CHECK_FALSE(fibre::family_from("wol").has_value());
    CHECK_FALSE(fibre::form_from("").has_value());
}

TEST_CASE("find knows ids and only ids") {
    const Catalogue& catalogue = Catalogue::builtin();
    REQUIRE(catalogue.find("polwarth") != nullptr);
    CHECK(catalogue.find("polwarth")->name == "Polwarth");
    CHECK(catalogue.find("Polwarth") == nullptr);
    CHECK(catalogue.find("") == nullptr);
    CHECK(catalogue.ids().size() == catalogue.kinds().size());
    CHECK(catalogue.ids().front() == catalogue.kinds().front().id);
}

TEST_CASE("search: nothing asked for is everything, in the order of the file") {
    CHECK(search("") == Catalogue::builtin().ids());
    CHECK(search("  - ,") == Catalogue::builtin().ids());
}

TEST_CASE("search: best first, every word must be held") {
    CHECK(search("merino-fine").front() == "merino-fine");
    CHECK(search("Fine Merino").front() == "merino-fine");
    CHECK(search("polw") == std::vector<std::string>{"polwarth", "falkland"});  // "polwarth cross"
    CHECK(search("POLWARTH").front() == "polwarth");
    CHECK(search("bfl").front() == "bluefaced-leicester");
    CHECK(holds(search("rayon"), "viscose"));
    CHECK(search("tencel") == std::vector<std::string>{"lyocell"});
    CHECK(holds(search("glitter"), "sparkle-film"));
    CHECK(search("kelp").empty());
    CHECK(search("merino kelp").empty());
    const auto silks = search("silk");
    CHECK(silks.size() >= 6);
    CHECK(holds(silks, "tussah-silk"));
    CHECK(holds(silks, "soy-protein"));  // sold as "soy silk"
    CHECK(silks.front() != "soy-protein");
    // By family: every hair, though none has the word in its name.
    CHECK(holds(search("hair"), "cashmere"));
    CHECK(holds(search("wool"), "romney"));
    CHECK(search("wool neps").front() == "wool-neps");
}

TEST_CASE("meant: one kind by any word for it, none where several fit") {
    const Catalogue& catalogue = Catalogue::builtin();
    const std::pair<const char*, const char*> words[] = {
        {"Corriedale", "corriedale"},
        {"CORRIEDALE", "corriedale"},
        {" corriedale ", "corriedale"},
        {"Corriedale wool", "corriedale"},
        {"BFL", "bluefaced-leicester"},
        {"bfl wool", "bluefaced-leicester"},
        {"bluefaced leicester", "bluefaced-leicester"},
        {"Blue-faced Leicester", "bluefaced-leicester"},
        {"bluefaced leicester locks", "bluefaced-leicester-locks"},
        {"Finn Sheep", "finnsheep"},
        {"finn", "finnsheep"},
        {"tussah silk", "tussah-silk"},
        {"Silk, tussah", "tussah-silk"},
        {"tussah", "tussah-silk"},
        {"kid mohair", "mohair-kid"},
        {"tencel", "lyocell"},
        {"baby alpaca", "alpaca-baby"},
        {"fine merino", "merino-fine"},
        {"linen", "flax"}};
    for (const auto& [word, id] : words) {
        CAPTURE(word);
        const fibre::Kind* kind = catalogue.meant(word);
        REQUIRE(kind != nullptr);
        CHECK(kind->id == id);
    }
    for (const char* word : {"merino", "silk", "wool", "wild silk", "angora goat", "black", "fine",
                             "coriedale", "merinofine", "kelp", "", " -"}) {
        CAPTURE(word);
        CHECK(catalogue.meant(word) == nullptr);
    }
    for (const fibre::Kind& kind : catalogue.kinds()) CHECK(catalogue.meant(kind.id) == &kind);
    CHECK(catalogue.near("merino") ==
          std::vector<std::string>{search("merino")[0], search("merino")[1], search("merino")[2]});
    CHECK(catalogue.near("wild silk") == std::vector<std::string>{"tussah-silk", "muga-silk"});
    CHECK(catalogue.near("gull", {"gulls"}) == std::vector<std::string>{"gulls"});
    CHECK(fibre::unknown_kind("coriedale", catalogue).mend == "did you mean corriedale?");
}

TEST_CASE("from_text reads units as people write them") {
    const auto read = Catalogue::from_text(small_text, "fibres.toml");
    REQUIRE_MESSAGE(read, measure::to_line(read.error()));
    REQUIRE(read->kinds().size() == 1);
    const Kind& kind = read->kinds().front();
    CHECK(kind.staple_mm == doctest::Approx(101.6));
    CHECK(kind.staple_cv == doctest::Approx(0.4));
    CHECK(kind.diameter_um == 29.0);
    CHECK(kind.crimp_per_cm == doctest::Approx(10.0 / 2.54));
    CHECK(kind.retention == 1.0);
    CHECK(kind.form == fibre::Form::fibre);
    CHECK(kind.sources.empty());
}

TEST_CASE("like takes what is not stated, and the source goes with the figure") {
    const auto read = Catalogue::from_text(R"(format = 1
[[kind]]
id = "harbour-mule"
like = "polwarth"
staple = "90 mm"
staple_cv = "30 %"
sources = { staple_cv = "practice" }
[[kind]]
id = "harbour-lamb"
name = "Harbour lamb"
like = "harbour-mule"
diameter = "22 um"
)",
                                           "fibres.toml", Catalogue::builtin());
    REQUIRE_MESSAGE(read, measure::to_line(read.error()));
    const Kind& polwarth = *Catalogue::builtin().find("polwarth");
    const Kind& mule = *read->find("harbour-mule");
    CHECK(mule.name == "harbour-mule");
    CHECK(mule.diameter_um == polwarth.diameter_um);
    CHECK(mule.sources.at("diameter") == polwarth.sources.at("diameter"));
    CHECK(mule.staple_mm == 90.0);
    CHECK_FALSE(mule.sources.contains("staple"));  // polwarth's source says nothing of 90 mm
    CHECK(mule.sources.at("staple_cv") == "common practice, no source");
    const Kind& lamb = *read->find("harbour-lamb");
    CHECK(lamb.staple_mm == 90.0);
    CHECK(lamb.diameter_um == 22.0);
    CHECK(lamb.family == fibre::Family::wool);
}

TEST_CASE("a later kind of the same id replaces the earlier one") {
    const std::string twice = std::string(small_text) + R"([[kind]]
id = "harbour-mule"
name = "Harbour mule, second clip"
like = "harbour-mule"
staple = "60 mm"
)";
    const auto read = Catalogue::from_text(twice, "fibres.toml");
    REQUIRE_MESSAGE(read, measure::to_line(read.error()));
    REQUIRE(read->kinds().size() == 1);
    CHECK(read->kinds().front().staple_mm == 60.0);
    CHECK(read->kinds().front().diameter_um == 29.0);
}

TEST_CASE("with: the upper layer wins in place, its new kinds come last, the lower stays as it was") {
    const Catalogue& lower = Catalogue::builtin();
    const auto upper =
        Catalogue::from_text(std::string(small_text) +
                                 "[[kind]]\nid = \"polwarth\"\nlike = \"harbour-mule\"\nstaple = \"70 mm\"\n",
                             "fibres.toml");
    REQUIRE(upper);
    const Catalogue both = lower.with(*upper);
    CHECK(both.kinds().size() == lower.kinds().size() + 1);
    CHECK(both.find("polwarth")->staple_mm == 70.0);
    CHECK(both.find("merino-fine")->staple_mm == lower.find("merino-fine")->staple_mm);
    CHECK(both.kinds().back().id == "harbour-mule");
    CHECK(lower.find("polwarth")->staple_mm != 70.0);
    CHECK(lower.find("harbour-mule") == nullptr);
    const auto place = [](const Catalogue& catalogue) {
        return catalogue.find("polwarth") - &catalogue.kinds()[0];
    };
    CHECK(place(both) == place(lower));
    CHECK(lower.with(Catalogue()).ids() == lower.ids());
    CHECK(Catalogue().with(lower).ids() == lower.ids());
}

TEST_CASE("the user's own file is laid over the built-in one") {
    const Folder folder;
    const Variable data("XDG_DATA_HOME", folder.path().string());
    const auto missing = fibre::catalogue_for_user();
    REQUIRE(missing);
    CHECK(missing->ids() == Catalogue::builtin().ids());

    folder.write("battwright/fibres.toml",
                 "format = 1\n[[kind]]\nid = \"polwarth\"\nname = \"Polwarth, ours\"\nlike = \"polwarth\"\n"
                 "staple = \"120 mm\"\n");
    const auto ours = fibre::catalogue_for_user();
    REQUIRE_MESSAGE(ours, measure::to_line(ours.error()));
    CHECK(ours->find("polwarth")->staple_mm == 120.0);
    CHECK(ours->find("polwarth")->diameter_um == Catalogue::builtin().find("polwarth")->diameter_um);
    CHECK(ours->kinds().size() == Catalogue::builtin().kinds().size());

    folder.write("battwright/fibres.toml", "format = 1\n[[kind]]\nid = \"gull\"\nlike = \"polwart\"\n");
    const auto broken = fibre::catalogue_for_user();
    REQUIRE_FALSE(broken);
    CHECK(measure::to_line(broken.error()) ==
          (folder.path() / "battwright/fibres.toml").string() +
              ":4:8: no kind is called \"polwart\"; did you mean polwarth?");
}

TEST_CASE("without XDG_DATA_HOME, or with a relative one, the file is under ~/.local/share") {
    const Folder folder;
    folder.write(".local/share/battwright/fibres.toml",
                 "format = 1\n[[kind]]\nid = \"gull-down\"\nlike = \"cashmere\"\n");
    const Variable home("HOME", folder.path().string());
    for (const char* value : {"", "here/and/there"}) {
        const Variable data("XDG_DATA_HOME", value);
        const auto read = fibre::catalogue_for_user();
        REQUIRE(read);
        CHECK(read->find("gull-down") != nullptr);
    }
}

TEST_CASE("a folder where the user's file should be is a complaint") {
    const Folder folder;
    const Variable data("XDG_DATA_HOME", folder.path().string());
    std::filesystem::create_directories(folder.path() / "battwright/fibres.toml");
    const auto read = fibre::catalogue_for_user();
    REQUIRE_FALSE(read);
    CHECK(measure::to_line(read.error()).find("fibres.toml") != std::string::npos);
}
