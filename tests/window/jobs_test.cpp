// The jobs of the README and those a newcomer would try, each by mouse and by keys alone, in small and large
// windows, light and dark. Three looks are gone through by themselves, which has every size, theme and hand;
// BATTWRIGHT_JOB_LOOKS=all goes through all twelve, =large through 130 and 160 % of text and a screen of 3840
// x 2160, =1024x700-dark-keys through that one; commas between several. BATTWRIGHT_JOB_PICTURES=FOLDER keeps
// a picture of each step.
#include "jobs.hpp"

#include <imgui.h>

#include <fstream>

#include "harbour.hpp"
#include "recipe/file.hpp"
#include "strip/picture.hpp"
#include "window/kit/letters.hpp"

using namespace battwright;
using namespace jobs;
using workplace::Place;

namespace {

recipe::Recipe job_recipe(const Probe& probe) {
    const auto recipe = recipe::read_text(probe.state.at("recipe"), "bench", fibre::Catalogue::builtin());
    return recipe ? *recipe : recipe::Recipe{};
}

// Nine bags as a table, two of them with marks of their own.
constexpr const char* nine_bags = R"(mark,name,fibre,colours,form,weight_g
KMR4CD,Low water,corriedale,#4f6b78,top,214
PVT9FG,Brass lamp,tussah silk,#b98a2f,top,31
,Gull's back,polwarth,#9aa4ab,top,96
,Foghorn,merino medium,,top,240
,Ferry paint,merino fine,#b3222b,top,75
,Harbour fog,alpaca,#bfc2c0,roving,158
,Tarred rope,romney,#33271d,sliver,305
,Slipway moss,corriedale,#6f7f3d,batt,28
,Herring scale,sparkle film,#c9d4dd,sparkle,22
)";

// A complaint stands under its own field.
void check_trouble_under(const Probe& probe, const std::string& label) {
    REQUIRE(probe.boxes.contains("trouble"));
    const auto& field = probe.boxes.at(label);
    CHECK(probe.boxes.at("trouble").top >= field.bottom - 1.0f);
    CHECK(probe.boxes.at("trouble").top < field.bottom + 20.0f);
}

}  // namespace

TEST_CASE("job: a 60 g batt of four fibres with sparkle on the last pass, from nothing") {
    for (const JobLook& look : looks()) {
        CAPTURE(name_of(look));
        const Place place("job-batt");
        Script script;
        JobHand hand{script, look, "batt"};
        hand.picture("empty");
        if (look.keys)
            hand.add_fibre("corriedale");
        else
            hand.press("Add the first fibre").type("corriedale");
        hand.write("weight 1", "30 g").picture("first");
        hand.add_fibre("tussah silk").write("weight 2", "10 g");
        hand.add_fibre("polwarth").write("weight 3", "17 g");
        hand.add_fibre("sparkle").write("weight 4", "3 g");
        hand.write("batt name", "Dark Harbour").picture("four");
        script.then([](const Probe& probe) {
            const auto recipe = job_recipe(probe);
            REQUIRE(recipe.components.size() == 4);
            CHECK(recipe.components[3].add_on_pass == recipe::last_pass);
            CHECK(std::stod(probe.state.at("total grams")) == doctest::Approx(60.0));
            CHECK(probe.state.at("complaint").empty());
        });
        hand.press("lock 4").write("total", "80 g").picture("locked");
        script.then([](const Probe& probe) {
            const auto recipe = job_recipe(probe);
            CHECK(std::get<measure::Mass>(recipe.components[3].amount).grams == doctest::Approx(3.0));
        });
        script.control(GLFW_KEY_Z).expect("total grams", "60");
        workplace::run(place, script, window_of(look));
    }
}

