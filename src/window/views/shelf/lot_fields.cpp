// What is known of a lot besides its weight, field by field.
#include <algorithm>
#include <cmath>
#include <utility>

#include "app/bench/shown_colours.hpp"
#include "app/settings.hpp"
#include "app/shelf/lot_edits.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "fibre/catalogue.hpp"
#include "recipe/tints.hpp"
#include "stash/date.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/shelf/shelf.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float words_column = 92.0f;  // design pixels

// Edits go into `lot`; `changed` says that there was one.
struct Fields {
    const Ui& ui;
    stash::Lot lot;
    LotFieldsState& state;
    std::optional<measure::Complaint>& complaint;
    bool changed = false;
    float room = 0.0f;  // from the left column to the right edge

    void edited() {
        changed = true;
        complaint.reset();
    }
    template <class T, class Parse>
    void optional(const std::string& label, std::optional<T>& value, const std::string& shown, float width,
                  const char* hint, const Parse& parse) {
        if (edit_optional(ui, label, value, shown, width, hint, parse,
                          [this](const measure::Complaint& trouble) { complaint = trouble; }))
            edited();
    }
};

void words_row(Fields& f, const char* name, const std::string& label, std::string& words, float width,
               const char* hint) {
    row_label(f.ui, name, words_column);
    if (edit_text(f.ui, label, words, width, hint)) f.edited();
}

void kinds(Fields& f) {
    const Ui& ui = f.ui;
    auto& content = f.lot.content;
    std::optional<std::size_t> dropped;
    const bool blend = content.size() > 1;
    const float share = ui.px(66.0f), cross = ImGui::GetFrameHeight(), space = ui.px(6.0f);
    for (std::size_t i = 0; i < content.size(); ++i) {
        row_label(ui, i == 0 ? "Kind" : "", words_column);
        ImGui::PushID(static_cast<int>(i));
        const auto number = std::to_string(i + 1);
        const fibre::Kind* kind = ui.catalogue.find(content[i].fibre);
        const float width = blend ? f.room - share - cross - 2.0f * space : f.room;
        const std::string name = kind != nullptr ? kind->name : shortened(content[i].fibre, 60);
        if (button(ui, cut_to(name, width - ui.px(24.0f)) + "##kind " + number, Tone::plain, width,
                   "Choose another kind")) {
            f.state.replaced = i;
            f.state.open_kinds = true;
        }
        if (blend) {
            ImGui::SameLine(0.0f, space);
            const auto typed =
                field(ui, "kind share " + number,
                      measure::write_percent(std::round(content[i].share_pct * 10.0) / 10.0), share);
            const auto percent = typed ? parse_share(*typed) : measure::Expected<double>{0.0};
            if (!percent) f.complaint = percent.error();
            if (typed && percent) {
                content = with_share(std::move(content), i, *percent);
                f.edited();
            }
            ImGui::SameLine(0.0f, space);
            if (button(ui, "\u00d7##drop kind " + number, Tone::plain, cross, "Not in it")) dropped = i;
        }
        ImGui::PopID();
    }
    if (dropped) {
        content = without_kind(std::move(content), *dropped);
        f.edited();
    }
    row_label(ui, content.empty() ? "Kind" : "", words_column);
    const char* label = content.empty() ? "Which kind of fibre?##add kind" : "Another kind in it##add kind";
    if (button(ui, label, content.empty() ? Tone::accent : Tone::plain, f.room)) {
        f.state.replaced.reset();
        f.state.open_kinds = true;
    }
}

void chosen_kind(Fields& f) {
    const auto* kind = choose_kind(f.ui, "lot kinds", "Which fibre?", f.state.search, f.state.open_kinds);
    if (kind == nullptr) return;
    auto& content = f.lot.content;
    const bool there = std::any_of(content.begin(), content.end(),
                                   [kind](const auto& entry) { return entry.fibre == kind->id; });
    if (there) return;
    if (f.state.replaced && *f.state.replaced < content.size())
        content[*f.state.replaced].fibre = kind->id;
    else
        content = with_kind(std::move(content), kind->id);
    f.edited();
}

void form_and_raw(Fields& f) {
    row_label(f.ui, "Form", words_column);
    const auto now = static_cast<std::size_t>(f.lot.form);
    if (const auto form = drop_down(f.ui, "lot form", stash::form_words(), now, f.ui.px(118.0f))) {
        f.lot.form = static_cast<stash::Form>(*form);
        f.edited();
    }
    ImGui::SameLine(0.0f, f.ui.px(10.0f));
    const stash::UsualYield usual = stash::usual_yield(f.lot.content, f.ui.catalogue);
    if (const auto raw = tick(f.ui, "lot raw", "raw", f.lot.raw)) {
        f.lot.raw = *raw;
        f.lot.yield_pct = *raw ? usual.middle_pct() : 100.0;
        f.edited();
    }
    hover(f.ui, "Unscoured: weighed with its grease and dirt. Only what scouring leaves goes on the drum.");
    if (!f.lot.raw) return;
    ImGui::SameLine(0.0f, f.ui.px(10.0f));
    const auto typed = field(f.ui, "lot yield", measure::write_percent(f.lot.yield_pct), f.ui.px(72.0f));
    hover(f.ui, "What scouring leaves of the weight. " + stash::yield_words(usual));
    if (!typed) return;
    const auto percent = parse_share(*typed);
    if (!percent) {
        f.complaint = percent.error();
        return;
    }
    f.lot.yield_pct = *percent;
    f.edited();
}

