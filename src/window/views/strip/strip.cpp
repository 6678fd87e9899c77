// The preview strip, wide along the bottom, with what it is seen by on it.
#include <algorithm>
#include <cmath>

#include "app/bench/carding_worker.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"
#include "app/look.hpp"
#include "app/settings.hpp"
#include "app/yarn/yarn_words.hpp"
#include "text/numbers.hpp"
#include "window/kit/widgets.hpp"
#include "window/views/views.hpp"

namespace battwright::window {
namespace {

constexpr float strip_head = 46.0f, strip_margin = 14.0f;  // design pixels above and around the picture
constexpr float title_from = 1400.0f;                      // width of the panel that has room for a title

// The plain word for the pass on show, and how far its patches are from the batt's own colour.
void word_of_pass(const Ui& ui, const CardedShown& shown) {
    const auto* measures = shown.carded ? measures_of(*shown.carded, shown.carded->pass) : nullptr;
    if (measures == nullptr) return;
    ImGui::SameLine(0.0f, ui.px(10.0f));
    text_in(ui, ui.fonts.bold, ui.theme.ink, carding::word_for(measures->look));
    mark(ui, "look");
    const std::string figure = text::number(measures->strip_variation_de00, 1);
    const std::string words =
        carding::explained(measures->look) + "\nPlaces lie " + figure +
        " from the mean colour on average, where 1 is just seen (CIEDE2000). The limits "
        "of the words are common practice, without a source.";
    hover(ui, words);
    ImGui::SameLine(0.0f, ui.px(6.0f));
    // A dot stands after the figure while a better one is being made.
    text_in(ui, ui.fonts.body, ui.theme.quiet, "\u0394E " + figure + (shown.settled ? "" : " \u2022"));
    hover(ui,
          shown.settled ? words : "The batt is being carded anew; this is of the last one or a rough one.");
}

// Passes as buttons, as long as they are few; a recipe of more gets a number to step.
std::optional<int> choose_pass(const Ui& ui, int shown, int own, const recipe::Carder& carder) {
    if (own > usual_passes) return stepper(ui, "after", shown, 1, own);
    const std::string one = "1 " + std::string(recipe::words_of(carder).pass);
    const auto passes = choices(ui, "after", {one, "2", "3", "4"}, static_cast<std::size_t>(shown - 1));
    return passes ? std::optional(static_cast<int>(*passes) + 1) : std::nullopt;
}

// How many rows the controls of a strip of that width take: as the bench has columns.
int control_rows(const Ui& ui, float width) {
    return width >= ui.px(1180.0f) ? 1 : width >= ui.px(700.0f) ? 2 : 3;
}

float control_head(const Ui& ui, float width) {
    return strip_head + 39.0f * static_cast<float>(control_rows(ui, width) - 1);
}

// The views that fill a strip; the others are chosen on the table, and shown here, too.
void choose_view(const Ui& ui, const recipe::Carding& carding, Look& look, bool beside) {
    std::vector<StripView> views;
    std::vector<std::string> names;
    std::string meaning;
    for (const auto& row : strip::table_views) {
        if (!row.fills_strip) continue;
        views.push_back(row.value);
        const strip::ViewWords words = strip::view_words(row.value, carding);
        names.push_back(words.button);
        meaning += (meaning.empty() ? "" : "\n") + words.button + ": " + words.help;
    }
    float wide = 3.0f * ui.px(static_cast<float>(names.size()));
    for (const std::string& name : names)
        wide += ImGui::CalcTextSize(name.c_str()).x + 2.0f * ImGui::GetStyle().FramePadding.x;
    if (beside) ImGui::SameLine(ImGui::GetContentRegionMax().x - wide);
    const auto chosen = static_cast<std::size_t>(std::ranges::find(views, look.view) - views.begin());
    if (const auto view = choices(ui, "view", names, chosen)) look.view = views[*view];
    hover(ui, meaning);
}

void controls(const Ui& ui, const Sheet& sheet, const CardedShown& carded, Look& look) {
    const ImVec2 start = ImGui::GetCursorScreenPos();
    if (ImGui::GetContentRegionMax().x > ui.px(title_from)) {
        const float lift = 0.5f * (ImGui::GetFrameHeight() - ui.fonts.title->FontSize);
        ImGui::SetCursorScreenPos({start.x, start.y + lift});
        text_in(ui, ui.fonts.title, ui.theme.ink, is_yarn(look.view) ? "As spun" : "As carded");
        ImGui::SetCursorScreenPos({start.x + ui.px(98.0f), start.y});
    }
    std::vector<std::string> lights;
    lights.reserve(colour::all_lights.size());
    for (const auto& row : colour::all_lights) lights.emplace_back(row.label);
    choose(ui, "light", lights, look.light);
    hover(ui, "CIE D65 daylight, A lamp, F2 fluorescent tube, as the eye adapts to each.");
    ImGui::SameLine(0.0f, ui.px(14.0f));
    beside(ui, "after");
    ImGui::SameLine();
    const int own = std::max(1, sheet.recipe.carding.passes);
    if (const auto pass =
            choose_pass(ui, pass_shown(sheet.recipe, look), own, recipe::carder_of(sheet.recipe.carding))) {
        look.passes = *pass;
        if (*look.passes == own) look.passes.reset();
    }
    word_of_pass(ui, carded);
    const int rows = control_rows(ui, ImGui::GetWindowWidth());
    if (rows == 1) ImGui::SameLine(0.0f, ui.px(14.0f));
    choose(ui, "seen", {"in the hand", "arm's length", "across the room"}, look.distance);
    hover(ui, "From how far away it is looked at: the farther, the more the eye blends the fibres.");
    choose_view(ui, sheet.recipe.carding, look, rows < 3);
}

// How the batt is taken to the wheel, over the picture's lower right corner; the left end of it.
float choose_pull(const Ui& ui, Look& look, ImVec2 high) {
    const std::vector<std::string> names = measure::words_of(carding::pulls);
    float wide = 2.0f * ui.px(3.0f);
    for (const std::string& name : names)
        wide += ImGui::CalcTextSize(name.c_str()).x + 2.0f * ImGui::GetStyle().FramePadding.x;
    const ImVec2 at{high.x - wide - ui.px(6.0f), high.y - ImGui::GetFrameHeight() - ui.px(6.0f)};
    ImGui::SetCursorScreenPos(at);
    choose(ui, "pull", names, look.pull);
    hover(
        ui,
        "How the batt is taken to the wheel. Long strip: drawn off in one piece, round and round. Torn "
        "lengthwise: in strips along the drum, spun in order. Torn across: in pieces across the drum, so the "
        "colours come mixed.");
    return at.x;
}

void show_caption(const Ui& ui, const std::string& words, ImVec2 low, ImVec2 high) {
    ImGui::PushFont(ui.fonts.small);
    const float room = high.x - low.x - ui.px(24.0f);
    const std::string shown = cut_to(words, room);
    const ImVec2 size = ImGui::CalcTextSize(shown.c_str());
    const ImVec2 at{low.x + ui.px(6.0f), high.y - size.y - ui.px(12.0f)};
    const ImVec2 end{at.x + size.x + ui.px(12.0f), at.y + size.y + ui.px(6.0f)};
    ImGui::GetWindowDrawList()->AddRectFilled(at, end, u32(ui.theme.panel), ui.px(5.0f));
    ImGui::SetCursorScreenPos({at.x + ui.px(6.0f), at.y + ui.px(3.0f)});
    text_in(ui, ui.fonts.small, ui.theme.ink, shown);
    ImGui::PopFont();
    mark(ui, "strip caption");
    hover(ui, words);
}

// The colours of each ply along all of the yarn, over the stretch that is enlarged; a press or a drag there
// shows the yarn from there on.
void show_run(const Ui& ui, const Carded& carded, const StripSize& stretch, Look& look, ImVec2 low,
              ImVec2 high) {
    const double metres = strip::on_show(carded.yarn, stretch.width, stretch.height).metres;
    draw_yarn_run(ui, carded.run, look.from, look.from + metres / carded.yarn.length_m, low, high);
    const float wide = high.x - low.x, tall = high.y - low.y;
    ImGui::SetCursorScreenPos(low);
    ImGui::InvisibleButton("along the yarn", {wide, tall + ui.px(4.0f)});
    mark(ui, "along the yarn");
    if (ImGui::IsItemFocused()) look.from = std::clamp(look.from + 0.05 * along_by_keys(), 0.0, 1.0);
    if (ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
        const float share = std::clamp((ImGui::GetIO().MousePos.x - low.x) / wide, 0.0f, 1.0f);
        // By half percents, so that a hand that rests asks for nothing new.
        look.from = static_cast<double>(std::round(200.0f * share)) / 200.0;
    }
    hover(ui,
          "The colours of all the yarn, ply by ply. Press or drag, or Left and Right, to see it from "
          "there on.");
}

// Over the picture's upper right corner.
void ask_for_table(const Ui& ui, ImVec2 low, ImVec2 high) {
    const char* words = "Large";
    const float wide = ImGui::CalcTextSize(words).x + 2.0f * ImGui::GetStyle().FramePadding.x;
    ImGui::SetCursorScreenPos({high.x - wide - ui.px(6.0f), low.y + ui.px(6.0f)});
    if (button(ui, std::string(words) + "##strip large", Tone::plain, 0.0f,
               "All of it on the table, full window, to scale; rolled, as roving, rolags and skein, too "
               "(Ctrl+T)"))
        ui.ask.command(Command::table);
}

void show_picture(const Ui& ui, ImTextureID picture, const char* words, ImVec2 low, ImVec2 high) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (picture != nullptr) {
        list.AddImageRounded(picture, low, high, {0.0f, 0.0f}, {1.0f, 1.0f}, IM_COL32_WHITE, ui.px(6.0f));
        list.AddRect(low, high, u32(ui.theme.edge), ui.px(6.0f));
        return;
    }
    list.AddRect(low, high, u32(ui.theme.line), ui.px(6.0f), 0, ui.px(1.5f));
    const ImVec2 wide = ImGui::CalcTextSize(words);
    list.AddText({0.5f * (low.x + high.x - wide.x), 0.5f * (low.y + high.y - wide.y)}, u32(ui.theme.quiet),
                 words);
}

}  // namespace

