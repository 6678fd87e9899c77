// Within which bounds: shares, weights, batts, lots, cost.
#include <algorithm>

#include "app/find/find_choice.hpp"
#include "app/find/find_session.hpp"
#include "app/settings.hpp"
#include "fibre/catalogue.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/find/find.hpp"

namespace battwright::window {
namespace {

std::string title_of(const std::string& word, const fibre::Catalogue& catalogue) {
    const fibre::Kind* kind = catalogue.find(word);
    return kind != nullptr && !fibre::family_from(word) ? kind->name : "any " + word;
}

// False when the row is to go.
bool bound_row(const Ui& ui, BoundRow& row, std::size_t number, std::vector<std::string> words) {
    if (std::find(words.begin(), words.end(), row.what) == words.end()) words.push_back(row.what);
    const auto chosen = std::find(words.begin(), words.end(), row.what) - words.begin();
    std::vector<std::string> titles;
    titles.reserve(words.size());
    for (const auto& word : words) titles.push_back(title_of(word, ui.catalogue));
    std::string name("bound ");
    name += std::to_string(number);
    ImGui::PushID(static_cast<int>(number));
    const float field_width = ui.px(62.0f), cross = ImGui::GetFrameHeight(), between = ui.px(6.0f);
    const float width = ImGui::GetContentRegionAvail().x - 2.0f * field_width - cross - 3.0f * between;
    if (const auto what = drop_down(ui, name + " what", titles, static_cast<std::size_t>(chosen), width))
        row.what = words[*what];
    ImGui::SameLine(0.0f, between);
    edit_text(ui, name + " least", row.least, field_width, "from %");
    hover(ui, "At least so many percent of the batt");
    ImGui::SameLine(0.0f, between);
    edit_text(ui, name + " most", row.most, field_width, "to %");
    hover(ui, "At most so many percent of the batt");
    ImGui::SameLine(0.0f, between);
    const bool drop = button(ui, "\u00d7##" + name + " drop", Tone::plain, cross, "Without this limit");
    find_trouble(ui, name);
    ImGui::PopID();
    return !drop;
}

void shares(const Ui& ui, FindState& state) {
    auto& rows = state.choice.bounds;
    const auto& words = ui.find.bound_words();
    for (std::size_t i = 0; i < rows.size();) {
        if (bound_row(ui, rows[i], i + 1, words))
            ++i;
        else
            rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(i));
    }
    if (!button(ui, "Add a limit\u2026##add bound", Tone::plain, 0.0f,
                "At least 60 % wool, silk between 10 and 20 %, at most 3 % sparkle"))
        return;
    BoundRow fresh;
    for (const auto& word : words) {
        const auto taken = [&](const BoundRow& row) { return row.what == word; };
        if (std::none_of(rows.begin(), rows.end(), taken)) {
            fresh.what = word;
            break;
        }
    }
    rows.push_back(fresh);
}

// `where`: what a complaint about it says.
void typed_row(const Ui& ui, const char* title, const std::string& label, std::string& text, const char* hint,
               std::string_view words, std::string_view where) {
    find_row(ui, title);
    edit_text(ui, label, text, ui.px(150.0f), hint);
    // The hint would lie over what is wrong.
    const auto& complaint = ui.find.complaint();
    if (!complaint || complaint->where != where) hover(ui, words);
    find_trouble(ui, where);
}

void batts(const Ui& ui, FindChoice& choice) {
    if (choice.colour != FindColour::gradient) {
        find_row(ui, "Batts");
        edit_count(ui, "find batts", choice.batts, choice.within_load ? 0 : 1, most_batts);
        ImGui::SameLine();
        beside(ui, choice.batts == 0 ? "as few as hold it" : choice.batts == 1 ? "batt" : "equal batts");
    }
    find_row(ui, "");
    const auto on = tick(ui, "find load", "each within the carder's load", choice.within_load);
    if (!on) return;
    choice.within_load = *on;
    choice.batts = *on ? 0 : std::max(1, choice.batts);
}

}  // namespace

void view_find_bounds(const Ui& ui, FindState& state) {
    FindChoice& choice = state.choice;
    if (!ui.find.stock()->lots.empty()) shares(ui, state);
    gap(ui, 2.0f);
    typed_row(ui, "Total", "find total", choice.total,
              example_of(ui.settings.mass, "e.g. 80-120 g", "e.g. 3-4 oz"),
              choice.colour == FindColour::gradient ? "Of each batt. Empty: as much as the lots allow"
                                                    : "Of all batts. Empty: as much as the lots allow",
              "total");
    batts(ui, choice);
    find_row(ui, "Lots");
    edit_count(ui, "find most lots", choice.most_lots, 0, most_lots_offered);
    ImGui::SameLine();
    beside(ui, choice.most_lots == 0 ? "any number" : "at most");
    typed_row(ui, "Cost", "find cost", choice.most_cost, "any",
              "All batts together, in your currency. Lots without a price are then not used", "cost");
    typed_row(ui, "Staple", "find spread", choice.staple_spread, "any lengths together",
              "Longest fibre at most so many times the shortest, as in 1.5", "staple spread");
    typed_row(ui, "Keep back", "find keep", choice.keep_back, "nothing",
              "So many percent of every lot stay on the shelf", "keep back");
    typed_row(ui, "Scale", "find step", choice.step,
              example_of(ui.settings.mass, "as fine as 0.1 g", "as fine as 0.01 oz"),
              "What your scale can tell: weights are whole steps of it", "step");
    gap(ui, 4.0f);
}

}  // namespace battwright::window
