// What the card panel prints and writes, with no display.
#include "app/card/card_choice.hpp"
#include "place.hpp"

#include <doctest/doctest.h>

#include <chrono>
#include <fstream>
#include <iterator>
#include <thread>

#include "app/card/card_session.hpp"
#include "app/card/card_writer.hpp"
#include "folder.hpp"
#include "recipe/file.hpp"

using namespace battwright;
using namespace std::chrono_literals;
using testing::Folder;
namespace fs = std::filesystem;

namespace {

forecast::Bench bench() {
    forecast::Bench around;
    around.catalogue = &fibre::Catalogue::builtin();
    return around;
}

fs::path blends() {
    return fs::path(battwright::testing::source_dir()) / "blends";
}

std::shared_ptr<const forecast::Forecast> forecast_of(const std::string& name) {
    const auto recipe = recipe::read_file(blends() / (name + ".toml"), fibre::Catalogue::builtin());
    if (!recipe) FAIL(measure::to_line(recipe.error()));
    auto made = forecast::forecast(*recipe, bench());
    if (!made) FAIL(measure::to_line(made.error()));
    return std::make_shared<const forecast::Forecast>(std::move(*made));
}

std::string bytes_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

template <class Done>
void wait_for_page(const Done& done) {
    for (int i = 0; i < 6000 && !done(); ++i) std::this_thread::sleep_for(5ms);
    REQUIRE(done());
}

}  // namespace

TEST_CASE("the page fits the box it is drawn into and fills it one way") {
    for (const auto paper : {card::Paper::a6, card::Paper::a4, card::Paper::index, card::Paper::tag}) {
        const double dpi = app::dpi_to_fit(paper, 640, 480);
        const auto size = card::size_of(paper);
        // An inch is 25.4 mm (ISO 80000-3).
        const double wide = size.width_mm / 25.4 * dpi, high = size.height_mm / 25.4 * dpi;
        CHECK(wide <= 640.001);
        CHECK(high <= 480.001);
        CHECK((wide > 639.999 || high > 479.999));
    }
    CHECK(app::dpi_to_fit(card::Paper::a4, 1, 1) == 20.0);
}

TEST_CASE("a file name takes another ending and keeps dots that are none") {
    CHECK(app::with_ending("kelp-card.pdf", ".md") == "kelp-card.md");
    CHECK(app::with_ending("kelp-card.PNG", ".pdf") == "kelp-card.pdf");
    CHECK(app::with_ending("kelp v1.2", ".pdf") == "kelp v1.2.pdf");
}

TEST_CASE("kind, parts, maker and market are on the page, and only those asked for") {
    const auto forecast = forecast_of("kelp-and-brass");
    app::CardChoice choice;
    const auto text = [&] { return card::text_of(app::page_of(*forecast, choice)); };
    CHECK(text().find("weigh out") != std::string::npos);
    choice.parts.erase(card::Part::weights);
    CHECK(text().find("weigh out") == std::string::npos);
    CHECK(text().find("Maren at the Slip") == std::string::npos);
    choice.kind = app::PageKind::tag;
    choice.maker = "Maren at the Slip";
    choice.lot = "lot 17";
    CHECK(choice.paper() == card::Paper::tag);
    CHECK(text().find("Maren at the Slip") != std::string::npos);
    CHECK(text().find("lot 17") != std::string::npos);
    choice.kind = app::PageKind::label;
    CHECK(text().find("EU and UK") != std::string::npos);
    choice.market = card::Market::us;
    CHECK(text().find("16 CFR") != std::string::npos);
    CHECK(text().find(card::label_draft) != std::string::npos);
}

TEST_CASE("a tag is of the batt or of the yarn, with the origin, and without the draft line when told so") {
    const auto forecast = forecast_of("kelp-and-brass");
    app::CardChoice choice;
    choice.kind = app::PageKind::tag;
    const auto text = [&] { return card::text_of(app::page_of(*forecast, choice)); };
    CHECK(text().find("Content of the batt") != std::string::npos);
    CHECK(text().find(card::label_draft) != std::string::npos);
    choice.product = card::Product::yarn;
    choice.market = card::Market::us;
    choice.word.origin = "Made in Norway";
    choice.word.draft = false;
    CHECK(text().find("Content of the yarn") != std::string::npos);
    CHECK(text().find("Made in Norway") != std::string::npos);
    CHECK(text().find(card::label_draft) == std::string::npos);
    choice.word.functional = " nylon,  elastane ,";
    const auto functional = app::label_options(choice.word).functional;
    CHECK(functional == std::set<std::string>{"elastane", "nylon"});
}