void palette(Fields& f) {
    const Ui& ui = f.ui;
    row_label(ui, "Colours", words_column);
    const float side = ui.px(36.0f);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (ImGui::InvisibleButton("lot palette", {2.0f * side, side})) ImGui::OpenPopup("lot colours");
    mark(ui, "lot colours");
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    hover(ui, "Change its colours.");
    draw_lot(ui, *ImGui::GetWindowDrawList(), at, {at.x + 2.0f * side, at.y + side}, f.lot,
             live ? ui.theme.accent : ui.theme.edge);
    ImGui::SameLine();
    ImGui::AlignTextToFramePadding();
    const std::size_t count = f.lot.palette.size();
    text_in(ui, ui.fonts.body, ui.theme.quiet,
            count == 0   ? "undyed"
            : count == 1 ? "one colour"
                         : std::to_string(count) + " colours");
    if (!ImGui::BeginPopup("lot colours")) return;
    auto shown = f.lot.palette;
    if (shown.empty()) {
        recipe::Component bare;
        bare.content = f.lot.content;
        shown = {{shown_colours(bare, ui.catalogue).colours.front(), 100.0}};
    }
    if (const auto edit = view_palette(ui, shown, f.state.tint)) {
        f.lot.palette = closed(edit->palette);
        f.edited();
    }
    if (count > 0 && button(ui, "Leave it undyed##lot undyed", Tone::plain, ui.px(250.0f),
                            "Use the fibre's natural colour")) {
        f.lot.palette.clear();
        f.edited();
    }
    ImGui::EndPopup();
}

void cost_and_day(Fields& f) {
    const float half = 0.5f * (f.room - f.ui.px(44.0f));
    row_label(f.ui, "Cost", words_column);
    const auto money = [&](const std::string& typed) { return parse_money(typed, f.ui.settings.currency); };
    const char* hint = f.ui.settings.currency.empty() ? "24.50" : "in all";
    f.optional("lot cost", f.lot.cost, f.lot.cost ? print_money(*f.lot.cost) : "", half, hint, money);
    hover(f.ui, "Of the whole as first bought, in your own money. Empty: nobody knows.");
    ImGui::SameLine(0.0f, f.ui.px(10.0f));
    text_in(f.ui, f.ui.fonts.body, f.ui.theme.quiet, "got");
    ImGui::SameLine();
    if (edit_text(f.ui, "lot got on", f.lot.got_on, ImGui::GetContentRegionAvail().x, "2024-05-17"))
        f.edited();
}

void staple_and_diameter(Fields& f) {
    const float half = 0.5f * (f.room - f.ui.px(56.0f));
    const auto tag = [&](const std::string& label, std::optional<double>& figure, const std::string& shown,
                         float width, const auto& parse) {
        f.optional(label, figure, shown, width, "as usual", parse);
        hover(f.ui, "The tag's own figure. Empty: the catalogue's.");
    };
    row_label(f.ui, "Staple", words_column);
    const auto millimetres = [](const std::string& typed) {
        return measure::parse_length(typed).map(
            [](const measure::Length& length) { return length.millimetres; });
    };
    tag("lot staple", f.lot.staple_mm,
        f.lot.staple_mm ? measure::print_length(*f.lot.staple_mm, f.ui.settings.length) : "", half,
        millimetres);
    ImGui::SameLine(0.0f, f.ui.px(10.0f));
    text_in(f.ui, f.ui.fonts.body, f.ui.theme.quiet, "thick");
    ImGui::SameLine();
    tag("lot diameter", f.lot.diameter_um,
        f.lot.diameter_um ? measure::write_diameter(*f.lot.diameter_um) : "",
        ImGui::GetContentRegionAvail().x, measure::parse_diameter_micrometres);
}

void notes(Fields& f) {
    row_label(f.ui, "Notes", words_column);
    if (auto typed = text_box(f.ui, "lot notes", f.lot.notes, {f.room, f.ui.px(58.0f)})) {
        f.lot.notes = std::move(*typed);
        f.edited();
    }
}

}  // namespace

std::optional<stash::Lot> view_lot_fields(const Ui& ui, const stash::Lot& lot, LotFieldsState& state,
                                          std::optional<measure::Complaint>& complaint) {
    const float room = ImGui::GetContentRegionAvail().x - ui.px(words_column);
    Fields f{ui, lot, state, complaint, false, room};
    words_row(f, "Name", "lot name", f.lot.name, room, "as on the bag");
    kinds(f);
    chosen_kind(f);
    form_and_raw(f);
    palette(f);
    words_row(f, "Maker", "lot maker", f.lot.maker, room, "who grew, dyed or sold it");
    words_row(f, "Place", "lot place", f.lot.place, room, "where the bag lies");
    cost_and_day(f);
    staple_and_diameter(f);
    notes(f);
    if (!f.changed) return std::nullopt;
    return std::move(f.lot);
}

}  // namespace battwright::window
