// What the tag says about a component, and what can be done with it as a whole.
#include <algorithm>
#include <utility>

#include "app/bench/disagreement.hpp"
#include "app/bench/edits.hpp"
#include "app/bench/sheet.hpp"
#include "app/settings.hpp"
#include "fibre/catalogue.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

using recipe::Component;

Sheet with(Sheet sheet, std::size_t index, Component component) {
    sheet.recipe.components[index] = std::move(component);
    return sheet;
}

void name_and_notes(const Ui& ui, const Sheet& sheet, std::size_t index) {
    Component component = sheet.recipe.components[index];
    row_label(ui, "Your name", 120.0f);
    if (edit_text(ui, "component name", component.name, ui.px(260.0f), "as on the bag"))
        ui.ask.edit(with(sheet, index, component), "name a component");
    row_label(ui, "Notes", 120.0f);
    if (edit_text(ui, "component notes", component.notes, ui.px(260.0f), "anything to remember"))
        ui.ask.edit(with(sheet, index, component), "write a note");
}

// A figure of the tag, which beats the catalogue's.
template <class T, class Parse>
void tag_field(const Ui& ui, const Sheet& sheet, std::size_t index, const char* words,
               const std::string& label, std::optional<T> Component::*figure, const std::string& shown,
               float width, const char* hint, const Parse& parse, const char* meaning, const char* what) {
    Component component = sheet.recipe.components[index];
    row_label(ui, words, 120.0f);
    const bool edited = edit_optional(ui, label, component.*figure, shown, ui.px(width), hint, parse);
    hover(ui, meaning);
    if (edited) ui.ask.edit(with(sheet, index, component), what);
}

void tag_fields(const Ui& ui, const Sheet& sheet, std::size_t index) {
    const Component& now = sheet.recipe.components[index];
    tag_field(ui, sheet, index, "A pulled lock", "component staple", &Component::staple,
              now.staple ? measure::write_length(*now.staple) : "", 120.0f, "as usual", measure::parse_length,
              "The length of a pulled lock, laid on a ruler, such as 95 mm or 3 3/4 in; the fibres in it are "
              "shorter on average. Empty: the catalogue's.",
              "set the staple");
    tag_field(ui, sheet, index, "Diameter", "component diameter", &Component::diameter_um,
              now.diameter_um ? measure::write_diameter(*now.diameter_um) : "", 120.0f, "as usual",
              measure::parse_diameter_micrometres,
              "The tag's own fineness, such as 21 um (microns). Empty: the catalogue's.", "set the diameter");
    tag_field(
        ui, sheet, index, "Price", "component price", &Component::price,
        now.price ? recipe::write_price(*now.price) : "", 180.0f,
        example_of(ui.settings.mass, "e.g. 6.50 per 100 g", "e.g. 1.80 per oz"), recipe::parse_price,
        "What it cost, in your own money, with the weight it is for. Variants then show what they cost.",
        "set the price");
}

void pass_choice(const Ui& ui, const Sheet& sheet, std::size_t index) {
    Component component = sheet.recipe.components[index];
    row_label(ui, "Goes in", 120.0f);
    const bool last = component.add_on_pass == recipe::last_pass;
    const auto chosen = choices(ui, "added", {"at the start", "on the last pass"}, last ? 1 : 0);
    if (!chosen) return;
    component.add_on_pass = *chosen == 1 ? recipe::last_pass : 1;
    ui.ask.edit(with(sheet, index, component), "choose when it goes in");
}

// What labels ask of a fibre that was spun or worn before.
void past_choice(const Ui& ui, const Sheet& sheet, std::size_t index) {
    Component component = sheet.recipe.components[index];
    row_label(ui, "Spun before", 120.0f);
    std::vector<std::string> words{"as its kind is"};
    for (const std::string& word : fibre::past_words()) words.push_back(word);
    const std::size_t now = component.reclaimed
                                ? static_cast<std::size_t>(std::find(words.begin() + 1, words.end(),
                                                                     fibre::word_for(*component.reclaimed)) -
                                                           words.begin())
                                : 0;
    const auto chosen = drop_down(ui, "component past", words, now, ui.px(180.0f));
    hover(ui,
          "Was it spun before (yarn), or felted, woven or worn (cloth)? A content label has to say so, and "
          "none of it is new wool.");
    if (!chosen) return;
    component.reclaimed = *chosen == 0 ? std::nullopt : fibre::past_from(words[*chosen]);
    ui.ask.edit(with(sheet, index, component), "say what it was before");
}

