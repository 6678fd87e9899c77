// Recipes for a blending board and for hand cards: read, written, read again.
#include <doctest/doctest.h>

#include "measure/save.hpp"
#include "recipe/file.hpp"
#include "recipe/layout.hpp"
#include "recipe/write.hpp"

namespace recipe = battwright::recipe;
namespace measure = battwright::measure;
using battwright::fibre::Catalogue;

namespace {

recipe::Recipe read_tool(const std::string& carding) {
    const auto result = recipe::read_text(
        "format = 1\nname = \"Slack Water\"\n[[component]]\nname = \"kelp\"\n"
        "fibre = \"corriedale\"\nweight = \"20 g\"\n[[component]]\n"
        "name = \"foam\"\nfibre = \"merino-fine\"\nweight = \"10 g\"\n" +
            carding,
        "tool.toml", Catalogue::builtin());
    REQUIRE_MESSAGE(result.has_value(), measure::to_line(result.error()));
    return *result;
}

recipe::Recipe again(const recipe::Recipe& made) {
    const auto result = recipe::read_text(recipe::write_text(made), "again.toml", Catalogue::builtin());
    REQUIRE_MESSAGE(result.has_value(), recipe::write_text(made) << measure::to_line(result.error()));
    return *result;
}

}  // namespace

TEST_CASE("a board with rolags, a place along it and a gradient along it read and write") {
    const auto board = read_tool(
        "[carding]\ncarder = \"blending-board\"\npasses = 1\nrolags = 5\n[[carding.lay]]\nwhat = \"kelp\"\n"
        "along = \"first half\"\n[[carding.lay]]\nwhat = \"foam\"\nacross = \"0-100 mm\"\n");
    CHECK(board.carding.rolags == 5);
    CHECK(recipe::pieces_spun(board.carding) == 5);
    CHECK(board.carding.layings[0].round.to == 50.0);
    CHECK(recipe::preparation_of(board) == recipe::Preparation::woollen);
    CHECK(again(board) == board);
    const auto along = read_tool("[carding]\ncarder = \"blending-board\"\nfeed = \"gradient-along\"\n");
    CHECK(along.carding.feed == recipe::Manner::gradient_round);
    CHECK(recipe::write_text(along).find("feed = \"gradient-along\"") != std::string::npos);
    CHECK(again(along) == along);
    // A board is emptied in three or four rolags when nothing else is said; two dozen would be threads.
    // Common practice, no source.
    CHECK(along.carding.rolags >= 3);
    CHECK(along.carding.rolags <= 4);
    CHECK(read_tool("[carding]\ncarder = \"blending-board\"\nrolags = 24\n").carding.rolags == 24);
    CHECK_FALSE(
        recipe::read_text("format = 1\n[[component]]\nfibre = \"corriedale\"\nweight = \"20 g\"\n"
                          "[carding]\ncarder = \"blending-board\"\nrolags = 25\n",
                          "r.toml", Catalogue::builtin()));
}

TEST_CASE("a board lifted whole is a batt that can be spun worsted; rolags cannot") {
    const std::string worsted = "[spinning]\npreparation = \"worsted\"\n";
    const auto whole =
        read_tool("[carding]\ncarder = \"blending-board\"\nrolags = 0\nstrips = 6\n" + worsted);
    CHECK_FALSE(recipe::makes_rolags(whole.carding));
    CHECK(recipe::pieces_spun(whole.carding) == 6);
    CHECK(recipe::preparation_of(whole) == recipe::Preparation::worsted);
    CHECK(again(whole) == whole);
    const auto rolled = read_tool("[carding]\ncarder = \"hand-cards\"\n" + worsted);
    CHECK(recipe::pieces_spun(rolled.carding) == 1);
    CHECK(recipe::preparation_of(rolled) == recipe::Preparation::woollen);
    CHECK(again(rolled) == rolled);
}

TEST_CASE("a board and cards of one's own read and write") {
    for (const char* own :
         {"{ tool = \"blending board\", name = \"lap board\", length = \"12 in\", width = \"8 in\", "
          "clothing = 90, load = \"8-20 g\" }",
          "{ tool = \"hand cards\", length = \"4 in\", width = \"8 in\", clothing = 112, load = \"2-5 g\" "
          "}"}) {
        const auto made = read_tool("[carding]\ncarder = " + std::string(own) + "\n");
        REQUIRE(made.carding.own);
        CHECK(recipe::is_flat(*made.carding.own));
        CHECK(again(made) == made);
    }
}

