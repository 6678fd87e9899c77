#include "window/shell/workbench.hpp"

#include <algorithm>
#include <utility>

#include "recipe/file.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

constexpr float margin = 10.0f;
constexpr float least_width = 1240.0f, least_height = 720.0f;  // design pixels everything fits into

std::string suggested_name(const Workbench& bench) {
    if (bench.document.path()) return bench.document.path()->filename().string();
    std::string name;
    for (const char c : bench.document.sheet().recipe.name) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (plain)
            name += c;
        else if (c >= 'A' && c <= 'Z')
            name += static_cast<char>(c - 'A' + 'a');
        else if (!name.empty() && name.back() != '-')
            name += '-';
    }
    while (!name.empty() && name.back() == '-') name.pop_back();
    return (name.empty() ? "new-batt" : name) + ".toml";
}

forecast::Bench surroundings(const Workbench& bench) {
    forecast::Bench around;
    around.catalogue = bench.catalogue;
    around.light = bench.look.light;
    around.calibration = bench.desk.calibration();
    return around;
}

CardSubject card_subject(const Workbench& bench) {
    CardSubject subject;
    // The worker was asked with the forecast on show (see refresh).
    if (bench.outcome.forecast) subject.forecast = bench.asked.forecast;
    subject.version = bench.asked.version;
    subject.bench = surroundings(bench);
    subject.stem = std::filesystem::path(suggested_name(bench)).stem().string();
    subject.outdated = bench.outcome.complaint.has_value();
    return subject;
}

void open_cards(Workbench& bench) {
    for (const Command command : std::exchange(bench.opening, {})) {
        if (command == Command::help) ImGui::OpenPopup("help");
        if (command == Command::guide) ImGui::OpenPopup("guide");
        if (command == Command::preferences) ImGui::OpenPopup("preferences");
        if (command == Command::variants) ImGui::OpenPopup("variants");
        if (command == Command::card) ImGui::OpenPopup("card");
        if (command == Command::card_it) ImGui::OpenPopup("card it");
        if (command == Command::record) ImGui::OpenPopup("record");
        if (command == Command::find) ImGui::OpenPopup("find");
        if (command == Command::open || command == Command::save_as) ImGui::OpenPopup("files");
    }
}

void ask_about_unsaved(Workbench& bench, const Ui& ui) {
    const std::string name = bench.document.sheet().recipe.name;
    const auto answer = view_question(ui, "unsaved question", "Keep this work?",
                                      (name.empty() ? "This batt" : "\u201c" + name + "\u201d") +
                                          std::string(" has changes that are in no file yet."),
                                      {"Save it first", "Let the changes go", "Stay here"});
    if (!answer) return;
    const Waiting waiting = std::exchange(bench.unsaved_question, {});
    if (*answer == 0) {
        bench.after_save = waiting;
        ui.ask.command(Command::save);
    } else if (*answer == 1) {
        bench.document = Document();
        if (bench.recovery) bench.recovery->clear();
        if (waiting.deed == Waiting::Deed::open) ui.ask.open_path = waiting.path;
        if (waiting.deed == Waiting::Deed::fresh) ui.ask.command(Command::fresh);
        if (waiting.deed == Waiting::Deed::example) ui.ask.command(Command::example);
        if (waiting.deed == Waiting::Deed::close) bench.leave = true;
    }
}

void ask_about_comments(Workbench& bench, const Ui& ui) {
    const auto answer =
        view_question(ui, "comment question", "The file has comments",
                      "Lines that begin with # cannot be carried over. Saving to the same file "
                      "would drop them.",
                      {"Save under another name", "Drop the comments", "Stay here"});
    if (!answer) return;
    const auto path = std::exchange(bench.comment_question, std::nullopt);
    if (*answer == 0) {
        ui.ask.command(Command::save_as);
    } else if (*answer == 1) {
        if (auto saved = bench.document.save(*path, *bench.catalogue); !saved)
            ui.ask.complaints.push_back(saved.error());
        else if (bench.recovery)
            bench.recovery->clear();
    } else {
        bench.after_save = {};
    }
}

void offer_recovery(Workbench& bench, const Ui& ui) {
    const LeftBehind left = bench.left_behind.front();
    const std::string from = left.original ? " It was opened from " + left.original->string() + "." : "";
    const auto answer = view_question(ui, "recovery question", "Unsaved work was found",
                                      "The last session ended before this was saved." + from,
                                      {"Bring it back", "Throw it away", "Decide later"});
    if (!answer) return;
    bench.left_behind.erase(bench.left_behind.begin());
    if (*answer == 2) return;
    if (*answer == 0) {
        auto recipe = recipe::read_text(left.text, left.file.string(), *bench.catalogue);
        if (!recipe) {
            ui.ask.complaints.push_back(recipe.error());
            return;  // the copy stays where it is
        }
        bench.document = Document::recovered(std::move(*recipe), left.original);
        if (bench.recovery) bench.recovery->touched(Recovery::Clock::now());
    }
    Recovery::discard(left);
}

