// A skein's colours off its photo, beside what was foretold.
#include "app/look.hpp"
#include "app/record/record_session.hpp"
#include "colour/spaces.hpp"
#include "measure/units.hpp"
#include "recipe/tints.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

// Side by side, each as wide as its share.
void bar_of(const Ui& ui, const std::vector<recipe::Tint>& palette, float width) {
    const float height = ImGui::GetFrameHeight();
    ImVec2 at = ImGui::GetCursorScreenPos();
    for (const recipe::Tint& tint : palette) {
        const float part = 0.01f * static_cast<float>(tint.share_pct) * width;
        ImGui::GetWindowDrawList()->AddRectFilled(at, {at.x + part, at.y + height}, u32(tint.colour));
        at.x += part;
    }
    ImGui::Dummy({width, height});
    mark(ui, "skein colours");
}

void beside_forecast(const Ui& ui, const RecordState& state) {
    const auto pair = skein_beside(state.form, ui.record.book(), ui.look.light);
    if (!pair) return;
    record_row(ui, "");
    const float width = ImGui::GetContentRegionAvail().x, height = ImGui::GetFrameHeight();
    view_two_colours(ui, "skein beside", *pair, {width, height});
    hover(ui, "Left the skein's mean colour, right what its batts foretold. About 1 is just seen.");
    record_row(ui, "");
    text_within(
        ui, ui.fonts.small, ui.theme.quiet,
        "left the skein, right foretold: " + measure::print_number(pair->apart_de00, 1) + " CIEDE2000 apart",
        width);
}

}  // namespace

void view_skein_colours(const Ui& ui, RecordState& state) {
    SkeinForm& form = state.form;
    record_row(ui, "Colours");
    if (!form.palette.empty()) {
        const float drop = ui.px(36.0f);
        bar_of(ui, form.palette, ImGui::GetContentRegionAvail().x - drop - ui.px(6.0f));
        ImGui::SameLine(0.0f, ui.px(6.0f));
        if (button(ui, "\u00d7##no skein colours", Tone::plain, drop, "Without its colours"))
            form.palette.clear();
        beside_forecast(ui, state);
        record_row(ui, "");
    }
    if (button(
            ui, "Pick them off the photo\u2026##pick skein colours", Tone::plain,
            ImGui::GetContentRegionAvail().x,
            "Kept with the skein, held beside the forecast, and what \u201cWhat was this?\u201d goes by")) {
        state.colours = {};
        if (!form.photo.empty()) ui.ask.photos.push_back({PhotoOf::skein_colours, form.photo});
        ImGui::OpenPopup("photo card");
    }
    const auto picked = view_some_picks(ui, state.colours, PhotoOf::skein_colours,
                                        {"The skein's colours from its photo", most_picks});
    if (!picked) return;
    form.palette = recipe::even_palette(*picked);
    if (form.photo.empty()) form.photo = state.colours.path;
}

}  // namespace battwright::window
