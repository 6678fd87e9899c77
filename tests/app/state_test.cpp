// Actions on the state, without a display: what is applied, what is asked about first, what is made anew.
#include "app/state.hpp"

#include <doctest/doctest.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>

#include "app/bench/edits.hpp"
#include "folder.hpp"
#include "recipe/file.hpp"

using namespace battwright;
namespace fs = std::filesystem;

namespace {

constexpr const char* half_saved =
    "format = 1\nname = \"Ebb\"\ntotal = \"40 g\"\n[[component]]\nfibre = \"corriedale\"\nparts = 1\n"
    "[[component]]\nfibre = \"polwarth\"\nparts = 1\n";

app::State started(const fs::path& state_folder = {}) {
    app::State state;
    state.catalogue = &fibre::Catalogue::builtin();
    state.recovery = std::make_unique<app::Recovery>(state_folder);
    return state;
}

// As the window does it: what was applied shows in the next frame.
app::Effects act(app::State& state, const app::Action& action) {
    const app::Effects effects = app::apply(state, action);
    app::follow(state);
    return effects;
}

app::Edit edit(const app::State& state, std::string notes) {
    app::Sheet sheet = state.document.sheet();
    sheet.recipe.notes = std::move(notes);
    return {std::move(sheet), "write a note"};
}

}  // namespace

TEST_CASE("a derived value is made once for its inputs, and anew when they differ or it is forgotten") {
    app::Derived<int, int> doubled;
    int made = 0;
    const auto make = [&made](int key, int& value) {
        ++made;
        value = 2 * key;
    };
    CHECK(doubled.of(3, make) == 6);
    CHECK(doubled.of(3, make) == 6);
    CHECK(made == 1);
    CHECK(doubled.of(4, make) == 8);
    CHECK(doubled.of(3, make) == 6);
    CHECK(made == 3);
    doubled.forget();
    CHECK_FALSE(doubled.key());
    CHECK(doubled.value() == 6);
    CHECK(doubled.of(3, make) == 6);
    CHECK(made == 4);
}

TEST_CASE("work brought back after a crash is on the bench with its forecast, before any edit") {
    const testing::Folder folder("brought-back");
    std::ofstream(folder.path / "unsaved-1-0.toml") << half_saved;
    auto state = started(folder.path);
    state.left_behind = app::Recovery::left_behind(folder.path);
    REQUIRE(state.left_behind.size() == 1);
    app::follow(state);
    CHECK_FALSE(state.outcome().forecast);  // the empty bench behind the question
    act(state, app::AnswerRecovery{app::AnswerRecovery::Choice::bring_back});
    CHECK(state.left_behind.empty());
    CHECK(state.document.sheet().recipe.name == "Ebb");
    CHECK(state.document.unsaved());
    REQUIRE(state.outcome().forecast);
    CHECK(state.outcome().forecast->total_grams == doctest::Approx(40.0));
    CHECK(state.outcome().forecast->components.size() == 2);
    CHECK(state.recovery->seconds_until_due(app::Recovery::Clock::now()));
}

TEST_CASE("whatever the version numbers say, another recipe is another forecast") {
    auto state = started();
    act(state, app::StartExample{});
    REQUIRE(state.outcome().forecast);
    const double example_grams = state.outcome().forecast->total_grams;
    // Put there past every action, as a careless line of code would.
    state.document = app::Document(recipe::read_text(half_saved, "here", *state.catalogue).value());
    app::follow(state);
    CHECK(example_grams == doctest::Approx(60.0));
    CHECK(state.outcome().forecast->total_grams == doctest::Approx(40.0));
}

TEST_CASE("the forecast is made anew for the recipe, the light and the habits, and for nothing else") {
    auto state = started();
    act(state, app::StartExample{});
    const auto first = state.outcome().forecast;
    app::follow(state);
    CHECK(state.outcome().forecast == first);
    act(state, app::Edit{app::toggle_lock(state.document.sheet(), 0), "lock"});
    CHECK(state.outcome().forecast == first);
    app::Look look = state.look;
    look.distance = 2;
    act(state, app::LookAt{look});
    CHECK(state.outcome().forecast == first);
    look.light = colour::Light::a;
    act(state, app::LookAt{look});
    CHECK(state.outcome().forecast != first);
    const auto under_lamp = state.outcome().forecast;
    act(state, edit(state, "damp"));
    CHECK(state.outcome().forecast != under_lamp);
}

TEST_CASE("yarn that is spun already can be what was weighed, until another recipe is on the bench") {
    auto state = started();
    act(state, app::StartExample{});
    const auto fibre = state.outcome().forecast;
    act(state, app::WeighYarn{92.0});
    const auto yarn = state.outcome().forecast;
    CHECK(yarn->yarn.yarn_grams == doctest::Approx(92.0));
    CHECK(yarn->total_grams == fibre->total_grams);
    // ISO 1144: tex is grams a kilometre.
    CHECK(yarn->yarn.length_m == doctest::Approx(1000.0 * 92.0 / yarn->yarn.tex));
    CHECK(yarn->batt_share == fibre->batt_share);
    CHECK(fibre->yarn.batt_grams == doctest::Approx(fibre->batt_share * fibre->total_grams));
    CHECK_FALSE(state.document.unsaved());  // it is not part of the recipe
    CHECK(app::surroundings(state).yarn_grams == 92.0);
    act(state, app::WeighYarn{});
    CHECK(state.outcome().forecast->yarn.yarn_grams == fibre->yarn.yarn_grams);
    act(state, app::WeighYarn{92.0});
    act(state, app::NewBatt{});
    CHECK_FALSE(state.yarn_grams);
}