TEST_CASE("a recipe taken to another tool leaves behind what makes no sense there") {
    auto drum = read_tool(
        "[carding]\npasses = 2\nrefeed = \"halves\"\nrecombine = true\n[[carding.lay]]\n"
        "what = \"kelp\"\nround = \"first half\"\nway = \"onto the drum\"\n[[carding.lay]]\n"
        "what = \"foam\"\n");
    for (const recipe::Carder& carder : recipe::carder_presets()) {
        CAPTURE(carder.id);
        recipe::Recipe moved = drum;
        moved.carding = recipe::on_carder(drum.carding, carder);
        const auto checked = recipe::check(moved, Catalogue::builtin());
        CHECK_MESSAGE(checked.has_value(), (checked ? std::string() : measure::to_line(checked.error())));
        CHECK(again(moved).carding.layings.size() == 2);
        // And back.
        moved.carding = recipe::on_carder(moved.carding, recipe::carder_presets().front());
        CHECK(recipe::check(moved, Catalogue::builtin()).has_value());
    }
    drum.carding.layings.clear();
    drum.carding.feed = recipe::Manner::gradient_round;
    drum.carding = recipe::on_carder(drum.carding, *recipe::find_carder("hand-cards"));
    CHECK(recipe::check(drum, Catalogue::builtin()).has_value());
}

TEST_CASE(
    "a series follows its components: what is left keeps its proportions, what closes stays as written") {
    const auto series = [](const char* kelp, const char* foam, const char* tar) {
        return read_tool(
            std::string("[[component]]\nname = \"tar\"\nfibre = \"romney\"\nweight = \"5 g\"\n") +
            "[series]\nbatts = 6\neach = \"5 g\"\nto = [ { what = \"kelp\", share = \"" + kelp +
            "\" }, { what = \"foam\", share = \"" + foam + "\" }, { what = \"tar\", share = \"" + tar +
            "\" } ]\n");
    };
    const auto before = series("20 %", "30 %", "50 %");
    auto after = before;
    after.components.pop_back();
    recipe::follow_layings(before, after);
    REQUIRE(after.series);
    REQUIRE(after.series->to.size() == 2);
    // Two to three, as before.
    CHECK(after.series->to[0].share_pct == doctest::Approx(40.0));
    CHECK(after.series->to[1].share_pct == doctest::Approx(60.0));
    // Thirds as people write them.
    const auto thirds = series("33.33 %", "33.33 %", "33.33 %");
    auto renamed = thirds;
    renamed.components[2].name = "pitch";
    recipe::follow_layings(thirds, renamed);
    REQUIRE(renamed.series);
    for (const auto& part : renamed.series->to) CHECK(part.share_pct == 33.33);
}

TEST_CASE("a twist that is not said is the one usual for what the yarn is for, and comes back so") {
    using recipe::Twist;
    const auto of = [](const std::string& thing, const std::string& spinning = "") {
        return read_tool(spinning + "[purpose]\nthing = \"" + thing + "\"\n");
    };
    // Common practice, no source: firm for what rubs through, soft for what drapes round the neck.
    for (const char* thing : {"socks", "mitts"}) CHECK(of(thing).spinning.twist == Twist::firm);
    for (const char* thing : {"shawl", "scarf", "cowl"}) CHECK(of(thing).spinning.twist == Twist::soft);
    for (const char* thing : {"hat", "adult's jumper", "child's jumper", "blanket"})
        CHECK(of(thing).spinning.twist == Twist::medium);
    CHECK(read_tool("").spinning.twist == Twist::medium);
    // What is said stands.
    for (const Twist said : {Twist::soft, Twist::medium, Twist::firm}) {
        const std::string twist = "[spinning]\ntwist = \"" + std::string(recipe::word_for(said)) + "\"\n";
        for (const std::string& thing : recipe::purpose_things()) {
            CAPTURE(thing);
            const auto made = of(thing, twist);
            CHECK(made.spinning.twist == said);
            CHECK(again(made) == made);
        }
    }
    CHECK(again(of("socks")) == of("socks"));
    CHECK(recipe::write_text(of("socks")).find("twist") == std::string::npos);
}
