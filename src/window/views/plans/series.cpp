#include "window/views/plans/series.hpp"

#include <algorithm>

#include "app/bench/disagreement.hpp"
#include "app/bench/sheet.hpp"
#include "app/settings.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "forecast/forecast.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

constexpr float series_column = 130.0f;

void begin_series(const Ui& ui, const Sheet& sheet) {
    paragraph(
        ui,
        "Several batts, or rolags, that step from this mixture to another: a fade to spin through, or a "
        "choice to hold side by side. The steps are kept in the recipe.",
        ui.theme.ink);
    gap(ui, 4.0f);
    if (!button(ui, "Begin a series##series begin", Tone::accent)) return;
    const bool ounces = ui.settings.mass != measure::MassUnit::gram;
    const measure::Mass each{ounces ? 0.5 * measure::grams_per_ounce : 15.0, ui.settings.mass};
    ui.ask.edit(start_series(sheet, each), "begin a series");
}

void series_each(const Ui& ui, const Sheet& sheet, const recipe::Series& series) {
    row_label(ui, "Each weighs", series_column);
    const auto typed = field(ui, "series each", mass(ui, series.each.grams), ui.px(100.0f));
    if (!typed) return;
    const auto weight = parse_weight(*typed, ui.settings.mass);
    if (weight && weight->grams > 0.0)
        ui.ask.edit(set_series_each(sheet, *weight), "weigh a series");
    else
        refuse(ui, weight ? measure::Complaint{"each must weigh more than nothing",
                                               "type a weight such as " + mass(ui, 15.0)}
                          : weight.error());
}

void series_end(const Ui& ui, const app::PlansMade& made, const Sheet& sheet) {
    const auto shares = series_shares(sheet.recipe);
    for (std::size_t c = 0; c < shares.size(); ++c) {
        row_label(ui, c == 0 ? "The last one is" : "", series_column);
        const auto typed = field(ui, "series share " + std::to_string(c + 1),
                                 measure::print_percent(shares[c]), ui.px(84.0f));
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        text_within(ui, ui.fonts.body, ui.theme.ink,
                    forecast::label_of(sheet.recipe.components[c], ui.catalogue),
                    ImGui::GetContentRegionAvail().x);
        if (!typed) continue;
        const auto percent = parse_share(*typed);
        if (percent && *percent >= 0.0 && *percent <= 100.0)
            ui.ask.edit(set_series_share(sheet, c, *percent), "change where a series ends");
        else
            refuse(ui, percent ? measure::Complaint{"a share is from 0 to 100 %", "type one in between"}
                               : percent.error());
    }
    if (made.no_series) paragraph(ui, measure::to_line(*made.no_series), ui.theme.spoils);
}

void series_fields(const Ui& ui, const app::PlansMade& made, const Sheet& sheet) {
    const recipe::Series& series = *sheet.recipe.series;
    row_label(ui, "How many", series_column);
    if (const auto count = stepper(ui, "series count", series.count, fewest_of_series, most_of_series))
        ui.ask.edit(set_series_count(sheet, *count), "change a series");
    beside_or_below(ui, 10.0f, ui.px(130.0f));
    if (const auto what = choices(ui, "series of", {"batts", "rolags"}, series.rolags ? 1 : 0))
        ui.ask.edit(set_series_rolags(sheet, *what == 1), "change a series");
    series_each(ui, sheet, series);
    row_label(ui, "Steps alike", series_column);
    if (const auto how = choices(ui, "series steps", {"by weight", "by eye"}, series.by_eye ? 1 : 0))
        ui.ask.edit(set_series_by_eye(sheet, *how == 1), "change a series");
    hover(ui, "By eye the steps of colour are alike (CIEDE2000); by weight each changes by as much fibre.");
    series_end(ui, made, sheet);
}

void series_rows(const Ui& ui, const app::PlansMade& made) {
    const auto table = series_table(made, ui.settings);
    const int columns = static_cast<int>(table.heads.size());
    const auto flags = ImGuiTableFlags_SizingFixedFit | ImGuiTableFlags_ScrollX | ImGuiTableFlags_RowBg;
    const float row = ImGui::GetTextLineHeightWithSpacing() + ui.px(4.0f);
    const float high = row * static_cast<float>(table.rows.size() + 2) + ui.px(20.0f);
    if (!ImGui::BeginTable("series table", columns, flags, {0.0f, high})) return;
    // Digits that stand on a colour are read on it.
    const auto line = [&](const std::vector<std::string>& cells, ImFont* font, const colour::Srgb& ink,
                          const colour::Srgb* ground = nullptr) {
        ImGui::TableNextRow();
        for (std::size_t i = 0; i < cells.size(); ++i) {
            ImGui::TableNextColumn();
            const bool on_ground = ground != nullptr && i + 2 == cells.size();
            text_in(ui, font, on_ground ? readable_on(*ground) : ink, cells[i]);
        }
    };
    line(table.heads, ui.fonts.small, ui.theme.quiet);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        line(table.rows[i], ui.fonts.body, ui.theme.ink, &made.series->batts[i].srgb);
        ImGui::TableSetBgColor(ImGuiTableBgTarget_CellBg, u32(made.series->batts[i].srgb), columns - 2);
    }
    line(table.sum, ui.fonts.bold, ui.theme.ink);
    ImGui::EndTable();
    mark(ui, "series table");
}

}  // namespace

void view_series(const Ui& ui, const app::PlansMade& made, const Sheet& sheet) {
    if (!sheet.recipe.series) return begin_series(ui, sheet);
    series_fields(ui, made, sheet);
    gap(ui, 4.0f);
    if (made.series) series_rows(ui, made);
    paragraph(ui,
              "A step is the difference in colour from the one before, in CIEDE2000: about 1 is just seen "
              "side by side.",
              ui.theme.quiet);
}

void view_series_buttons(const Ui& ui, const app::PlansMade& made, const Sheet& sheet) {
    if (!sheet.recipe.series) return;
    ImGui::SameLine();
    if (made.series && button(ui, "Copy the table##series copy", Tone::plain, 0.0f,
                              "As text, with tabs, for a spreadsheet or a printer"))
        ImGui::SetClipboardText(with_tabs(series_table(made, ui.settings)).c_str());
    ImGui::SameLine();
    if (button(ui, "No series##series drop", Tone::plain, 0.0f, "The recipe is one batt again"))
        ui.ask.edit(drop_series(sheet), "let a series go");
}

}  // namespace battwright::window
