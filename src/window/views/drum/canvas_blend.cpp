// A small blend made on the canvas: its name, how much of what, and how often it is carded by itself.
#include <algorithm>

#include "app/lay/small_blend.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "window/views/drum/canvas.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float blend_column = 76.0f, part_column = 190.0f, part_field = 84.0f;  // design pixels
constexpr std::size_t most_parts_shown = 6;
const char* const maker_id = "small blend";

void part_row(OnCanvas& on, std::size_t index) {
    const Ui& ui = on.ui;
    const Tile& tile = on.listed.tiles[index];
    std::string& weight = on.state.blend.weights[index];
    ImGui::AlignTextToFramePadding();
    text_within(ui, ui.fonts.body, ui.theme.ink, tile_name(on, tile), ui.px(part_column - 8.0f));
    ImGui::SameLine(ui.px(part_column));
    const auto typed =
        field(ui, "blend part " + std::to_string(index + 1), weight, ui.px(part_field), "none");
    if (typed) {
        const auto read = typed->empty() ? measure::Expected<measure::Mass>{measure::Mass{}}
                                         : parse_weight(*typed, ui.settings.mass);
        if (!read || read->grams < 0.0)
            refuse(ui, read ? measure::Complaint{"it cannot weigh less than nothing",
                                                 "write a weight such as " + mass(ui, 2.0)}
                            : read.error());
        else
            weight = typed->empty() ? "" : measure::print_mass(read->grams, ui.settings.mass);
    }
    ImGui::SameLine();
    text_in(ui, ui.fonts.small, ui.theme.quiet,
            mass(ui, tile.left / static_cast<double>(on.batts)) + " left");
}

std::vector<BlendPart> blend_parts(const OnCanvas& on) {
    std::vector<BlendPart> parts;
    for (std::size_t i = 0; i < on.listed.tiles.size(); ++i) {
        const auto weight = parse_weight(on.state.blend.weights[i], on.ui.settings.mass);
        if (weight && weight->grams > 0.0)
            parts.push_back({on.listed.tiles[i].what, on.listed.tiles[i].colour, *weight});
    }
    return parts;
}

// True once it is made.
bool blend_it(OnCanvas& on) {
    BlendDraft& draft = on.state.blend;
    const auto parts = blend_parts(on);
    auto fault = bad_blend_name(on.sheet(), draft.name);
    if (!fault && parts.empty())
        fault = measure::Complaint{"nothing is in it yet", "write how much of a fibre goes into it"};
    draft.complaint = fault ? measure::to_line(*fault) : "";
    if (fault) return false;
    const std::string name = draft.name;
    on.take(make_blend(on.sheet(), name, parts, draft.passes, on.batts), "make a small blend");
    on.canvas.brush.what = name;
    on.canvas.brush.colour.reset();
    draft = {};
    return true;
}

void maker(OnCanvas& on) {
    on.state.blend.open = ImGui::BeginPopup(maker_id);
    if (!on.state.blend.open) return;
    const Ui& ui = on.ui;
    BlendDraft& draft = on.state.blend;
    draft.weights.resize(on.listed.tiles.size());
    text_in(ui, ui.fonts.bold, ui.theme.ink, "A small blend");
    const float wide = ui.px(part_column + part_field + 90.0f);
    paragraph(ui,
              "Carded by itself first, then laid like a fibre." +
                  std::string(on.batts > 1 ? " The weights are for each batt." : ""),
              ui.theme.quiet, wide);
    row_label(ui, "Name", blend_column);
    if (edit_text(ui, "blend name", draft.name, ui.px(200.0f), "first light")) draft.complaint.clear();
    const std::size_t rows = std::min(on.listed.tiles.size(), most_parts_shown);
    begin_child("blend parts", {wide, static_cast<float>(rows) * ImGui::GetFrameHeightWithSpacing()}, false,
                ImGuiWindowFlags_NavFlattened);
    for (std::size_t i = 0; i < on.listed.tiles.size(); ++i) part_row(on, i);
    ImGui::EndChild();
    row_label(ui, "Carded", blend_column);
    edit_count(ui, "blend passes", draft.passes, 1, recipe::most_passes);
    ImGui::SameLine();
    beside(ui, draft.passes == 1 ? "time" : "times");
    if (!draft.complaint.empty()) {
        paragraph(ui, draft.complaint, ui.theme.spoils, wide);
        mark_words(ui, "blend complaint");
    }
    if (button(ui, "Blend it", Tone::accent, ui.px(110.0f)) && blend_it(on)) ImGui::CloseCurrentPopup();
    ImGui::EndPopup();
}

}  // namespace

void view_blend_maker(OnCanvas& on) {
    const Ui& ui = on.ui;
    if (button(ui, "Small blend\u2026##make a blend", Tone::plain, ui.px(122.0f),
               "Some of these fibres carded together first: the blend becomes a tile of its own."))
        ImGui::OpenPopup(maker_id);
    maker(on);
    const Tile* tile = tile_of(on.listed.tiles, on.canvas.brush);
    if (tile == nullptr || !tile->is_blend) return;
    beside_or_below(ui, 6.0f, ui.px(104.0f));
    if (!button(ui, "Take apart##blend apart", Tone::plain, ui.px(104.0f),
                "The small blend is not made: its strokes are taken off, and its fibre goes back."))
        return;
    on.take(take_blend_apart(on.sheet(), std::string(tile->what)), "take a small blend apart");
    on.canvas.chosen.clear();
}

}  // namespace battwright::window