TEST_CASE("job: ten bags on the shelf; two carded, weighed, spun, learnt from") {
    for (const JobLook& look : looks()) {
        CAPTURE(name_of(look));
        const Place place("job-shelf");
        std::ofstream(place.path / "bags.csv") << nine_bags;
        Script script;
        JobHand hand{script, look, "shelf"};
        double before = 0.0, after = 0.0;
        // One by hand, nine as a table.
        hand.press("left The shelf").picture("empty").press("put on the shelf");
        hand.write("new weight", "182 g").write("lot name", "Kelp forest").press("add kind");
        script.type("corriedale").enter();
        hand.picture("new-bag").press("new lot do");
        script.expect("lots", "1").expect("messages", "0");
        hand.open(GLFW_KEY_R, "Record").press("record page Files").picture("files");
        hand.write("table file", (place.path / "bags.csv").string()).press("table in").picture("table");
        hand.press("take in");
        script.expect("lots", "10");
        look.keys ? script.escape() : script.click("record done");
        script.expect("record", "shut");
        // Two of them on the bench.
        hand.picture("shelf").press("lot KMR4CD").picture("bag").write("bench weight", "40 g");
        hand.press("lot to bench").press("lot PVT9FG").write("bench weight", "20 g").press("lot to bench");
        hand.write("batt name", "Slack Water").press("left This batt").picture("batt");
        script.expect("complaint", "").expect("messages", "0").then([&](const Probe& probe) {
            CHECK(std::stod(probe.state.at("total grams")) == doctest::Approx(60.0));
            before = std::stod(probe.state.at("yarn high over low"));
        });
        hand.press("Card from the shelf");
        script.expect("card it", "open");
        hand.picture("card-it").press("card it take");
        script.expect("card it complaint", "");
        hand.picture("taken").press("card it done").open(GLFW_KEY_R, "Record").press("record page Batts");
        script.expect("record batts", "1");
        hand.write("off the drum", "much").picture("refused").write("off the drum", "56.5");
        hand.picture("weighed").press("batt skein");
        script.expect("record page", "Skeins");
        hand.write("skein weight", "54 bags").press("log skein");
        script.expect("record skeins", "0").then([](const Probe& probe) {
            check_trouble_under(probe, "skein weight");
        });
        hand.picture("wrong").write("skein weight", "54");
        script.then([](const Probe& probe) { CHECK_FALSE(probe.boxes.contains("trouble")); });
        hand.write("skein length", "140 m").write("skein wraps", "12").press("log skein");
        script.expect("record skeins", "1");
        hand.picture("logged");
        hand.press("record page What was this?").picture("what-was-this");
        hand.press("record page Reports").picture("reports");
        script.escape().expect("record", "shut").expect("messages", "0").then([&](const Probe& probe) {
            after = std::stod(probe.state.at("yarn high over low"));
        });
        hand.picture("learnt");
        workplace::run(place, script, window_of(look));
        CHECK(stash::Stash::open(place.stash())->skeins().value().size() == 1);
        CHECK(after < before);
    }
}

TEST_CASE("job: a batt of scraps, and one of a colour") {
    for (const JobLook& look : looks()) {
        CAPTURE(name_of(look));
        const Place place("job-find");
        harbour::fill(place.stash());
        Script script;
        JobHand hand{script, look, "find"};
        const bool narrow = design_width(look) < 860.0f, middling = design_width(look) < 1190.0f;
        const auto page = [&](const std::string& name) {
            if (narrow) hand.press("find page " + name);
        };
        hand.open(GLFW_KEY_B, "Find");
        until(script.expect("find", "open"), "find settled");
        script.expect("find complaint", "");
        hand.picture("scraps");
        page("What is wanted");
        hand.write("find total", "a lot");
        until(script, "find settled").then([](const Probe& probe) {
            check_trouble_under(probe, "find total");
        });
        hand.picture("refused").write("find total", "40-60 g");
        until(script, "find settled").then([](const Probe& probe) {
            CHECK_FALSE(probe.boxes.contains("trouble"));
            CHECK(std::stoi(probe.state.at("find blends")) >= 1);
        });
        page("Blends");
        hand.press("take blend 1");
        script.expect("find", "shut").expect("undo steps", "1");
        hand.picture("taken").open(GLFW_KEY_B, "Find");
        page("What is wanted");
        hand.press("use up nothing").press("find colour this one").press("find target");
        hand.write("hex", "#6f7a5a").picture("picker");
        script.escape();
        until(script.expect("find", "open"), "find settled").then([](const Probe& probe) {
            CHECK(std::stod(probe.state.at("find reach")) < 1.0);
        });
        hand.picture("match");
        if (middling) hand.press("find page What can be reached").picture("reached");
        if (middling) hand.press("find page Blends");
        hand.press("take blend 1");
        script.expect("find", "shut").expect("undo steps", "2");
        hand.picture("matched");
        workplace::run(place, script, window_of(look));
    }
}

TEST_CASE("job: a card as PDF, picture and text, a tag, and the steps at the carder") {
    for (const JobLook& look : looks()) {
        CAPTURE(name_of(look));
        const Place place("job-card");
        Script script;
        JobHand hand{script, look, "card"};
        hand.open(GLFW_KEY_P, "Recipe card");
        until(script.expect("card", "open"), "card settled");
        hand.picture("card").write("card folder", place.path.string());
        for (const char* as : {"card as PDF", "card as PNG", "card as text"}) {
            hand.press(as).press("card write");
            until(script, "card settled").expect("card written", "1").expect("card failed", "");
        }
        hand.picture("written");
        if (look.keys)
            script.escape();
        else
            hand.press("card done");
        script.expect("card", "shut").expect("messages", "0");
        hand.press("comes out The yarn").picture("yarn");
        workplace::run(place, script, window_of(look, workplace::example("harbour-heather")));
        std::size_t files = 0;
        for (const char* ending : {".pdf", ".png", ".txt"})
            files += fs::exists(place.path / ("harbour-heather-card" + std::string(ending))) ? 1 : 0;
        CHECK(files == 3);
    }
}

