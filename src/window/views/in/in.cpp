#include <algorithm>

#include "app/bench/bench_actions.hpp"
#include "app/bench/disagreement.hpp"
#include "app/bench/edits.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "fibre/catalogue.hpp"
#include "recipe/file_name.hpp"
#include "text/words.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/in/in.hpp"
#include "window/views/shelf/shelf.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

void total_field(const Ui& ui, const Sheet& sheet, const Outcome& outcome) {
    const float width = ui.px(96.0f);
    ImGui::SameLine(ImGui::GetContentRegionMax().x - width - ui.px(46.0f));
    beside(ui, "total");
    ImGui::SameLine(0.0f, ui.px(8.0f));
    std::string shown;
    if (sheet.recipe.total && sheet.recipe.total->unit == ui.settings.mass)
        shown = measure::write_mass(*sheet.recipe.total);
    else if (outcome.forecast)
        shown = measure::print_mass(outcome.forecast->total_grams, ui.settings.mass);
    const auto typed =
        field(ui, "total", shown, width, example_of(ui.settings.mass, "e.g. 70 g", "e.g. 2.5 oz"));
    hover(ui,
          "The weight of the whole batt. Once typed it holds: whatever else you change, the rest gives way. "
          "Empty it and the total follows again.");
    if (!typed) return;
    if (text::is_blank(*typed)) {
        ui.ask.edit(free_total(sheet), "let the total follow");
        return;
    }
    const auto mass = parse_weight(*typed, ui.settings.mass);
    if (!mass) {
        refuse(ui, mass.error());
    } else if (mass->grams <= 0.0) {
        refuse(ui,
               {"the total must be more than nothing",
                example_of(ui.settings.mass, "type a weight such as 70 g", "type a weight such as 2.5 oz")});
    } else {
        ui.ask.edit(set_total(sheet, *mass), "set the total");
    }
}

void empty_bench(const Ui& ui, InState& state) {
    gap(ui, 10.0f);
    paragraph(ui,
              "The bench is empty. Every batt starts with one fibre; the rest can follow while you look at "
              "what it does.",
              ui.theme.ink);
    gap(ui, 8.0f);
    const float width = ImGui::GetContentRegionAvail().x;
    if (button(ui, "Add the first fibre", Tone::accent, width)) state.open_search = true;
    if (button(ui, "Open a recipe\u2026##open from bench", Tone::plain, width)) ui.ask.command(Command::open);
    if (button(ui, "Start from an example", Tone::plain, width)) ui.ask.command(Command::example);
    if (ui.settings.recent.empty()) return;
    gap(ui, 8.0f);
    text_in(ui, ui.fonts.bold, ui.theme.ink, "Lately on the bench");
    const std::size_t most = std::min<std::size_t>(ui.settings.recent.size(), 5);
    for (std::size_t i = 0; i < most; ++i) {
        const auto& path = ui.settings.recent[i];
        ImGui::PushID(static_cast<int>(i));
        if (button(ui, cut_to(recipe::file_stem(path), width - ui.px(30.0f)) + "##recent", Tone::plain, width,
                   path.string()))
            ui.ask.act(OpenRecipe{path});
        ImGui::PopID();
    }
}

// Right above the components, with the remedy on a line of its own.
void complaint_box(const Ui& ui, const measure::Complaint& complaint) {
    const ImVec2 low = ImGui::GetCursorScreenPos();
    ImGui::BeginGroup();
    ImGui::Indent(ui.px(12.0f));
    text_in(ui, ui.fonts.bold, ui.theme.spoils, "This cannot be carded as it stands");
    paragraph(ui, complaint.where.empty() ? complaint.what : complaint.where + ": " + complaint.what,
              ui.theme.ink);
    paragraph(ui, "To mend it: " + complaint.mend, ui.theme.ink);
    paragraph(ui, "What you see on the right is the batt before this change.", ui.theme.quiet);
    ImGui::Unindent(ui.px(12.0f));
    ImGui::EndGroup();
    mark(ui, "complaint");
    ImGui::GetWindowDrawList()->AddRectFilled(low, {low.x + ui.px(4.0f), ImGui::GetItemRectMax().y},
                                              u32(ui.theme.spoils), ui.px(2.0f));
}

}  // namespace

std::string label_of(const recipe::Component& component, const fibre::Catalogue& catalogue) {
    return forecast::label_of(component, catalogue);
}

void view_in(const Ui& ui, const Sheet& sheet, const Outcome& outcome, Pointing& pointing, InState& state,
             ShelfState& shelf, ImVec2 at, ImVec2 size) {
    begin_panel(ui, "in", "", at, size);
    view_left_head(ui, shelf);
    const bool empty = sheet.recipe.components.empty();
    if (!empty) total_field(ui, sheet, outcome);
    if (empty) {
        empty_bench(ui, state);
    } else {
        if (outcome.complaint) complaint_box(ui, *outcome.complaint);
        const bool drawable = outcome.forecast && !outcome.complaint &&
                              outcome.forecast->components.size() == sheet.recipe.components.size();
        if (drawable)
            view_bar(ui, sheet, *outcome.forecast, pointing, state, ImGui::GetContentRegionAvail().x);
        const float foot = ImGui::GetFrameHeight() + ui.px(12.0f);
        begin_child("components", {0.0f, ImGui::GetContentRegionAvail().y - foot});
        for (std::size_t i = 0; i < sheet.recipe.components.size(); ++i) {
            ImGui::PushID(static_cast<int>(sheet.marks[i].uid));
            view_component(ui, sheet, i, outcome, pointing, state);
            ImGui::PopID();
        }
        ImGui::EndChild();
        gap(ui, 2.0f);
        if (button(ui, "Add a fibre\u2026##add a fibre", Tone::accent, ImGui::GetContentRegionAvail().x,
                   "Search the catalogue by name, kind or property (Ctrl+F)"))
            state.open_search = true;
    }
    view_catalogue(ui, sheet, state);
    if (!ImGui::IsMouseDown(ImGuiMouseButton_Left)) state.dragged.reset();
    end_panel();
}

}  // namespace battwright::window
