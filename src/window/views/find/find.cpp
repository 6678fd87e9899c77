#include "window/views/find/find.hpp"

#include <algorithm>
#include <chrono>

#include "recipe/file.hpp"
#include "stash/date.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

const recipe::Carder& carder_of(const Sheet& sheet) {
    const auto& carding = sheet.recipe.carding;
    if (carding.own) return *carding.own;
    const recipe::Carder* preset = recipe::find_carder(carding.carder);
    return preset != nullptr ? *preset : recipe::carder_presets().front();
}

// As many lots as are priced within a frame: a query of the file each.
constexpr std::size_t priced_a_frame = 200;

// True when every lot has been looked up.
bool price_some(const Ui& ui, FindState& state) {
    const auto& lots = ui.desk.shelf().lots;
    const stash::Stash* file = ui.desk.file();
    const std::size_t end = std::min(lots.size(), state.priced.size() + priced_a_frame);
    for (std::size_t i = state.priced.size(); i < end; ++i) {
        const auto movements = file != nullptr ? file->movements(lots[i]->lot.mark)
                                               : measure::Expected<std::vector<stash::Movement>>{};
        state.priced.push_back(
            {lots[i],
             movements ? shelving::cost_per_gram(*lots[i], *movements, ui.desk.currency()) : std::nullopt});
    }
    return end == lots.size();
}

shelving::Stock stock_of_shelf(const Ui& ui, const FindState& state) {
    const auto today = stash::parse_date(stash::today());
    return shelving::stock_of(state.priced, today.value_or(std::chrono::sys_days{}),
                              ui.desk.choice().filter.scrap_grams);
}

void show_rows(const Ui& ui, FindState& state) {
    state.rows = listed(state.choice, *state.stock, ui.catalogue);
    state.rows_words = state.choice.words;
    state.rows_scraps_only = state.choice.scraps_only;
}

void take_stock(const Ui& ui, FindState& state, shelving::Stock stock) {
    state.stock = std::make_shared<const shelving::Stock>(std::move(stock));
    state.bound_words = bounded_words(*state.stock, ui.catalogue);
    show_rows(ui, state);
}

// Brings the lots up to date with the shelf or the bench, a long shelf over several frames.
void follow_stock(const Ui& ui, FindState& state, const FindSubject& subject) {
    const bool of_shelf = state.choice.from == FindFrom::shelf;
    const unsigned long version = of_shelf ? ui.desk.version() : subject.version;
    const double scrap = ui.desk.choice().filter.scrap_grams;
    const bool same =
        state.stock_from == state.choice.from && state.stock_version == version && state.stock_scrap == scrap;
    if (!same) {
        state.stock.reset();
        state.priced.clear();
        state.stock_from = state.choice.from;
        state.stock_version = version;
        state.stock_scrap = scrap;
    }
    if (state.stock) {
        if (state.rows_words != state.choice.words || state.rows_scraps_only != state.choice.scraps_only)
            show_rows(ui, state);
    } else if (!of_shelf) {
        take_stock(ui, state, shelving::stock_of(subject.sheet.recipe).value_or(shelving::Stock{}));
    } else if (price_some(ui, state)) {
        take_stock(ui, state, stock_of_shelf(ui, state));
        state.priced.clear();
    } else {
        ui.ask.another_frame = true;
    }
}

// The batt found is carded and spun as the one on the bench.
recipe::Recipe frame_of(const Sheet& sheet) {
    recipe::Recipe frame = sheet.recipe;
    frame.components.clear();
    frame.total.reset();
    return frame;
}

std::string name_for(const Sheet& sheet, const FindChoice& choice) {
    if (!sheet.recipe.name.empty()) return sheet.recipe.name;
    if (choice.colour == FindColour::any) return "Scraps";
    return "Match for " + colour::hex(choice.target.colour);
}

// Asks anew when the choice or the lots have changed, and takes what has been found.
void follow_worker(const Ui& ui, FindState& state, const FindSubject& subject) {
    const bool changed = !state.asked || !(*state.asked == state.choice) || state.asked_stock != state.stock;
    if (changed) {
        state.asked = state.choice;
        state.asked_stock = state.stock;
        state.stopped = false;
        state.complaint.reset();
        auto problem =
            problem_of(state.choice, *state.stock, carder_of(subject.sheet), ui.catalogue, ui.settings.mass);
        if (!problem) {
            state.complaint = problem.error();
            state.worker->cancel();
        } else {
            problem->stock.frame = frame_of(subject.sheet);
            FindWish wish{std::move(*problem),
                          name_for(subject.sheet, state.choice),
                          &ui.catalogue,
                          ui.desk.calibration(),
                          460,
                          56};
            state.asked_number = state.worker->ask(std::move(wish));
        }
    }
    state.shown = state.worker->state();
    if (state.shown.latest == state.strips_of || !state.shown.latest) return;
    const auto& blends = state.shown.latest->blends;
    while (state.strips.size() < blends.size()) state.strips.emplace_back();
    for (std::size_t i = 0; i < blends.size(); ++i) state.strips[i].keep(blends[i].strip);
    state.strips_of = state.shown.latest;
}

