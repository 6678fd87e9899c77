// What of the shelf is shown: by words, kind, form, weight, age, and nearness to a colour.
#include <algorithm>
#include <array>
#include <cmath>

#include "app/bench/outcome.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"
#include "colour/spaces.hpp"
#include "fibre/catalogue.hpp"
#include "stash/date.hpp"
#include "window/kit/palette.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/shelf/shelf.hpp"
#include "window/views/views.hpp"

#include <imgui_stdlib.h>
#include <utility>

namespace battwright::window {
namespace {

constexpr float left_column = 92.0f;  // design pixels

void kind_row(const Ui& ui, ShelfChoice& choice, bool& changed, ShelfState& state) {
    row_label(ui, "Kind", left_column);
    const fibre::Kind* kind = ui.catalogue.find(choice.filter.kind);
    const std::string label = choice.filter.kind.empty() ? "any" : kind != nullptr ? kind->name : "another";
    ImGui::PushID("kind");
    if (button(ui, cut_to(label, ui.px(190.0f)) + "##filter kind", Tone::plain, ui.px(210.0f)))
        state.open_filter_kinds = true;
    ImGui::PopID();
    if (!choice.filter.kind.empty()) {
        ImGui::SameLine();
        if (button(ui, "Any##any kind")) {
            choice.filter.kind.clear();
            changed = true;
        }
    }
    const auto* chosen =
        choose_kind(ui, "filter kinds", "Which fibre?", state.search_kind, state.open_filter_kinds);
    if (chosen == nullptr) return;
    choice.filter.kind = chosen->id;
    changed = true;
}

void form_row(const Ui& ui, ShelfChoice& choice, bool& changed) {
    row_label(ui, "Form", left_column);
    std::vector<std::string> words{"any"};
    for (const auto& word : stash::form_words()) words.push_back(word);
    const std::size_t now = choice.filter.form ? static_cast<std::size_t>(*choice.filter.form) + 1 : 0;
    const auto chosen = drop_down(ui, "filter form", words, now, ui.px(210.0f));
    if (!chosen) return;
    choice.filter.form.reset();
    if (*chosen > 0) choice.filter.form = static_cast<stash::Form>(*chosen - 1);
    changed = true;
}

void weight_field(const Ui& ui, const std::string& label, std::optional<double>& grams, bool& changed) {
    const std::string shown = grams ? measure::print_mass(*grams, ui.settings.mass) : "";
    const auto grams_typed = [&](const std::string& typed) {
        return parse_weight(typed, ui.settings.mass).map([](const measure::Mass& mass) {
            return mass.grams;
        });
    };
    changed |= edit_optional(ui, label, grams, shown, ui.px(88.0f), "any", grams_typed);
}

void date_field(const Ui& ui, const std::string& label, std::string& date, bool& changed) {
    const auto typed = field(ui, label, date, ui.px(108.0f), "any day");
    hover(ui, "A day such as 2024-05-17.");
    if (!typed) return;
    if (!typed->empty()) {
        if (const auto day = stash::parse_date(*typed); !day) {
            refuse(ui, day.error());
            return;
        }
    }
    date = *typed;
    changed = true;
}

void weight_and_age_rows(const Ui& ui, ShelfChoice& choice, bool& changed) {
    row_label(ui, "Weight", left_column);
    weight_field(ui, "filter from", choice.filter.at_least_grams, changed);
    ImGui::SameLine();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "to");
    ImGui::SameLine();
    weight_field(ui, "filter to", choice.filter.at_most_grams, changed);
    row_label(ui, "Age", left_column);
    const auto today = stash::parse_date(stash::today());
    if (!today) return;
    const auto age = age_of(choice.filter, *today);
    const std::size_t now = age ? static_cast<std::size_t>(*age) : 99;
    if (const auto chosen = choices(ui, "age", {"any", "under 1 y", "1 to 3 y", "over 3 y"}, now)) {
        choice.filter = with_age(std::move(choice.filter), static_cast<Age>(*chosen), *today);
        changed = true;
    }
    row_label(ui, "Got", left_column);
    date_field(ui, "got from", choice.filter.got_from, changed);
    ImGui::SameLine();
    text_in(ui, ui.fonts.body, ui.theme.quiet, "to");
    ImGui::SameLine();
    date_field(ui, "got to", choice.filter.got_to, changed);
}

void order_row(const Ui& ui, ShelfChoice& choice, bool& changed) {
    row_label(ui, "Order", left_column);
    std::vector<std::string> words;
    for (const auto& row : stash::orders)
        if (row.value != stash::Order::nearest || choice.filter.near) words.emplace_back(row.label);
    const std::size_t now = std::min(static_cast<std::size_t>(choice.order), words.size() - 1);
    if (const auto chosen = drop_down(ui, "shelf order", words, now, ui.px(210.0f))) {
        choice.order = static_cast<stash::Order>(*chosen);
        changed = true;
    }
    row_label(ui, "", left_column);
    changed |= edit_tick(ui, "show empties", "what is used up too", choice.filter.empties);
}

void conditions_popup(const Ui& ui, ShelfState& state) {
    ImGui::SetNextWindowSize({ui.px(436.0f), 0.0f});
    if (!ImGui::BeginPopup("shelf filter")) return;
    ShelfChoice choice = ui.stash.choice();
    bool changed = false;
    kind_row(ui, choice, changed, state);
    form_row(ui, choice, changed);
    weight_and_age_rows(ui, choice, changed);
    order_row(ui, choice, changed);
    gap(ui, 2.0f);
    if (button(ui, "Show all lots##clear filter", Tone::plain, ui.px(150.0f))) {
        choice = without_conditions(std::move(choice));
        choice.order = stash::Order::as_added;
        changed = true;
    }
    ImGui::SameLine();
    if (button(ui, "Done##filter done", Tone::accent, ui.px(110.0f))) ImGui::CloseCurrentPopup();
    if (changed) ui.ask.act(ChooseShelf{std::move(choice)});
    ImGui::EndPopup();
}

colour::Srgb colour_asked_for(const ShelfChoice& choice) {
    if (!choice.filter.near) return {0.36, 0.52, 0.6};
    return colour::clipped(colour::srgb_from(choice.filter.near->colour));
}

void how_near(const Ui& ui, ShelfChoice& choice, bool& changed) {
    if (!choice.filter.near) return;
    beside(ui, "Within");
    hover(ui, "Difference of colour by CIEDE2000: 1 is barely seen, 5 is plain, 10 is another colour.");
    ImGui::SameLine(ui.px(64.0f));
    const auto typed =
        field(ui, "colour within", measure::write_number(choice.filter.near->most_de00), ui.px(60.0f));
    if (typed) {
        const auto value = measure::parse_parts(*typed);
        if (value && *value > 0.0) {
            choice.filter.near->most_de00 = *value;
            changed = true;
        } else {
            refuse(ui, {"a difference of colour is a number above zero", "type such as 10", "within"});
        }
    }
    ImGui::SameLine();
    changed |= edit_tick(ui, "any tint", "any colour in it", choice.filter.near->any_tint);
    hover(ui, "Counts the nearest of a lot's colours, not the mean of them.");
}

void colour_popup(const Ui& ui, const Outcome& outcome, ShelfState& state) {
    if (!ImGui::BeginPopup("near colour")) return;
    ShelfChoice choice = ui.stash.choice();
    bool changed = false;
    const auto look_for = [&](const colour::Srgb& colour) {
        choice = near_to(std::move(choice), colour);
        changed = true;
    };
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Near a colour");
    if (const auto edit = view_one_colour(ui, colour_asked_for(choice))) look_for(edit->colour);
    how_near(ui, choice, changed);
    const float width = ui.px(250.0f);
    if (button(ui, "From a photo\u2026##near from photo", Tone::plain, width)) ImGui::OpenPopup("photo card");
    if (const auto picked = view_one_pick(ui, state.picks, PhotoOf::shelf_filter)) look_for(*picked);
    if (outcome.forecast &&
        button(ui, "The batt's own colour##near the batt", Tone::plain, width, "As forecast on the right"))
        look_for(outcome.forecast->colour.srgb);
    if (choice.filter.near && button(ui, "Any colour##near nothing", Tone::plain, width)) {
        choice = near_nothing(std::move(choice));
        changed = true;
        ImGui::CloseCurrentPopup();
    }
    if (changed) ui.ask.act(ChooseShelf{std::move(choice)});
    ImGui::EndPopup();
}

// A square in the colour that is looked for, or a round of several when none is.
void colour_button(const Ui& ui) {
    const float side = ImGui::GetFrameHeight();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (ImGui::InvisibleButton("near colour button", {side, side})) ImGui::OpenPopup("near colour");
    mark(ui, "near colour");
    const bool live = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    hover(ui, "Look for a colour: from the wheel, a photo or the batt.");
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 high{at.x + side, at.y + side};
    const auto& near = ui.stash.choice().filter.near;
    list.AddRectFilled(at, high, u32(live ? ui.theme.hover : ui.theme.raised), ui.px(7.0f));
    const ImVec2 c{at.x + 0.5f * side, at.y + 0.5f * side};
    if (near) {
        list.AddCircleFilled(c, 0.34f * side, u32(colour_asked_for(ui.stash.choice())), 32);
    } else {
        constexpr int slices = 12;
        for (int k = 0; k < slices; ++k) {
            const float turn = 6.2831853f / slices;
            ImVec4 hue{0.0f, 0.0f, 0.0f, 1.0f};
            ImGui::ColorConvertHSVtoRGB(static_cast<float>(k) / slices, 0.55f, 0.8f, hue.x, hue.y, hue.z);
            list.PathLineTo(c);
            list.PathArcTo(c, 0.34f * side, turn * static_cast<float>(k), turn * static_cast<float>(k + 1),
                           4);
            list.PathFillConvex(ImGui::ColorConvertFloat4ToU32(hue));
        }
    }
    list.AddRect(at, high, u32(near ? ui.theme.accent : ui.theme.edge), ui.px(7.0f), 0,
                 ui.px(near ? 2.0f : 1.0f));
}

}  // namespace

