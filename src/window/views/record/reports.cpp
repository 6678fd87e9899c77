// Sums over the stash: by kind, by age, what batts and skeins cost, what was used in a year.
#include <algorithm>
#include <array>

#include "app/record/record_session.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/record/record.hpp"

namespace battwright::window {
namespace {

constexpr std::array<const char*, 5> names{"By kind", "By age", "Cost of batts", "Cost of skeins",
                                           "Used in a year"};

void choose(const Ui& ui) {
    ReportChoice report = ui.record.report;
    choose(ui, "report", {names.begin(), names.end()}, report.report);
    if (report.report == Report::used) {
        ImGui::SameLine(0.0f, ui.px(18.0f));
        edit_count(ui, "report year", report.year, 1900, 9999);
    }
    if (!(report == ui.record.report)) ui.ask.act(ShowReport{report});
}

void cell(const Ui& ui, ImFont* font, const colour::Srgb& colour, const std::string& words, bool right) {
    ImGui::TableNextColumn();
    const float room = ImGui::GetContentRegionAvail().x;
    if (right) {
        const float spare = room - width_of(font, words) - ui.px(6.0f);
        ImGui::SetCursorPosX(ImGui::GetCursorPosX() + std::max(0.0f, spare));
    }
    text_within(ui, font, colour, words, ImGui::GetContentRegionAvail().x);
}

void draw(const Ui& ui, const ReportTable& table) {
    const int columns = static_cast<int>(table.heads.size());
    const float line = ui.fonts.body->FontSize + 2.0f * ImGui::GetStyle().CellPadding.y;
    const float height = std::min(ImGui::GetContentRegionAvail().y - ui.px(30.0f),
                                  line * static_cast<float>(table.rows.size() + 1) + ui.px(12.0f));
    const float width =
        std::min(ImGui::GetContentRegionAvail().x, ui.px(260.0f + 190.0f * static_cast<float>(columns - 1)));
    if (!ImGui::BeginTable("report", columns, ImGuiTableFlags_ScrollY | ImGuiTableFlags_RowBg,
                           {width, height}))
        return;
    for (int i = 0; i < columns; ++i)
        ImGui::TableSetupColumn("", ImGuiTableColumnFlags_WidthStretch, i == 0 ? 1.5f : 1.0f);
    ImGui::TableSetupScrollFreeze(0, 1);
    ImGui::TableNextRow();
    for (int i = 0; i < columns; ++i)
        cell(ui, ui.fonts.small, ui.theme.quiet, table.heads[static_cast<std::size_t>(i)], i > 0);
    ImGuiListClipper clipper;
    clipper.Begin(static_cast<int>(table.rows.size()));
    while (clipper.Step()) {
        for (int line = clipper.DisplayStart; line < clipper.DisplayEnd; ++line) {
            ImGui::TableNextRow();
            const auto& row = table.rows[static_cast<std::size_t>(line)];
            for (std::size_t i = 0; i < row.size(); ++i) cell(ui, ui.fonts.body, ui.theme.ink, row[i], i > 0);
        }
    }
    ImGui::EndTable();
    mark(ui, "report table");
    text_in(ui, ui.fonts.bold, ui.theme.ink, table.total);
}

}  // namespace

void view_record_reports(const Ui& ui) {
    choose(ui);
    gap(ui, 2.0f);
    if (ui.record.table().rows.empty())
        paragraph(ui, "There is nothing to sum up yet.", ui.theme.quiet);
    else
        draw(ui, ui.record.table());
}

}  // namespace battwright::window