TEST_CASE("what was spun before is no new wool: the tag says so and is not written") {
    // Regulation (EU) No 1007/2011 Article 8(1); 16 CFR 300.20.
    auto recipe = recipe::read_file(blends() / "harbour-heather.toml", fibre::Catalogue::builtin());
    if (!recipe) FAIL(measure::to_line(recipe.error()));
    for (auto& component : recipe->components) component.reclaimed = fibre::Past::cloth;
    const auto forecast = forecast::forecast(*recipe, bench());
    REQUIRE(forecast);
    app::CardChoice choice;
    choice.kind = app::PageKind::tag;
    choice.word.new_wool = true;
    const auto said = app::said_with(*forecast, choice);
    REQUIRE_FALSE(said.empty());
    CHECK(said[0].starts_with("Refused: "));
    const Folder folder("refused");
    CHECK_FALSE(app::write_page(*forecast, choice, folder.path / "tag.pdf"));
    CHECK_FALSE(fs::exists(folder.path / "tag.pdf"));
    choice.word.new_wool = false;
    CHECK(app::write_page(*forecast, choice, folder.path / "tag.pdf"));
}

TEST_CASE("an unknown ending is a complaint about the file name") {
    const auto written =
        app::write_page(*forecast_of("kelp-and-brass"), {}, fs::temp_directory_path() / "kelp.doc");
    REQUIRE_FALSE(written);
    CHECK(written.error().where == "file name");
    CHECK(written.error().mend.find(".pdf") != std::string::npos);
}

TEST_CASE("a folder of recipes: the broken one is named, the rest are written") {
    const Folder folder("batch");
    for (const std::string name : {"kelp-and-brass", "harbour-heather"})
        fs::copy_file(blends() / (name + ".toml"), folder.path / (name + ".toml"));
    std::ofstream(folder.path / "broken.toml") << "format = 1\nname = \"x\"\ncolor = 3\n";
    std::ofstream(folder.path / ".hidden.toml") << "";
    std::ofstream(folder.path / "shopping.txt") << "";
    fs::create_directory(folder.path / "out");
    const app::Batch batch{folder.path, folder.path / "out", ".md", {}, bench()};
    CHECK(app::already_there(batch) == 0);
    std::size_t steps = 0;
    const auto result = app::write_batch(batch, {}, [&steps](const app::BatchResult&) { ++steps; });
    CHECK(result.of == 3);
    CHECK(result.written == 2);
    CHECK(steps == 3);
    REQUIRE(result.failed.size() == 1);
    CHECK(measure::to_line(result.failed[0]).find("broken.toml") != std::string::npos);
    CHECK(bytes_of(folder.path / "out" / "kelp-and-brass-card.md").find("Kelp and Brass") !=
          std::string::npos);
    CHECK_FALSE(fs::exists(folder.path / "out" / "broken-card.md"));
    CHECK(app::already_there(batch) == 2);
    app::Batch shared = batch;
    shared.sheets = true;
    CHECK(app::already_there(shared) == 0);
    CHECK(app::write_batch(shared).written == 2);
    const std::string pdf = bytes_of(folder.path / "out" / "cards-a4.pdf");
    CHECK(pdf.starts_with("%PDF"));
    CHECK(app::already_there(shared) == 1);
    std::stop_source stopped;
    stopped.request_stop();
    CHECK(app::write_batch(batch, stopped.get_token()).written == 0);
}

TEST_CASE("the preview thread: the latest wish wins and its answer is the direct one") {
    const auto forecast = forecast_of("harbour-heather");
    app::PreviewWorker preview(app::make_preview);
    CHECK(preview.state().latest == nullptr);
    app::PreviewRequest request{forecast, 1, {}, 400, 500};
    for (unsigned long version = 1; version <= 5; ++version) {
        request.version = version;
        request.choice.papers[0] = version == 5 ? card::Paper::index : card::Paper::a6;
        preview.ask(request);
    }
    wait_for_page([&] { return !preview.state().busy; });
    const auto made = preview.state().latest;
    REQUIRE(made);
    CHECK(made->version == 5);
    const auto direct = app::preview_of(request);
    REQUIRE(made->sides.size() == direct.sides.size());
    REQUIRE_FALSE(made->sides.empty());
    CHECK(made->sides[0].rgb == direct.sides[0].rgb);
    CHECK(made->sides[0].width > made->sides[0].height);
    CHECK(made->sides[0].width <= 401);
    request.choice.kind = app::PageKind::label;
    const auto label = app::preview_of(request);
    CHECK_FALSE(label.sides.empty());
    CHECK(label.text.find('%') != std::string::npos);
}

TEST_CASE("the writer tells what it wrote and what went wrong") {
    const Folder folder("writer");
    const auto forecast = forecast_of("harbour-heather");
    app::CardWriter writer;
    writer.write(forecast, {}, folder.path / "card.pdf");
    wait_for_page([&] { return !writer.state().busy; });
    REQUIRE(writer.state().files.size() == 1);
    CHECK(bytes_of(folder.path / "card.pdf").starts_with("%PDF"));
    writer.write(forecast, {}, folder.path / "nowhere" / "card.pdf");
    wait_for_page([&] { return !writer.state().busy; });
    CHECK(writer.state().files.empty());
    CHECK(writer.state().result.failed.size() == 1);
    CHECK(fs::exists(folder.path / "nowhere") == false);
}
