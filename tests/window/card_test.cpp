// The card panel under a display, driven by its own labels.
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "workplace.hpp"

using namespace battwright;
using script::Box;
using script::Probe;
using script::Script;
using workplace::Place;
namespace fs = std::filesystem;

namespace {

struct CardFolder : Place {
    explicit CardFolder(const std::string& name) : Place(name) {
        fs::create_directories(path / "out");
        for (const std::string recipe : {"kelp-and-brass", "harbour-heather"})
            fs::copy_file(workplace::example(recipe), path / (recipe + ".toml"));
    }
    void add_broken() const { std::ofstream(path / "broken.toml") << "format = 1\ncolor = 3\n"; }
};

void run(const CardFolder& folder, Script& script, window::Shade shade) {
    workplace::Look look;
    look.shade = shade;
    look.recipe = folder.path / "kelp-and-brass.toml";
    workplace::run(folder, script, look);
}

// Waits until the page on show is the one asked for and nothing is being written.
Script& card_settles(Script& script) {
    return script.step([](const Probe& probe, script::Input& input, int phase) {
        if (phase > 6000) {
            FAIL_CHECK("the card panel does not settle");
            input.quit = true;
        }
        const auto found = probe.state.find("card settled");
        const bool settled = phase > 2 && found != probe.state.end() && found->second == "yes";
        return settled || Script::wait(input);
    });
}

std::string bytes_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

// Everything of the panel lies within the window.
void check_nothing_clipped(const Probe& probe) {
    for (const auto& [label, box] : probe.boxes) {
        CAPTURE(label);
        CHECK(box.left >= 0.0f);
        CHECK(box.right <= 1280.0f);
        CHECK(box.bottom <= 800.0f);
        CHECK(box.bottom > box.top);
    }
    // The panel keeps 20 from the window's edge and its content 18 from its own.
    CHECK(probe.boxes.at("card done").bottom <= 762.0f);
}

}  // namespace

TEST_CASE("a part is ticked off, the card written as PDF and as Markdown, and all recipes as a batch") {
    const CardFolder folder("card-panel");
    folder.add_broken();
    Script script;
    script.expect("complaint", "").click("Recipe card").expect("card", "open");
    card_settles(script);
    workplace::picture(script, "BATTWRIGHT_CARD_PICTURES", "card-light");
    script.expect("card sides", "1").then(check_nothing_clipped);
    script.click("part weights").fill("card folder", (folder.path / "out").string()).click("card write");
    card_settles(script).expect("card written", "1").expect("card failed", "");
    script.click("card as Markdown").click("card write");
    card_settles(script).expect("card written", "1");
    script.click("part weights").fill("card file", "whole.md").click("card write");
    card_settles(script).expect("card written", "1").click("card write");
    card_settles(script).then([](const Probe& probe) {
        CHECK(probe.state.at("card complaint").find("already") != std::string::npos);
    });
    script.click("card as PDF").click("card write all");
    card_settles(script).then([](const Probe& probe) {
        CHECK(probe.state.at("card complaint").find("1 of the files") != std::string::npos);
    });
    script.click("card write all");
    card_settles(script).expect("card written", "2").then([](const Probe& probe) {
        CHECK(probe.state.at("card failed").find("broken.toml") != std::string::npos);
    });
    script.click("page index");
    card_settles(script);
    workplace::picture(script, "BATTWRIGHT_CARD_PICTURES", "batch-light");
    script.expect("card sides", "2").click("side more").then(check_nothing_clipped);
    card_settles(script);
    workplace::picture(script, "BATTWRIGHT_CARD_PICTURES", "index-light");
    script.click("card done").expect("card", "shut").expect("unsaved", "no").expect("messages", "0");
    run(folder, script, window::Shade::light);
    const fs::path out = folder.path / "out";
    CHECK(bytes_of(out / "kelp-and-brass-card.pdf").starts_with("%PDF"));
    CHECK(bytes_of(out / "harbour-heather-card.pdf").starts_with("%PDF"));
    CHECK(bytes_of(out / "kelp-and-brass-card.md").find("weigh out") == std::string::npos);
    CHECK(bytes_of(out / "whole.md").find("weigh out") != std::string::npos);
}

TEST_CASE("tag and content label: shown, written, and a bad file name explained") {
    const CardFolder folder("card-tag");
    Script script;
    script.expect("complaint", "").control(GLFW_KEY_P).expect("card", "open");
    script.click("card kind tag").fill("card maker", "Maren at the Slip").fill("card lot", "17");
    card_settles(script);
    workplace::picture(script, "BATTWRIGHT_CARD_PICTURES", "tag-dark");
    script.then(check_nothing_clipped)
        .fill("card folder", (folder.path / "out").string())
        .fill("card file", "tag.doc")
        .click("card write");
    card_settles(script).then(
        [](const Probe& probe) { CHECK(probe.state.at("card failed").find(".pdf") != std::string::npos); });
    script.fill("card file", "tag.txt").click("card write");
    card_settles(script).expect("card failed", "").click("card kind content label").click("market US");
    card_settles(script);
    workplace::picture(script, "BATTWRIGHT_CARD_PICTURES", "label-dark");
    script.then(check_nothing_clipped)
        .expect("card sides", "1")
        .fill("card file", "label.txt")
        .click("card write");
    card_settles(script).expect("card failed", "").click("card kind recipe card").click("page A4");
    card_settles(script);
    workplace::picture(script, "BATTWRIGHT_CARD_PICTURES", "card-dark");
    script.then(check_nothing_clipped).escape().expect("card", "shut");
    run(folder, script, window::Shade::dark);
    const std::string tag = bytes_of(folder.path / "out" / "tag.txt");
    CHECK(tag.find("Maren at the Slip") != std::string::npos);
    CHECK(bytes_of(folder.path / "out" / "label.txt").find("16 CFR") != std::string::npos);
    CHECK_FALSE(fs::exists(folder.path / "out" / "tag.doc"));
}