// How sure its colour is.
void colour_choice(const Ui& ui, const Sheet& sheet, std::size_t index) {
    Component component = sheet.recipe.components[index];
    if (component.palette.empty()) return;
    row_label(ui, "Colour by", 120.0f);
    std::vector<std::string> words{"not said"};
    for (const auto& row : recipe::colour_origins) words.emplace_back(row.word);
    const std::size_t now = component.colour_from ? static_cast<std::size_t>(*component.colour_from) + 1 : 0;
    const auto chosen = drop_down(ui, "component colour from", words, now, ui.px(180.0f));
    hover(
        ui,
        "Where its colour was taken from: by eye on a screen, a photo, a tag or dye card, or measured on the "
        "fibre. It says how far the blend may be off.");
    if (!chosen) return;
    component.colour_from =
        *chosen == 0 ? std::nullopt : std::optional(recipe::colour_origins[*chosen - 1].value);
    ui.ask.edit(with(sheet, index, component), "say where its colour is from");
}

void fibres(const Ui& ui, const Sheet& sheet, std::size_t index) {
    for (const auto& content : sheet.recipe.components[index].content) {
        row_label(ui, "Fibre", 120.0f);
        const fibre::Kind* kind = ui.catalogue.find(content.fibre);
        std::string words = kind != nullptr ? kind->name : content.fibre;
        if (content.share_pct < 100.0) words += ", " + measure::print_percent(content.share_pct);
        if (kind != nullptr)
            words += " (" + measure::print_length(kind->staple_mm, ui.settings.length) + ", " +
                     print_diameter(kind->diameter_um) + ")";
        text(ui, words);
    }
}

void whole_component(const Ui& ui, const Sheet& sheet, std::size_t index) {
    const float width = ui.px(118.0f);
    if (button(ui, "Split in two", Tone::plain, width,
               "Duplicate it: two components of half the weight each (Ctrl+D)"))
        ui.ask.edit(duplicate(sheet, index), "split a component");
    ImGui::SameLine();
    ImGui::BeginDisabled(index == 0);
    if (button(ui, "Feed sooner", Tone::plain, width))
        ui.ask.edit(reorder(sheet, index, index - 1), "change the order");
    ImGui::EndDisabled();
    ImGui::SameLine();
    ImGui::BeginDisabled(index + 1 >= sheet.marks.size());
    if (button(ui, "Feed later", Tone::plain, width))
        ui.ask.edit(reorder(sheet, index, index + 1), "change the order");
    ImGui::EndDisabled();
    if (button(ui, "Remove it", Tone::plain, width)) {
        ui.ask.edit(remove(sheet, index), "remove a component");
        ImGui::CloseCurrentPopup();
    }
}

}  // namespace

void view_details(const Ui& ui, const Sheet& sheet, std::size_t index) {
    ImGui::SetNextWindowSize({ui.px(424.0f), 0.0f});
    if (!ImGui::BeginPopup("details")) return;
    text_in(ui, ui.fonts.title, ui.theme.ink,
            cut_to(label_of(sheet.recipe.components[index], ui.catalogue), ui.px(300.0f)));
    name_and_notes(ui, sheet, index);
    fibres(ui, sheet, index);
    tag_fields(ui, sheet, index);
    pass_choice(ui, sheet, index);
    past_choice(ui, sheet, index);
    colour_choice(ui, sheet, index);
    gap(ui, 4.0f);
    whole_component(ui, sheet, index);
    ImGui::EndPopup();
}

}  // namespace battwright::window
