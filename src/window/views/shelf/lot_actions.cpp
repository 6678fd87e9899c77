// What happens to a lot's weight: written down, and the list of what was.
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "app/half_typed.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/shelf/shelf.hpp"

namespace battwright::window {
namespace {

struct ActionWords {
    LotAction action;
    const char* button;
    const char* meaning;
};
constexpr std::array<ActionWords, 5> lot_choices{{
    {LotAction::weigh, "weighed", "The scale says so much now; the difference is written down."},
    {LotAction::waste, "wasted", "Moth, felting, the floor."},
    {LotAction::give, "given", "Given away or sold."},
    {LotAction::buy, "bought", "More of the same came."},
    {LotAction::scour, "scoured", "Out of the bath, dry: so much is left, and it is raw no more."},
}};

stash::Reason reason_of(LotAction action) {
    if (action == LotAction::waste) return stash::Reason::wasted;
    return action == LotAction::give ? stash::Reason::given : stash::Reason::bought;
}

void choose_deed(const Ui& ui, const stash::Lot& lot, MovementDraft& draft) {
    std::vector<std::string> words;
    std::size_t now = lot_choices.size();
    const std::size_t count = lot.raw ? lot_choices.size() : lot_choices.size() - 1;
    for (std::size_t i = 0; i < count; ++i) {
        words.emplace_back(lot_choices[i].button);
        if (lot_choices[i].action == draft.action) now = i;
    }
    const float width = (ImGui::GetContentRegionAvail().x - ui.px(3.0f) * static_cast<float>(count - 1)) /
                        static_cast<float>(count);
    if (const auto chosen = choices(ui, "deed", words, now, width)) {
        draft.action = lot_choices[*chosen].action;
        draft.movement = 0;
    }
    if (draft.action == LotAction::correct) {
        paragraph(ui, "What that movement should have been:", ui.theme.quiet);
    } else if (now < lot_choices.size()) {
        paragraph(ui, lot_choices[now].meaning, ui.theme.quiet);
    }
}

std::optional<StashAction> action_of(const Ui& ui, const stash::Shelved& shelved, const MovementDraft& draft,
                                     std::optional<measure::Complaint>& complaint) {
    const auto weight = parse_weight(draft.weight, ui.settings.mass);
    if (!weight) {
        complaint = weight.error();
        return std::nullopt;
    }
    const std::string& lot = shelved.lot.mark;
    if (draft.action == LotAction::weigh) return WeighAgain{lot, weight->grams, draft.note};
    if (draft.action == LotAction::scour) return ScourLot{lot, weight->grams, draft.note};
    if (draft.action == LotAction::correct)
        return CorrectMovement{draft.movement, draft.out ? -weight->grams : weight->grams, draft.note};
    stash::Move move;
    move.mark = lot;
    move.reason = reason_of(draft.action);
    move.grams = weight->grams;
    move.note = draft.note;
    if (draft.action == LotAction::buy && !draft.cost.empty()) {
        const auto money = parse_money(draft.cost, ui.settings.currency);
        if (!money) {
            complaint = money.error();
            return std::nullopt;
        }
        move.cost = *money;
    }
    return MoveFibre{std::move(move)};
}

void write_it_down(const Ui& ui, const stash::Shelved& shelved, ShelfState& state) {
    MovementDraft& draft = state.draft;
    const float width = ImGui::GetContentRegionAvail().x;
    const float third = ui.px(110.0f), space = ui.px(6.0f);
    const bool buys = draft.action == LotAction::buy;
    edit_text(ui, "deed weight", draft.weight, third, "weight");
    ImGui::SameLine(0.0f, space);
    if (buys) {
        edit_text(ui, "deed cost", draft.cost, third, "cost");
        ImGui::SameLine(0.0f, space);
    }
    const float left = width - (buys ? 2.0f : 1.0f) * (third + space);
    edit_text(ui, "deed note", draft.note, left, "a note");
    ImGui::BeginDisabled(draft.weight.empty());
    if (button(ui, "Write it down##deed do", Tone::plain, width)) {
        state.complaint.reset();
        if (auto action = action_of(ui, shelved, draft, state.complaint))
            ui.ask.of_stash(std::move(*action), Requester::lot_card);
    }
    ImGui::EndDisabled();
}

bool can_correct(stash::Reason reason) {
    return reason == stash::Reason::bought || reason == stash::Reason::wasted ||
           reason == stash::Reason::given || reason == stash::Reason::weighed;
}

// The sign is drawn as a true minus; "-0 g" never is.
std::string signed_mass(const Ui& ui, double grams) {
    const std::string words = measure::print_mass(std::abs(grams), ui.settings.mass);
    return (grams < 0.0 ? "\u2212" : "+") + words;
}

void movement_row(const Ui& ui, const stash::Movement& movement, MovementDraft& draft) {
    const float height = ui.px(42.0f), width = ImGui::GetContentRegionAvail().x;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool open_to = can_correct(movement.reason);
    ImGui::PushID(static_cast<int>(movement.id));
    ImGui::BeginDisabled(!open_to);
    if (ImGui::Selectable("##movement", draft.movement == movement.id, ImGuiSelectableFlags_DontClosePopups,
                          {width, height})) {
        draft = MovementDraft{LotAction::correct,
                              movement.id,
                              movement.grams < 0.0,
                              measure::print_mass(std::abs(movement.grams), ui.settings.mass),
                              {},
                              {},
                              {}};
        draft.weight_was = draft.weight;
    }
    ImGui::EndDisabled();
    ImGui::PopID();
    mark(ui, "movement " + std::to_string(movement.id));
    if (open_to) hover(ui, "Press to put it right: the correction is written down beside it.");
    const auto put = [&](ImFont* font, float x, float y, const colour::Srgb& colour, std::string_view words) {
        put_text(font, colour, {at.x + ui.px(x), at.y + ui.px(y)}, words);
    };
    put(ui.fonts.body, 4.0f, 2.0f, ui.theme.ink, stash::word_for(movement.reason));
    put(ui.fonts.body, 120.0f, 2.0f, ui.theme.ink, signed_mass(ui, movement.grams));
    put(ui.fonts.body, 220.0f, 2.0f, ui.theme.quiet, movement.date);
    std::string second = movement.cost ? print_money(*movement.cost) : "";
    if (!movement.note.empty()) second += (second.empty() ? "" : " \u00b7 ") + shortened(movement.note, 300);
    ImGui::PushFont(ui.fonts.small);
    second = cut_to(second, width - ui.px(8.0f));
    ImGui::PopFont();
    put(ui.fonts.small, 4.0f, 22.0f, ui.theme.quiet, second);
}

}  // namespace

std::string draft_typed(const MovementDraft& draft) {
    return typed_in({draft.weight == draft.weight_was ? "" : draft.weight, draft.note, draft.cost});
}

void view_lot_actions(const Ui& ui, const stash::Shelved& shelved, ShelfState& state, bool stacked) {
    std::string left = shelved.grams > 0.0
                           ? measure::print_mass(shelved.grams, ui.settings.mass) + " on the shelf"
                           : "Nothing is left of it";
    if (shelved.lot.raw)
        left += ", " + measure::print_mass(shelved.clean_grams(), ui.settings.mass) + " when scoured";
    text_within(ui, ui.fonts.bold, ui.theme.ink, left, ImGui::GetContentRegionAvail().x);
    mark(ui, "lot weight");
    choose_deed(ui, shelved.lot, state.draft);
    write_it_down(ui, shelved, state);
    gap(ui, 2.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "What became of it");
    ImGui::PushStyleColor(ImGuiCol_ChildBg, vec4(ui.theme.field));
    begin_child("movements", {0.0f, stacked ? ui.px(180.0f) : 0.0f}, true,
                ImGuiWindowFlags_AlwaysUseWindowPadding);
    ImGui::PopStyleColor();
    // The newest first; a lot has few, so all are drawn.
    const auto& movements = ui.stash.movements();
    for (std::size_t i = movements.size(); i-- > 0;) movement_row(ui, movements[i], state.draft);
    ImGui::EndChild();
}

}  // namespace battwright::window