TEST_CASE(
    "job: laid by hand, looked at large, colours off a photo, saved and opened again; what explains it") {
    for (const JobLook& look : looks(2)) {
        CAPTURE(name_of(look));
        const Place place("job-lay");
        fs::copy(workplace::example("harbour-heather"), place.path / "heather.toml");
        strip::Image board{180, 90, {}};
        for (int i = 0; i < 180 * 90; ++i)
            for (const int channel : {0x35, 0x58, 0x6b})
                board.rgb.push_back(static_cast<std::uint8_t>(channel));
        REQUIRE(strip::save_png(board, (place.path / "kelp.png").string()));
        Script script;
        JobHand hand{script, look, "lay"};
        hand.open(GLFW_KEY_D, "Lay by hand").picture("canvas");
        hand.press("lay tile 2").press("lay snap thirds").press("surface").picture("stroke");
        script.expect("undo steps", "1");
        // One step back is to the canvas, with what was typed.
        hand.press("make a blend").write("blend name", "dusk").picture("small-blend");
        script.escape().expect("lay by hand", "open");
        hand.press("make a blend");
        hand.write("blend part 1", "6 g").write("blend part 2", "4 g").press("Blend it");
        script.expect("undo steps", "2");
        hand.picture("blended").press("canvas done");
        script.expect("lay by hand", "shut");
        hand.open(GLFW_KEY_T, "strip large");
        script.expect("on the table", "open");
        hand.picture("large").press("table skein").picture("skein").press("table done");
        script.expect("on the table", "shut");
        if (look.keys)
            script.control(GLFW_KEY_G);
        else
            hand.press("colour 1").press("from a photo");
        script.expect("photo colours", "open");
        hand.write("photo file", (place.path / "kelp.png").string());
        script.expect("picks photo", "there");
        hand.press("photo").picture("picked");
        script.escape().expect("photo colours", "open").escape().expect("photo colours", "shut");
        script.expect("undo steps", "2");
        hand.open(GLFW_KEY_S, "Save").picture("comments").press("Drop the comments");
        script.expect("unsaved", "no");
        hand.open(GLFW_KEY_O, "Open").write("folder", place.path.string());
        script.wait_for("entry heather.toml");
        hand.picture("files").write("file name", "heather.toml");
        script.expect("files", "shut").expect("messages", "0");
        hand.open(GLFW_KEY_K, "Compare").picture("compare").press("Keep this one").picture("kept");
        hand.press("variants done").press("Help").picture("help").press("Back to the bench");
        hand.press("Settings").picture("settings").press("preferences done");
        hand.press("Guide").picture("guide").press("guide skip");
        workplace::run(place, script, window_of(look, place.path / "heather.toml"));
    }
}

TEST_CASE("every example, manner of feeding and of feeding again has room in the window") {
    std::vector<fs::path> examples;
    for (const auto& entry : fs::directory_iterator(fs::path(battwright::testing::source_dir()) / "blends"))
        if (entry.path().extension() == ".toml") examples.push_back(entry.path());
    REQUIRE(examples.size() >= 8);
    for (const JobLook& look : looks()) {
        CAPTURE(name_of(look));
        const Place place("job-room");
        Script script;
        JobHand hand{script, look, "room"};
        for (const fs::path& example : examples) {
            script.step(workplace::drop(example.string())).expect("path", example.string());
            hand.picture(example.stem().string());
        }
        script.step(workplace::drop(workplace::example("harbour-heather").string()));
        for (const auto& row : recipe::manners) {
            hand.press("feed").press("feed " + std::string(row.word)).picture(std::string(row.word));
            script.then([row](const Probe& probe) { CHECK(job_recipe(probe).carding.feed == row.value); });
        }
        for (const auto& row : recipe::refeeds) {
            hand.press("refeed").press("refeed " + std::string(row.word)).picture(std::string(row.word));
            script.then([row](const Probe& probe) { CHECK(job_recipe(probe).carding.refeed == row.value); });
        }
        workplace::run(place, script, window_of(look));
    }
}

TEST_CASE("names in Chinese, Japanese and Korean are drawn where the machine has a font of them") {
    window::Letters letters;
    CHECK(letters.want("\u6f6e\u3057\u304a \ud56d\uad6c, Harbour \u0416 \U0001f411"));
    CHECK(letters.wanted() == std::vector<char16_t>{0x304a, 0x3057, 0x6f6e, 0xad6c, 0xd56d});
    CHECK_FALSE(letters.want("\u6f6e"));
    const std::vector<char16_t> han{0x6e2f, 0x6f6e};
    const auto fonts = window::fonts_for(han);
    std::size_t held = 0;
    for (const auto& font : fonts) {
        CHECK(fs::exists(font.path));
        held += font.letters.size();
    }
    if (fonts.empty()) {
        MESSAGE("no font of this machine holds them");
        return;
    }
    CHECK(held == han.size());
    const Place place("letters");
    bool drawn = false;
    Script script;
    script.fill("batt name", "\u6f6e\u306e\u6e2f").then([&](const Probe&) {
        drawn = ImGui::GetIO().FontDefault->FindGlyphNoFallback(0x6e2f) != nullptr;
    });
    workplace::picture(script, "BATTWRIGHT_JOB_PICTURES", "letters");
    workplace::run(place, script, {.recipe = workplace::example("harbour-heather")});
    CHECK(drawn);
}
