#include <algorithm>

#include "window/views/find/find.hpp"

#include "app/find/find_choice.hpp"
#include "app/find/find_session.hpp"
#include "recipe/file.hpp"
#include "text/words.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

void source(const Ui& ui, FindState& state) {
    if (!choose(ui, "find from", {"The shelf", "This batt's fibres"}, state.choice.from)) return;
    state.choice.left_out.clear();
    ui.ask.another_frame = true;
}

void wanted(const Ui& ui, FindState& state, const FindSubject& subject) {
    source(ui, state);
    view_find_lots(ui, state);
    rule(ui);
    view_find_goal(ui, state, subject);
    rule(ui);
    view_find_bounds(ui, state);
}

float find_foot(const Ui& ui) {
    return ImGui::GetFrameHeight() + ui.px(12.0f);
}

void leave_find(const Ui& ui) {
    leave_button(ui, "Back to the bench##find done", escape_leaves(ui));
}

constexpr ImGuiWindowFlags still = ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;

void wishes_column(const Ui& ui, FindState& state, const FindSubject& subject, float width) {
    begin_child("find left", {width, 0.0f}, false, still);
    begin_child("find wishes", {0.0f, ImGui::GetContentRegionAvail().y - find_foot(ui)});
    wanted(ui, state, subject);
    ImGui::EndChild();
    leave_find(ui);
    ImGui::EndChild();
    ImGui::SameLine(0.0f, ui.px(18.0f));
}

// All beside each other.
void wide_page(const Ui& ui, FindState& state, const FindSubject& subject) {
    const float right = std::min(ui.px(420.0f), 0.26f * ImGui::GetContentRegionAvail().x);
    wishes_column(ui, state, subject, ui.px(388.0f));
    begin_child("find middle", {ImGui::GetContentRegionAvail().x - right - ui.px(18.0f), 0.0f}, false, still);
    view_find_blends(ui, state, subject);
    ImGui::EndChild();
    ImGui::SameLine(0.0f, ui.px(18.0f));
    begin_child("find right", {0.0f, 0.0f}, false, still);
    view_find_gamut(ui);
    ImGui::EndChild();
}

void found_or_reached(const Ui& ui, FindState& state, const FindSubject& subject) {
    if (state.page == FindPage::gamut)
        view_find_gamut(ui);
    else
        view_find_blends(ui, state, subject);
}

// What was found and what can be reached take turns.
void middling_page(const Ui& ui, FindState& state, const FindSubject& subject) {
    wishes_column(ui, state, subject, ui.px(372.0f));
    begin_child("find middle", {0.0f, 0.0f}, false, still);
    const std::size_t now = state.page == FindPage::gamut ? 1 : 0;
    if (const auto page = choices(ui, "find page", {"Blends", "What can be reached"}, now))
        state.page = *page == 1 ? FindPage::gamut : FindPage::blends;
    found_or_reached(ui, state, subject);
    ImGui::EndChild();
}

// All three do. It opens on what was found.
void narrow_page(const Ui& ui, FindState& state, const FindSubject& subject) {
    choose(ui, "find page", {"What is wanted", "Blends", "What can be reached"}, state.page);
    begin_child("find all", {0.0f, ImGui::GetContentRegionAvail().y - find_foot(ui)});
    if (state.page == FindPage::wanted)
        wanted(ui, state, subject);
    else
        found_or_reached(ui, state, subject);
    ImGui::EndChild();
    leave_find(ui);
}

}  // namespace

void find_row(const Ui& ui, std::string_view words) {
    row_label(ui, words, find_row_width);
}

void find_trouble(const Ui& ui, std::string_view field) {
    const auto& complaint = ui.find.complaint();
    if (complaint && complaint->where == field)
        trouble(ui, text::capitalised(complaint->what) + "; " + complaint->mend);
}

void swatch(const Ui& ui, const colour::Srgb& colour, ImVec2 low, ImVec2 high) {
    ImGui::GetWindowDrawList()->AddRectFilled(low, high, u32(colour::clipped(colour)));
    ImGui::GetWindowDrawList()->AddRect(low, high, u32(ui.theme.edge));
}

void follow_find(FindState& state, const FindSession& session) {
    const auto& latest = session.shown().latest;
    if (!latest) return;
    state.strips.of(latest, [](const auto& found, std::deque<Texture>& strips) {
        while (strips.size() < found->blends.size()) strips.emplace_back();
        for (std::size_t i = 0; i < found->blends.size(); ++i) strips[i].keep(found->blends[i].strip);
    });
}

void view_find(const Ui& ui, const PanelHead& head, FindState& state, const FindSubject& subject) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    const ImVec2 size{ui.px(1560.0f), std::min(whole.y - ui.px(40.0f), ui.px(980.0f))};
    if (!begin_card(ui, head, card_size(ui, size, {0.0f, 400.0f}))) return;
    ui.ask.another_frame |= state.pricing;
    if (!ui.find.stock()) {
        paragraph(ui, "The shelf is being looked through\u2026", ui.theme.quiet);
        return end_card();
    }
    state.choice = ui.find.choice;
    if (has_room(ui, 1130.0f))
        wide_page(ui, state, subject);
    else if (has_room(ui, 800.0f))
        middling_page(ui, state, subject);
    else
        narrow_page(ui, state, subject);
    end_card();
    if (!(state.choice == ui.find.choice)) ui.ask.act_first(ChangeFind{state.choice});
}

void report_find(const FindSession& session, bool open, Probe& probe) {
    auto& facts = probe.state;
    facts["find settled"] = session.settled() ? "yes" : "no";
    facts["find complaint"] = session.complaint() ? measure::to_line(*session.complaint()) : "";
    if (!open) return;
    const auto& latest = session.shown().latest;
    facts["find answer"] = latest ? std::to_string(latest->number) : "0";
    facts["find blends"] = std::to_string(latest ? latest->blends.size() : 0);
    facts["find conflict"] = latest && latest->conflict ? latest->conflict->words : "";
    facts["find reach"] = latest && latest->reach ? measure::write_number(latest->reach->delta_e) : "";
    if (latest && !latest->blends.empty()) {
        facts["find best"] = recipe::write_text(latest->blends.front().suggestion.recipe());
        facts["find lots"] = std::to_string(latest->blends.front().suggestion.recipe().components.size());
    }
}

}  // namespace battwright::window