void view_shelf_choice(const Ui& ui, const Outcome& outcome, ShelfState& state) {
    const float filter_width = ui.px(80.0f), side = ImGui::GetFrameHeight(), space = ui.px(6.0f);
    std::string words = ui.stash.choice().filter.text;
    ImGui::SetNextItemWidth(ImGui::GetContentRegionAvail().x - filter_width - side - 2.0f * space);
    if (ImGui::InputTextWithHint("##search the shelf", "name, maker, place, mark, kind", &words,
                                 ImGuiInputTextFlags_AutoSelectAll)) {
        ShelfChoice choice = ui.stash.choice();
        choice.filter.text = words;
        ui.ask.act(ChooseShelf{std::move(choice)});
    }
    mark(ui, "search the shelf");
    ImGui::SameLine(0.0f, space);
    colour_button(ui);
    colour_popup(ui, outcome, state);
    ImGui::SameLine(0.0f, space);
    const std::string asked = conditions(ui.stash.choice(), ui.catalogue, ui.settings.mass);
    if (button(ui, "Filter##shelf filter button", asked.empty() ? Tone::plain : Tone::on, filter_width,
               "Kind, form, weight, age, order"))
        ImGui::OpenPopup("shelf filter");
    conditions_popup(ui, state);
    if (asked.empty()) return;
    ImGui::AlignTextToFramePadding();
    const float clear = ui.px(64.0f);
    text_within(ui, ui.fonts.small, ui.theme.quiet, asked,
                ImGui::GetContentRegionAvail().x - clear - ui.px(8.0f));
    ImGui::SameLine(ImGui::GetContentRegionMax().x - clear);
    if (button(ui, "Clear##clear conditions", Tone::plain, clear))
        ui.ask.act(ChooseShelf{without_conditions(ui.stash.choice())});
}

}  // namespace battwright::window