void draw_yarn_run(const Ui& ui, const std::vector<std::vector<colour::Srgb>>& rows, double from, double to,
                   ImVec2 low, ImVec2 high) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float wide = high.x - low.x, tall = high.y - low.y;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        const float top = low.y + tall * static_cast<float>(row) / static_cast<float>(rows.size());
        const float bottom = low.y + tall * static_cast<float>(row + 1) / static_cast<float>(rows.size());
        const auto steps = static_cast<float>(rows[row].size());
        for (std::size_t i = 0; i < rows[row].size(); ++i) {
            const float left = low.x + wide * static_cast<float>(i) / steps;
            const float right = low.x + wide * static_cast<float>(i + 1) / steps;
            list.AddRectFilled({left, top}, {right, bottom}, u32(rows[row][i]));
        }
    }
    list.AddRect(low, high, u32(ui.theme.edge));
    const float left = low.x + wide * static_cast<float>(from);
    const float right = std::max(left + ui.px(3.0f), low.x + wide * static_cast<float>(std::min(to, 1.0)));
    list.AddRect({left - ui.px(1.0f), low.y - ui.px(1.0f)}, {right + ui.px(1.0f), high.y + ui.px(1.0f)},
                 u32(ui.theme.panel), 0.0f, 0, ui.px(4.0f));
    list.AddRect({left, low.y}, {right, high.y}, u32(ui.theme.ink), 0.0f, 0, ui.px(2.0f));
    list.AddRectFilled({left, high.y + ui.px(1.0f)}, {right, high.y + ui.px(4.0f)}, u32(ui.theme.ink));
}