TEST_CASE("a sheet without a forecast keeps the last one and says why; an empty one has neither") {
    auto state = started();
    act(state, app::StartExample{});
    const auto made = state.outcome().forecast;
    app::Sheet broken = state.document.sheet();
    broken.recipe.components[0].content[0].fibre = "no-such-fibre";
    act(state, app::Edit{broken, "break it"});
    CHECK(state.outcome().complaint);
    CHECK(state.outcome().forecast == made);
    act(state, app::Undo{});
    CHECK_FALSE(state.outcome().complaint);
    act(state, app::NewBatt{});
    CHECK_FALSE(state.outcome().forecast);
    CHECK_FALSE(state.outcome().complaint);
}

TEST_CASE("unsaved work is asked about before anything takes its place, and each answer does what it says") {
    const testing::Folder folder("asked");
    auto state = started();
    state.settings.guide_seen = true;
    act(state, app::StartExample{});
    act(state, edit(state, "for the ferry man"));
    REQUIRE(state.document.unsaved());
    CHECK_FALSE(act(state, app::NewBatt{}).new_document);
    CHECK(app::waits(state.unsaved_question));
    act(state, app::AnswerUnsaved{app::AnswerUnsaved::Choice::stay});
    CHECK_FALSE(app::waits(state.unsaved_question));
    CHECK(state.document.sheet().recipe.notes == "for the ferry man");

    act(state, app::Leave{});
    CHECK_FALSE(state.leave);
    CHECK(act(state, app::AnswerUnsaved{app::AnswerUnsaved::Choice::save}).ask_for_file);
    CHECK_FALSE(state.leave);
    act(state, app::SaveAs{folder.path / "ferry.toml"});
    CHECK(state.leave);
    CHECK(fs::exists(folder.path / "ferry.toml"));

    state.leave = false;
    act(state, edit(state, "once more"));
    act(state, app::Leave{});
    act(state, app::AnswerUnsaved{app::AnswerUnsaved::Choice::let_go});
    CHECK(state.leave);
}

TEST_CASE("comments are asked about, and the file keeps them unless they are let go") {
    const testing::Folder folder("comments");
    const auto path = folder.path / "pier.toml";
    std::ofstream(path) << "# from the drawer\n" << half_saved;
    auto state = started();
    act(state, app::OpenRecipe{path});
    act(state, edit(state, "windy"));
    act(state, app::Save{});
    REQUIRE(state.comment_question);
    CHECK(state.document.unsaved());
    CHECK(act(state, app::AnswerComments{app::AnswerComments::Choice::elsewhere}).ask_for_file);
    act(state, app::Save{});
    act(state, app::AnswerComments{app::AnswerComments::Choice::drop});
    CHECK_FALSE(state.document.unsaved());
    std::ifstream file(path);
    std::string first;
    std::getline(file, first);
    CHECK(first.find('#') == std::string::npos);
}

TEST_CASE("a file that cannot be opened leaves the bench as it was, with one message") {
    auto state = started();
    act(state, app::StartExample{});
    act(state, edit(state, "not yet saved"));
    act(state, app::OpenRecipe{"/no/such/harbour.toml"});
    act(state, app::AnswerUnsaved{app::AnswerUnsaved::Choice::let_go});
    CHECK(state.messages.size() == 1);
    CHECK(state.document.sheet().recipe.notes == "not yet saved");
    act(state, app::Dismiss{0});
    CHECK(state.messages.empty());
}

TEST_CASE("variants are kept, gone back to and let go, at most four") {
    auto state = started();
    CHECK_FALSE(state.outcome().forecast);
    act(state, app::KeepVariant{});
    CHECK(state.variants.empty());
    act(state, app::StartExample{});
    for (int i = 0; i < 6; ++i) act(state, app::KeepVariant{});
    REQUIRE(state.variants.size() == app::most_variants);
    act(state, edit(state, "another"));
    act(state, app::TakeVariant{1});
    CHECK(state.document.sheet().recipe.notes.empty());
    CHECK(state.document.history().can_undo());
    const auto third = state.variants[2].number;
    app::follow_variants(state);
    REQUIRE(state.variant_scenes.value().size() == app::most_variants);
    const auto* drawn = &state.variant_scenes.value().at(third);
    act(state, app::DropVariant{1});
    CHECK(state.variants[1].number == third);
    app::follow_variants(state);
    CHECK(state.variant_scenes.value().size() == 3);
    CHECK(&state.variant_scenes.value().at(third) == drawn);  // not simulated a second time
    act(state, app::DropVariant{9});
    CHECK(state.variants.size() == 3);
}

TEST_CASE("while the canvas is open the list and the picture of it follow the bench") {
    auto state = started();
    act(state, app::StartExample{});
    CHECK(state.listed.value().tiles.empty());
    app::Canvas canvas;
    canvas.open = true;
    act(state, app::ChangeCanvas{canvas});
    CHECK(state.document.sheet().recipe.carding.layings.empty());  // looking changes nothing
    CHECK_FALSE(state.listed.value().sheet.recipe.carding.layings.empty());
    REQUIRE(state.laid.value().scene);
    const auto scene = state.laid.value().scene;
    canvas.brush.what = state.listed.value().tiles.front().what;
    act(state, app::ChangeCanvas{canvas});
    CHECK(state.laid.value().scene == scene);
    act(state, app::Edit{app::lay_stroke(state.listed.value().sheet, canvas.brush, 1).sheet, "lay a stroke"});
    CHECK(state.document.history().steps_back() == 1);
    CHECK(state.laid.value().scene != scene);
    CHECK(state.listed.value().tiles.front().left < state.listed.value().tiles.front().grams);
    act(state, app::NewBatt{});
    act(state, app::AnswerUnsaved{app::AnswerUnsaved::Choice::let_go});
    CHECK(state.canvas.open);
    CHECK(state.canvas.brush.what.empty());
}