void questions(Workbench& bench, const Ui& ui) {
    if (!bench.left_behind.empty())
        offer_recovery(bench, ui);
    else if (bench.comment_question)
        ask_about_comments(bench, ui);
    else if (bench.unsaved_question.deed != Waiting::Deed::none)
        ask_about_unsaved(bench, ui);
}

measure::Expected<void> draw_strip(StripTexture& texture, const Carded& carded,
                                   const StripTexture::Size& size) {
    if (!is_yarn(carded.view)) return texture.draw(carded.scene, size);
    if (carded.yarn.ply_count > 0) return texture.draw(carded.yarn, size);
    return {};
}

// Hands the worker what is to be seen now, and takes what it has made.
void ask_worker(Workbench& bench) {
    if (bench.outcome.forecast && bench.worker) {
        CardingWish wish{
            nullptr,         bench.outcome.version, pass_shown(bench.outcome.forecast->recipe, bench.look),
            bench.look.view, bench.look.pull,       {bench.look.from, bench.look.zoom}};
        if (!wish.same_as(bench.asked)) {
            wish.forecast = bench.asked.version == wish.version
                                ? bench.asked.forecast
                                : std::make_shared<const forecast::Forecast>(*bench.outcome.forecast);
            bench.asked = wish;
            bench.worker->ask(std::move(wish));
        }
        const auto state = bench.worker->state();
        bench.shown = {state.latest, !state.busy};
    } else {
        bench.shown = {};
    }
}

}  // namespace

Layout layout_for(ImVec2 window, float unit) {
    const float m = margin * unit;
    const float top = 52.0f * unit;
    const float strip = std::clamp(0.22f * window.y, 160.0f * unit, 320.0f * unit);
    const float in = std::clamp(0.335f * window.x, 428.0f * unit, 560.0f * unit);
    const float drum = std::clamp(0.25f * window.x, 306.0f * unit, 520.0f * unit);
    const float height = window.y - top - strip - 4.0f * m;
    const float y = top + 2.0f * m;
    Layout layout;
    layout.top = {m, m};
    layout.top_size = {window.x - 2.0f * m, top};
    layout.in = {m, y};
    layout.in_size = {in, height};
    layout.drum = {in + 2.0f * m, y};
    layout.drum_size = {drum, height};
    layout.out = {in + drum + 3.0f * m, y};
    layout.out_size = {window.x - in - drum - 4.0f * m, height};
    layout.strip = {m, window.y - strip - m};
    layout.strip_size = {window.x - 2.0f * m, strip};
    return layout;
}

float unit_that_fits(ImVec2 window, float wanted) {
    return std::max(0.5f, std::min({wanted, window.x / least_width, window.y / least_height}));
}

void refresh(Workbench& bench, const StripSize& size) {
    if (auto trouble = bench.desk.refresh()) bench.messages.push_back(std::move(*trouble));
    if (bench.settings.currency.empty()) bench.settings.currency = bench.desk.currency();
    if (bench.forecast_of != bench.document.version() || bench.forecast_light != bench.look.light ||
        bench.calibration_of != bench.desk.calibration_version()) {
        update(bench.outcome, bench.document.sheet().recipe, surroundings(bench));
        bench.forecast_of = bench.document.version();
        bench.forecast_light = bench.look.light;
        bench.calibration_of = bench.desk.calibration_version();
    }
    ask_worker(bench);
    if (!bench.outcome.forecast || !bench.shown.carded || size.width <= 0 || size.height <= 0) return;
    const bool hurried = bench.strip.slow() && ImGui::IsMouseDown(ImGuiMouseButton_Left);
    const Workbench::StripOf wanted{bench.shown.carded, bench.look.distance, size.width, size.height,
                                    hurried};
    if (wanted == bench.strip_of) return;
    // Pressing the button alone changes nothing on show.
    auto otherwise = bench.strip_of;
    otherwise.hurried = hurried;
    if (hurried && wanted == otherwise) return;
    if (auto drawn =
            draw_strip(bench.strip, *wanted.carded, {size.width, size.height, wanted.distance, hurried});
        !drawn)
        bench.messages.push_back(drawn.error());
    bench.strip_of = wanted;
}