StripSize strip_size(const Ui& ui, ImVec2 panel, const Look& look) {
    StripSize size{static_cast<int>(panel.x - 2.0f * ui.px(strip_margin)),
                   static_cast<int>(panel.y - ui.px(control_head(ui, panel.x) + strip_margin + 4.0f))};
    // Yarn begins with all of it, over the stretch that is enlarged.
    if (is_yarn(look.view) && strip::fills_strip(look.view))
        size.height = strip::yarn_split(size.height).stretch;
    return size;
}

std::string strip_caption(const Carded& carded, const StripSize& size, const Look& look,
                          const Settings& settings) {
    if (!strip::fills_strip(carded.view))
        return carded.whole.remark.empty() ? carded.whole.caption : carded.whole.remark;
    if (!is_yarn(carded.view)) return "";
    // From afar more yarn is drawn, and then made smaller.
    const int times = 1 << look.distance;
    return strip::caption(carded.yarn, size.width * times, size.height * times,
                          carded.yarn.pixels_per_mm / times, yarn_length_unit(settings));
}

namespace {

// Nothing to draw: there is no batt, or no yarn of it.
bool is_bare(const Carded& carded) {
    if (!strip::fills_strip(carded.view))
        return carded.whole.image.rgb.empty() || !carded.whole.remark.empty();
    return is_yarn(carded.view) && carded.yarn.ply_count == 0;
}

}  // namespace