void source(const Ui& ui, FindState& state) {
    const auto from = choices(ui, "find from", {"The shelf", "This batt's fibres"},
                              state.choice.from == FindFrom::batt ? 1 : 0);
    if (!from) return;
    state.choice.from = *from == 1 ? FindFrom::batt : FindFrom::shelf;
    state.choice.left_out.clear();
    ui.ask.another_frame = true;
}

void wishes(const Ui& ui, FindState& state, const FindSubject& subject) {
    const float foot = ImGui::GetFrameHeight() + ui.px(12.0f);
    ImGui::BeginChild("find wishes", {0.0f, ImGui::GetContentRegionAvail().y - foot});
    source(ui, state);
    view_find_lots(ui, state);
    rule(ui);
    view_find_goal(ui, state, subject);
    rule(ui);
    view_find_bounds(ui, state);
    ImGui::EndChild();
    const bool escape = escape_leaves(ui);
    if (button(ui, "Back to the bench##find done") || escape) ImGui::CloseCurrentPopup();
}

}  // namespace

void find_row(const Ui& ui, std::string_view words) {
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.body, ui.theme.quiet, words);
    ImGui::SameLine(ui.px(find_row_width));
}

void swatch(const Ui& ui, const colour::Srgb& colour, ImVec2 low, ImVec2 high) {
    ImGui::GetWindowDrawList()->AddRectFilled(low, high, u32(colour::clipped(colour)));
    ImGui::GetWindowDrawList()->AddRect(low, high, u32(ui.theme.edge));
}

void prepare_find(FindState& state, const FindSubject& subject, bool shelf_is_empty,
                  std::function<void()> wake) {
    const bool first = !state.worker;
    if (first) state.worker = std::make_unique<FindWorker>(std::move(wake));
    state.asked.reset();
    if (shelf_is_empty && !subject.sheet.recipe.components.empty()) state.choice.from = FindFrom::batt;
    if (!first || !subject.outcome.forecast) return;
    const auto& colour = subject.outcome.forecast->colour;
    state.choice.target = {colour::srgb_under(colour.reflectance, colour::Light::d65), colour.reflectance};
    state.choice.target.colour = colour::clipped(state.choice.target.colour);
}

void view_find(const Ui& ui, FindState& state, const FindSubject& subject) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    const ImVec2 size{std::min(whole.x - ui.px(40.0f), ui.px(1560.0f)),
                      std::min(whole.y - ui.px(40.0f), ui.px(980.0f))};
    state.open = begin_card(ui, "find", "What can be made of this?", size);
    if (!state.open) {
        // A search nobody waits for is stopped.
        if (state.worker && state.shown.busy) {
            state.worker->cancel();
            state.asked.reset();
            state.shown.busy = false;
        }
        return;
    }
    follow_stock(ui, state, subject);
    if (!state.stock) {
        paragraph(ui, "The shelf is being looked through\u2026", ui.theme.quiet);
        return end_card();
    }
    follow_worker(ui, state, subject);
    const float between = ui.px(18.0f), left = ui.px(388.0f);
    const float right = std::min(ui.px(420.0f), 0.26f * ImGui::GetContentRegionAvail().x);
    const ImGuiWindowFlags still = ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
    ImGui::BeginChild("find left", {left, 0.0f}, false, still);
    wishes(ui, state, subject);
    ImGui::EndChild();
    ImGui::SameLine(0.0f, between);
    ImGui::BeginChild("find middle", {ImGui::GetContentRegionAvail().x - right - between, 0.0f}, false,
                      still);
    view_find_blends(ui, state, subject);
    ImGui::EndChild();
    ImGui::SameLine(0.0f, between);
    ImGui::BeginChild("find right", {0.0f, 0.0f}, false, still);
    view_find_gamut(ui, state);
    ImGui::EndChild();
    end_card();
}

bool find_has_news(const FindState& state) {
    if (!state.open || !state.worker) return false;
    const auto now = state.worker->state();
    return now.latest != state.shown.latest || now.busy != state.shown.busy || now.done != state.shown.done;
}

void report_find(const FindState& state, Probe& probe) {
    auto& told = probe.state;
    told["find"] = state.open ? "open" : "shut";
    const bool news = find_has_news(state);
    told["find settled"] = !state.shown.busy && !news && state.asked ? "yes" : "no";
    told["find complaint"] = state.complaint ? measure::to_line(*state.complaint) : "";
    if (!state.open) return;
    const auto& latest = state.shown.latest;
    told["find answer"] = latest ? std::to_string(latest->number) : "0";
    told["find blends"] = std::to_string(latest ? latest->blends.size() : 0);
    told["find conflict"] = latest && latest->conflict ? latest->conflict->words : "";
    told["find reach"] = latest && latest->reach ? measure::write_number(latest->reach->delta_e) : "";
    if (latest && !latest->blends.empty()) {
        told["find best"] = recipe::write_text(latest->blends.front().suggestion.recipe());
        told["find lots"] = std::to_string(latest->blends.front().suggestion.recipe().components.size());
    }
}

}  // namespace battwright::window
