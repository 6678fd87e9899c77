// Something comes to the shelf.

#include <utility>

#include "app/browse/browser.hpp"
#include "app/browse/file_kinds.hpp"
#include "app/half_typed.hpp"
#include "app/settings.hpp"
#include "app/shelf/lot_edits.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/shelf/stash_requests.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/shelf/shelf.hpp"

namespace battwright::window {
namespace {

void begin(ShelfState& state) {
    state.fresh = stash::Lot{};
    state.fresh_weight.clear();
    state.fields = LotFieldsState{};
    state.photo = LotPhotoState{};
    state.complaint.reset();
    state.let_go_asked.clear();
}

void weight_row(const Ui& ui, ShelfState& state) {
    row_label(ui, "Weight", 92.0f);
    edit_text(ui, "new weight", state.fresh_weight, ui.px(118.0f),
              example_of(ui.settings.mass, "e.g. 182 g", "e.g. 6.4 oz"));
    hover(ui, "As it lies, with its grease when it is raw.");
    ImGui::SameLine(0.0f, ui.px(10.0f));
    if (button(ui, "Colours from a photo\u2026##lot photo", Tone::plain, ImGui::GetContentRegionAvail().x,
               "Read its colours off a photo of it"))
        ImGui::OpenPopup("lot photo");
    ui.ask.takers.push_back({"new lot photo", FileKind::photo});
    if (const auto dropped = ui.files.chosen_for("new lot photo")) {
        ui.ask.photos.push_back({PhotoOf::new_lot, dropped->string()});
        ImGui::OpenPopup("lot photo");
    }
    if (auto palette = view_lot_photo(ui, state.photo)) {
        state.fresh.palette = std::move(*palette);
        state.fresh.photo = state.photo.path;
    }
}

void put_it(const Ui& ui, ShelfState& state) {
    state.complaint.reset();
    const auto weight = parse_weight(state.fresh_weight, ui.settings.mass);
    if (!weight) {
        state.complaint = weight.error();
        return;
    }
    stash::Lot lot = state.fresh;
    // A bag whose owner has no name for it goes by what is in it.
    if (lot.name.empty()) lot.name = shortened(kinds_of(lot, ui.catalogue), 120);
    ui.ask.of_stash(AddLot{std::move(lot), weight->grams, {}}, Requester::new_lot);
}

// What was begun is let go at the second press only.
bool may_leave(ShelfState& state) {
    if (may_let_go(state.let_go_asked, typed_in(state.fresh, state.fresh_weight))) return true;
    state.complaint = measure::Complaint{"this lot is not on the shelf yet", "press again to let it go"};
    return false;
}

}  // namespace

void view_new_lot(const Ui& ui, ShelfState& state) {
    if (state.open_new) {
        begin(state);
        state.adding = true;
    }
    state.open_new = false;
    // A question in between takes its place on the screen, and no more than that.
    if (!state.adding || ui.question_stands) return;
    if (!ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopupId)) ImGui::OpenPopup("new lot");
    if (!begin_card(ui, "new lot", "Put something on the shelf",
                    card_size(ui, {ui.px(520.0f), ui.px(650.0f)}, {0.0f, 400.0f})))
        return;
    bool leave = false;
    if (const auto* answer = ui.answer_to(Requester::new_lot)) {
        state.complaint = answer->complaint;
        leave = !answer->complaint;
    }
    const float low = ImGui::GetFrameHeight() + ui.fonts.body->FontSize + ui.px(26.0f);
    begin_child("new words", {0.0f, ImGui::GetContentRegionAvail().y - low});
    weight_row(ui, state);
    if (auto changed = view_lot_fields(ui, state.fresh, state.fields, state.complaint))
        state.fresh = std::move(*changed);
    ImGui::EndChild();
    complaint_line(ui, state.complaint);
    const bool escape = escape_leaves(ui);
    if (button(ui, "Put it there##new lot do", Tone::accent, ui.px(140.0f))) put_it(ui, state);
    ImGui::SameLine();
    if (button(ui, "Not now##new lot leave", Tone::plain, ui.px(110.0f)) || escape)
        leave = leave || may_leave(state);
    if (leave) {
        state.adding = false;
        ImGui::CloseCurrentPopup();
    }
    end_card();
}

}  // namespace battwright::window