void view_strip(const Ui& ui, const Sheet& sheet, const Outcome& outcome, const CardedShown& shown,
                const Look& now, ImTextureID picture, ImVec2 at, ImVec2 size) {
    Look look = now;  // as it is asked for at the end
    look.zoom = std::max(1.0, static_cast<double>(ui.unit));
    begin_panel(ui, "strip", "", at, size);
    controls(ui, sheet, shown, look);
    const StripSize inside = strip_size(ui, size, look);
    if (!strip::fills_strip(look.view)) {
        look.strip_width = inside.width;
        look.strip_height = inside.height;
        look.ground = ui.theme.panel;
    }
    const ImVec2 whole{at.x + ui.px(strip_margin), at.y + ui.px(control_head(ui, size.x) + 2.0f)};
    const ImVec2 high{whole.x + static_cast<float>(inside.width), at.y + size.y - ui.px(strip_margin + 2.0f)};
    const ImVec2 low{whole.x, high.y - static_cast<float>(inside.height)};
    const bool there = shown.carded && outcome.forecast;
    const std::string caption = there ? strip_caption(*shown.carded, inside, look, ui.settings) : "";
    const bool bare = !there || is_bare(*shown.carded);
    const char* words =
        outcome.forecast ? "The strip is being drawn" : "The carded strip is drawn here, fibre by fibre";
    show_picture(ui, bare ? nullptr : picture, there && bare && !caption.empty() ? caption.c_str() : words,
                 low, high);
    ui.probe.mark("strip picture", {low.x, low.y, high.x, high.y});
    // Rolags are spun one after another: there is nothing to choose.
    const bool choice = is_yarn(look.view) && !recipe::makes_rolags(sheet.recipe.carding);
    const float left = choice ? choose_pull(ui, look, high) : high.x;
    if (!bare && !caption.empty()) show_caption(ui, caption, low, {left, high.y});
    if (!bare && is_yarn(shown.carded->view) && low.y > whole.y + 1.0f)
        show_run(ui, *shown.carded, inside, look, whole, {high.x, low.y - ui.px(6.0f)});
    ask_for_table(ui, low, high);
    end_panel();
    if (!(look == now)) ui.ask.act(LookAt{look});
}

}  // namespace battwright::window