void draw(Workbench& bench, const Ui& ui, const Layout& layout) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    ImGui::SetNextWindowPos({0.0f, 0.0f});
    ImGui::SetNextWindowSize(whole);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, 0.0f);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0.0f);
    ImGui::PushStyleColor(ImGuiCol_WindowBg, vec4(ui.theme.ground));
    ImGui::Begin("bench", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollWithMouse);
    ImGui::PopStyleColor();
    ImGui::PopStyleVar(2);
    bench.look.pointed_next.clear();
    const Sheet& sheet = bench.document.sheet();
    view_top(ui, bench.document, layout.top, layout.top_size);
    if (bench.shelf.open)
        view_shelf(ui, bench.outcome, bench.shelf, layout.in, layout.in_size);
    else
        view_in(ui, sheet, bench.outcome, bench.look, bench.in, bench.shelf, layout.in, layout.in_size);
    view_drum(ui, sheet, bench.outcome, bench.shown, bench.look, layout.drum, layout.drum_size);
    view_out(ui, sheet, bench.outcome, bench.look, bench.yarn, layout.out, layout.out_size);
    view_strip(ui, sheet, bench.outcome, bench.shown, bench.look, bench.strip.id(), layout.strip,
               layout.strip_size);
    open_cards(bench);
    view_files(ui, bench.files, suggested_name(bench));
    view_help(ui);
    view_guide(ui, bench.guide_step);
    view_preferences(ui);
    view_lot(ui, bench.shelf);
    view_new_lot(ui, bench.shelf);
    view_variants(ui, bench.variants);
    view_card(ui, bench.card, card_subject(bench));
    view_card_it(ui, bench.card_it, bench.outcome);
    view_record(ui, bench.record);
    view_find(ui, bench.find, {sheet, bench.outcome, bench.document.version()});
    questions(bench, ui);
    ImGui::End();
    view_carried_lot(ui, bench.shelf, layout.drum, layout.drum_size);
    const ImVec2 corner{whole.x - ui.px(24.0f), layout.strip.y - ui.px(14.0f)};
    view_messages(ui, bench.messages, corner);
    if (bench.look.pointed != bench.look.pointed_next) {
        bench.look.pointed = bench.look.pointed_next;
        ui.ask.another_frame = true;
    }
}

void report(const Workbench& bench, Probe& probe) {
    if (!probe.wanted) return;
    auto& state = probe.state;
    state.clear();
    state["recipe"] = recipe::write_text(bench.document.sheet().recipe);
    state["path"] = bench.document.path() ? bench.document.path()->string() : "";
    state["unsaved"] = bench.document.unsaved() ? "yes" : "no";
    state["undo steps"] = std::to_string(bench.document.history().steps_back());
    state["redo steps"] = std::to_string(bench.document.history().steps_on());
    state["messages"] = std::to_string(bench.messages.size());
    if (!bench.messages.empty()) state["message"] = measure::to_line(bench.messages.back());
    state["complaint"] = bench.outcome.complaint ? measure::to_line(*bench.outcome.complaint) : "";
    if (bench.outcome.forecast) {
        state["total grams"] = measure::write_number(bench.outcome.forecast->total_grams);
        state["colour"] = colour::hex(bench.outcome.forecast->colour.srgb);
        state["findings"] = std::to_string(bench.outcome.forecast->findings.size());
        const auto& yarn = bench.outcome.forecast->yarn;
        state["yarn high over low"] =
            measure::write_number(yarn.length_low_m > 0.0 ? yarn.length_high_m / yarn.length_low_m : 0.0);
    }
    state["settled"] = bench.shown.settled ? "yes" : "no";
    state["view"] = word_for(bench.look.view);
    if (const auto& carded = bench.shown.carded) {
        state["pass shown"] = std::to_string(carded->pass);
        state["caption"] = strip_caption(*carded, {bench.strip_of.width, bench.strip_of.height}, bench.look);
        const auto* measures = measures_of(*carded, carded->pass);
        state["look"] = measures != nullptr ? carding::word_for(measures->look) : "";
    }
    state["variants"] = std::to_string(bench.variants.size());
    state["theme"] = bench.settings.shade == Shade::dark ? "dark" : "light";
    report_card(bench.card, probe);
    report_card_it(bench.card_it, probe);
    report_record(bench.record, probe);
    report_find(bench.find, probe);
    report_yarn(bench.yarn, bench.document.sheet(), bench.outcome, probe);
    state["lots"] = std::to_string(bench.desk.shelf().lots.size());
    state["lots shown"] = std::to_string(bench.desk.whole().size() + bench.desk.scraps().size());
    state["typing"] = bench.typing.id != 0 ? "yes" : "no";
}

}  // namespace battwright::window
