// Does what the views asked for.
#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>

#include <algorithm>
#include <array>

#include "app/bench/edits.hpp"
#include "app/folders.hpp"
#include "app/shelf/lot_edits.hpp"
#include "recipe/file.hpp"
#include "window/gl/backend.hpp"
#include "window/shell/workbench.hpp"

namespace battwright::window {
namespace {

namespace fs = std::filesystem;
using Deed = Waiting::Deed;

void keep_settings(Workbench& bench) {
    if (bench.config_folder.empty()) return;
    if (auto saved = save_settings(bench.settings, bench.config_folder); !saved)
        bench.messages.push_back(saved.error());
}

// A new document on the bench.
void put(Workbench& bench, Document document) {
    bench.document = std::move(document);
    bench.forecast_of = 0;
    // The count goes on: it is how the carded batts are told apart.
    const unsigned long version = bench.outcome.version;
    bench.outcome = Outcome{};
    bench.outcome.version = version;
    bench.look.passes.reset();
    bench.in = InState{};
    bench.typing = Typing{};
    if (bench.recovery) bench.recovery->clear();
}

void do_deed(Workbench& bench, const Waiting& waiting) {
    switch (waiting.deed) {
        case Deed::none:
            return;
        case Deed::fresh:
            put(bench, Document());
            return;
        case Deed::close:
            bench.leave = true;
            return;
        case Deed::example: {
            auto recipe = recipe::read_text(example_text(), "the example", *bench.catalogue);
            if (recipe)
                put(bench, Document(std::move(*recipe)));
            else
                bench.messages.push_back(recipe.error());
            return;
        }
        case Deed::open: {
            auto opened = Document::open(waiting.path, *bench.catalogue);
            if (!opened) {
                bench.messages.push_back(opened.error());
                return;
            }
            put(bench, std::move(*opened));
            remember(bench.settings, waiting.path);
            keep_settings(bench);
            return;
        }
    }
}

void do_or_ask(Workbench& bench, const Waiting& waiting) {
    if (bench.document.unsaved())
        bench.unsaved_question = waiting;
    else
        do_deed(bench, waiting);
}

void after_saving(Workbench& bench) {
    if (bench.recovery) bench.recovery->clear();
    remember(bench.settings, *bench.document.path());
    keep_settings(bench);
    do_deed(bench, std::exchange(bench.after_save, {}));
}

void save_to(Workbench& bench, const fs::path& path) {
    if (auto saved = bench.document.save(path, *bench.catalogue); !saved) {
        bench.messages.push_back(saved.error());
        bench.after_save = {};
    } else {
        after_saving(bench);
    }
}

void show_files(Workbench& bench, bool saving) {
    bench.files.saving = saving;
    bench.files.complaint.clear();
    bench.files.asked_to_replace = false;
    bench.files.name.clear();
    if (bench.document.path()) {
        bench.files.folder = fs::absolute(*bench.document.path()).parent_path();
    } else if (bench.files.folder.empty()) {
        bench.files.folder =
            bench.settings.recent.empty() ? home_folder() : bench.settings.recent[0].parent_path();
    }
    bench.opening.push_back(saving ? Command::save_as : Command::open);
}

void keep_variant(Workbench& bench) {
    if (!bench.outcome.forecast || bench.variants.size() >= most_variants) return;
    Variant variant;
    variant.sheet = bench.document.sheet();
    variant.outcome = bench.outcome;
    const std::string name = variant.sheet.recipe.name;
    variant.name = (name.empty() ? "Variant" : name) + " " + std::to_string(bench.variants.size() + 1);
    bench.variant_strips.emplace_back();
    const auto scene = strip::carded_scene(*variant.outcome.forecast, variant.sheet.recipe.carding.passes);
    if (auto drawn = bench.variant_strips.back().draw(scene, {280, 120}); !drawn)
        bench.messages.push_back(drawn.error());
    variant.picture = bench.variant_strips.back().id();
    bench.variants.push_back(std::move(variant));
}

fs::path recipe_folder(const Workbench& bench) {
    const auto& path = bench.document.path();
    return path ? fs::absolute(*path).parent_path() : home_folder();
}

void show_card(Workbench& bench) {
    prepare_card(bench.card, recipe_folder(bench), Backend::wake);
    bench.opening.push_back(Command::card);
}

void do_command(Workbench& bench, Command command) {
    switch (command) {
        case Command::fresh:
            return do_or_ask(bench, {Deed::fresh, {}});
        case Command::example:
            return do_or_ask(bench, {Deed::example, {}});
        case Command::close_window:
            return do_or_ask(bench, {Deed::close, {}});
        case Command::open:
            return show_files(bench, false);
        case Command::save_as:
            return show_files(bench, true);
        case Command::save:
            if (!bench.document.path())
                show_files(bench, true);
            else if (bench.document.would_lose_comments())
                bench.comment_question = bench.document.path();
            else
                save_to(bench, *bench.document.path());
            return;
        case Command::undo:
            bench.document.undo();
            return;
        case Command::redo:
            bench.document.redo();
            return;
        case Command::add_fibre:
            bench.in.open_search = true;
            return;
        case Command::keep_variant:
            return keep_variant(bench);
        case Command::card:
            return show_card(bench);
        case Command::card_it:
            prepare_card_it(bench.card_it, bench.outcome);
            bench.opening.push_back(command);
            return;
        case Command::record:
            prepare_record(bench.record, bench.settings, recipe_folder(bench));
            bench.opening.push_back(command);
            return;
        case Command::find:
            prepare_find(bench.find, {bench.document.sheet(), bench.outcome, bench.document.version()},
                         bench.desk.shelf().lots.empty(), Backend::wake);
            bench.opening.push_back(command);
            return;
        case Command::help:
        case Command::guide:
        case Command::preferences:
        case Command::variants:
            if (command == Command::guide) bench.guide_step = 0;
            bench.opening.push_back(command);
            return;
    }
}

void variant_requests(Workbench& bench, const Requests& ask) {
    if (ask.variant_back && *ask.variant_back < bench.variants.size())
        bench.document.change(bench.variants[*ask.variant_back].sheet, "go back to a variant");
    if (ask.variant_drop && *ask.variant_drop < bench.variants.size()) {
        const auto at = static_cast<std::ptrdiff_t>(*ask.variant_drop);
        bench.variants.erase(bench.variants.begin() + at);
        bench.variant_strips.erase(bench.variant_strips.begin() + at);
    }
}

void lot_to_bench(Workbench& bench, const LotToBench& wish) {
    const stash::Shelved* shelved = bench.desk.find(wish.mark);
    if (shelved == nullptr) return;
    const Sheet& sheet = bench.document.sheet();
    const double scrap_grams = bench.desk.choice().filter.scrap_grams;
    const measure::Mass weight = wish.weight.value_or(
        measure::Mass{suggested_grams(sheet, *shelved, scrap_grams), measure::MassUnit::gram});
    auto changed = put_on_bench(sheet, *shelved, weight, bench.desk.movements_of(wish.mark),
                                bench.settings.currency, *bench.catalogue);
    if (changed)
        bench.document.change(*changed, "take a lot from the shelf");
    else
        bench.messages.push_back(changed.error());
}

void shelf_requests(Workbench& bench, Requests& ask) {
    if (ask.shelf_choice) bench.desk.choose(std::move(*ask.shelf_choice));
    if (ask.lot_to_bench) lot_to_bench(bench, *ask.lot_to_bench);
    if (!ask.show_lot) return;
    bench.shelf.card = *ask.show_lot;
    bench.shelf.open_card = true;
    bench.shelf.bench_weight.clear();
    bench.shelf.draft = DeedDraft{};
    bench.shelf.complaint.reset();
    bench.shelf.fields = LotFieldsState{};
    bench.desk.watch(bench.shelf.card);
}

bool pressed(int key) {
    return ImGui::IsKeyPressed(key, false);
}

}  // namespace

void shortcuts(Workbench& bench, Requests& ask) {
    const ImGuiIO& io = ImGui::GetIO();
    // A press of the button, or of an arrow key until it is let go.
    if (ImGui::IsMouseClicked(ImGuiMouseButton_Left) || pressed(GLFW_KEY_LEFT) || pressed(GLFW_KEY_RIGHT))
        ++bench.gesture;
    if (ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId | ImGuiPopupFlags_AnyPopupLevel)) return;
    if (pressed(GLFW_KEY_F1)) ask.command(Command::help);
    if (!io.KeyCtrl) return;
    // A field being typed into keeps its own undo, and is taken as done before anything is saved.
    const bool typing = io.WantTextInput;
    if (!typing && pressed(GLFW_KEY_Z)) ask.command(io.KeyShift ? Command::redo : Command::undo);
    if (!typing && pressed(GLFW_KEY_Y)) ask.command(Command::redo);
    struct Binding {
        int key;
        Command plain, shifted;
    };
    static constexpr std::array<Binding, 9> bindings{{
        {GLFW_KEY_N, Command::fresh, Command::fresh},
        {GLFW_KEY_O, Command::open, Command::open},
        {GLFW_KEY_S, Command::save, Command::save_as},
        {GLFW_KEY_F, Command::add_fibre, Command::add_fibre},
        {GLFW_KEY_K, Command::variants, Command::keep_variant},
        {GLFW_KEY_P, Command::card, Command::card},
        {GLFW_KEY_R, Command::record, Command::record},
        {GLFW_KEY_B, Command::find, Command::find},
        {GLFW_KEY_Q, Command::close_window, Command::close_window},
    }};
    for (const auto& binding : bindings) {
        if (!pressed(binding.key)) continue;
        if (typing) ImGui::SetWindowFocus(nullptr);
        ask.command(io.KeyShift ? binding.shifted : binding.plain);
    }
    Settings settings = bench.settings;
    if (pressed(GLFW_KEY_L)) settings.shade = settings.shade == Shade::light ? Shade::dark : Shade::light;
    if (pressed(GLFW_KEY_EQUAL) || pressed(GLFW_KEY_KP_ADD))
        settings.scale = std::min(2.0, settings.scale * 1.1);
    if (pressed(GLFW_KEY_MINUS) || pressed(GLFW_KEY_KP_SUBTRACT))
        settings.scale = std::max(0.75, settings.scale / 1.1);
    if (settings.shade != bench.settings.shade || settings.scale != bench.settings.scale)
        ask.settings = settings;
    for (int light = 0; light < 3; ++light) {
        if (pressed(GLFW_KEY_1 + light)) bench.look.light = static_cast<colour::Light>(light);
    }
}

