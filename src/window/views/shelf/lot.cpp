// A lot's card: what it is on the left, what is left of it on the right.

#include <utility>

#include "app/half_typed.hpp"
#include "app/settings.hpp"
#include "app/shelf/lot_edits.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/shelf/shelf.hpp"

namespace battwright::window {
namespace {

constexpr std::size_t most_title_bytes = 200;

void take_answers(const Ui& ui, ShelfState& state) {
    if (const auto* answer = ui.answer_to(Requester::lot_card)) {
        state.complaint = answer->complaint;
        if (!answer->complaint) state.draft = MovementDraft{};
    }
    if (const auto* answer = ui.answer_to(Requester::lot_words)) state.complaint = answer->complaint;
}

void words_of_lot(const Ui& ui, const stash::Shelved& shelved, ShelfState& state) {
    if (auto changed = view_lot_fields(ui, shelved.lot, state.fields, state.complaint))
        ui.ask.of_stash(ChangeLot{std::move(*changed)}, Requester::lot_words);
}

void shut(ShelfState& state) {
    state.card.clear();
    ImGui::CloseCurrentPopup();
}

// What was begun is let go at the second press only.
bool may_shut(ShelfState& state) {
    if (may_let_go(state.let_go_asked, draft_typed(state.draft))) return true;
    state.complaint =
        measure::Complaint{"what became of it is not written down yet", "press again to let it go"};
    return false;
}

void foot(const Ui& ui, const stash::Shelved& shelved, ShelfState& state) {
    complaint_line(ui, state.complaint);
    const bool escape = escape_leaves(ui);
    if ((button(ui, "Close##lot leave", Tone::plain, ui.px(110.0f)) || escape) && may_shut(state))
        return shut(state);
    const float put = ui.px(160.0f), weight = ui.px(110.0f);
    ImGui::SameLine(ImGui::GetContentRegionMax().x - put - weight - ui.px(6.0f));
    edit_text(ui, "bench weight", state.bench_weight, weight, "all of it");
    hover(ui, "How much of it goes into this batt. Empty: all there is.");
    ImGui::SameLine(0.0f, ui.px(6.0f));
    ImGui::BeginDisabled(shelved.grams <= 0.0);
    const bool pressed = button(ui, "Put on the bench##lot to bench", Tone::accent, put);
    ImGui::EndDisabled();
    if (!pressed) return;
    auto wanted = state.bench_weight.empty()
                      ? measure::Expected<measure::Mass>{measure::Mass{shelved.clean_grams(), {}}}
                      : parse_weight(state.bench_weight, ui.settings.mass);
    if (!wanted) {
        state.complaint = wanted.error();
        return;
    }
    ui.ask.act(LotToBench{shelved.lot.mark, *wanted});
    shut(state);
}

}  // namespace

void view_lot(const Ui& ui, ShelfState& state) {
    // A question in between takes its place on the screen, and no more than that.
    if (state.card.empty() || ui.question_stands) return;
    if (state.open_card || !ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId))
        ImGui::OpenPopup("lot card");
    state.open_card = false;
    const stash::Shelved* shelved = ui.stash.find(state.card);
    if (!begin_card(ui, "lot card", "", card_size(ui, {ui.px(860.0f), ui.px(690.0f)}, {0.0f, 400.0f})))
        return;
    if (shelved == nullptr) {
        shut(state);
        end_card();
        return;
    }
    take_answers(ui, state);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    draw_lot(ui, *ImGui::GetWindowDrawList(), at, {at.x + ui.px(84.0f), at.y + ui.px(48.0f)}, shelved->lot,
             ui.theme.edge);
    ImGui::SetCursorScreenPos({at.x + ui.px(96.0f), at.y});
    ImGui::BeginGroup();
    text_within(ui, ui.fonts.title, ui.theme.ink,
                std::string_view(shelved->lot.name).substr(0, most_title_bytes),
                ImGui::GetContentRegionAvail().x);
    text_within(ui, ui.fonts.small, ui.theme.quiet,
                shelved->lot.mark + " \u00b7 " + shortened(kinds_of(shelved->lot, ui.catalogue), 200),
                ImGui::GetContentRegionAvail().x);
    ImGui::EndGroup();
    gap(ui, 2.0f);
    const float low = ImGui::GetFrameHeight() + ui.fonts.body->FontSize + ui.px(26.0f);
    const float height = ImGui::GetContentRegionAvail().y - low;
    const float right = ui.px(372.0f), between = ui.px(18.0f);
    const bool stacked = !has_room(ui, 720.0f);
    if (stacked) begin_child("lot page", {0.0f, height});
    begin_column("words", {ImGui::GetContentRegionAvail().x - right - between, height}, stacked);
    words_of_lot(ui, *shelved, state);
    end_column(stacked);
    next_column(ui, between, stacked);
    begin_column("deeds", {right, height}, stacked);
    view_lot_actions(ui, *shelved, state, stacked);
    end_column(stacked);
    if (stacked) ImGui::EndChild();
    foot(ui, *shelved, state);
    end_card();
}

}  // namespace battwright::window