bool carry_out(Workbench& bench, Requests& ask) {
    const bool anything = ask.change || !ask.commands.empty() || ask.open_path || ask.save_path ||
                          ask.variant_back || ask.variant_drop || ask.settings || !ask.complaints.empty() ||
                          ask.another_frame || !ask.stash.empty() || ask.shelf_choice || ask.show_lot ||
                          ask.lot_to_bench;
    if (ask.settings && bench.desk.file() != nullptr && ask.settings->currency != bench.settings.currency)
        ask.of_stash(SetCurrency{ask.settings->currency});
    for (auto& complaint : bench.desk.carry_out(ask.stash)) bench.messages.push_back(std::move(complaint));
    shelf_requests(bench, ask);
    if (ask.settings) {
        bench.settings = *ask.settings;
        keep_settings(bench);
    }
    if (ask.change)
        bench.document.change(ask.change->sheet, ask.change->what, ask.change->dragging ? bench.gesture : 0);
    variant_requests(bench, ask);
    for (const auto& complaint : ask.complaints) bench.messages.push_back(complaint);
    for (const Command command : ask.commands) do_command(bench, command);
    if (ask.save_path) save_to(bench, *ask.save_path);
    if (ask.open_path) do_or_ask(bench, {Deed::open, *ask.open_path});
    return anything;
}

void open_file(Workbench& bench, const fs::path& path) {
    do_or_ask(bench, {Deed::open, path});
}

void take_file(Workbench& bench, const fs::path& path) {
    if (!looks_like_photo(path)) return open_file(bench, path);
    if (bench.shelf.adding) return take_lot_photo(bench.shelf.photo, path);
    if (auto photo = Photo::load(path))
        (bench.find.open ? bench.find.photo : bench.in.photo) = std::move(*photo);
    else
        bench.messages.push_back(photo.error());
}

const char* example_text() {
    return R"(format = 1
name = "Slack Water"
total = "60 g"

[[component]]
fibre = "corriedale"
colour = "#35586b"
share = "50 %"

[[component]]
fibre = "tussah-silk"
colours = [ { colour = "#c39a4a", share = "60 %" }, { colour = "#e4d3a2", share = "40 %" } ]
share = "20 %"

[[component]]
fibre = "polwarth"
colour = "#7fa39a"
parts = 1
)";
}

}  // namespace battwright::window
