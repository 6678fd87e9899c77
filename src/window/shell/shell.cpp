#include "window/shell/shell.hpp"

#include <imgui_internal.h>

#include <algorithm>
#include <utility>

#include "app/bench/bench_actions.hpp"
#include "app/bench/carding_worker.hpp"
#include "app/bench/outcome.hpp"
#include "app/bench/sheet.hpp"
#include "app/settings.hpp"
#include "app/state.hpp"
#include "recipe/file.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

constexpr float margin = 10.0f;

std::string about_unsaved(const State& app) {
    const std::string& name = app.document.sheet().recipe.name;
    return (name.empty() ? "This batt" : "\u201c" + name + "\u201d") +
           " has changes that are in no file yet.";
}

std::string about_left_behind(const LeftBehind& left) {
    const auto name = Recovery::name_of(left);
    return "The last session ended before " +
           (name ? "\u201c" + *name + "\u201d" : std::string("a batt without a name")) + " was saved." +
           (left.original ? " It was opened from " + left.original->string() + "." : "");
}

// What cannot both be, and a button for each way out.
void ask_way_out(const Ui& ui, const Disagreement& disagreement) {
    std::vector<std::string> answers;
    for (const auto& way : disagreement.ways) answers.push_back(way.words);
    answers.emplace_back("Leave it as it was");
    const auto answer =
        view_question(ui, "disagreement", "These do not go together", disagreement.what, answers);
    if (!answer) return;
    AnswerDisagreement given;
    if (*answer < disagreement.ways.size()) given.way = *answer;
    ui.ask.act(given);
}

// One question at a time; its answers in the order of the action's choices.
void questions(const Ui& ui) {
    const State& app = ui.app;
    if (!app.left_behind.empty()) {
        if (const auto answer = view_question(ui, "recovery question", "Unsaved work was found",
                                              about_left_behind(app.left_behind.front()),
                                              {"Bring it back", "Throw it away", "Decide later"}))
            ui.ask.act(AnswerRecovery{static_cast<AnswerRecovery::Choice>(*answer)});
    } else if (app.comment_question) {
        if (const auto answer =
                view_question(ui, "comment question", "The file has comments",
                              "Lines that begin with # cannot be carried over. Saving to the same file "
                              "would drop them.",
                              {"Save under another name", "Drop the comments", "Stay here"}))
            ui.ask.act(AnswerComments{static_cast<AnswerComments::Choice>(*answer)});
    } else if (app.theirs_question) {
        if (const auto answer = view_question(
                ui, "theirs question", "The file is no longer what was opened",
                "Another window or program has written " + app.theirs_question->filename().string() +
                    " meanwhile. Undo brings back what is here if you take what is there.",
                {"Save under another name", "Keep mine", "Take theirs", "Stay here"}))
            ui.ask.act(AnswerTheirs{static_cast<AnswerTheirs::Choice>(*answer)});
    } else if (waits(app.unsaved_question)) {
        if (const auto answer = view_question(ui, "unsaved question", "Keep this work?", about_unsaved(app),
                                              {"Save it first", "Do not save", "Stay here"}))
            ui.ask.act(AnswerUnsaved{static_cast<AnswerUnsaved::Choice>(*answer)});
    } else if (app.disagreement) {
        ask_way_out(ui, app.disagreement->disagreement);
    }
}

measure::Expected<void> draw_strip(Shell& shell, const Carded& carded, const StripTexture::Size& size) {
    StripTexture& texture = shell.strip;
    if (!strip::fills_strip(carded.view)) {
        shell.whole.keep(carded.whole.image);
        return {};
    }
    if (!is_yarn(carded.view)) return texture.draw(carded.scene, size);
    if (carded.yarn.ply_count > 0) return texture.draw(carded.yarn, size);
    return {};
}

}  // namespace

namespace {

// The three panels in design pixels: least widths and the least height of each.
constexpr float least_in = 428.0f, least_drum = 306.0f, least_out = 466.0f, least_tall = 460.0f;
constexpr float three_columns = least_in + least_drum + least_out + 4.0f * margin;
constexpr float two_columns = least_in + least_drum + 3.0f * margin;
constexpr float scrollbar = 12.0f;

// The bar on top wraps its buttons.
float top_height(float design_width) {
    const float rows = design_width >= three_columns ? 1.0f : design_width >= 660.0f ? 2.0f : 3.0f;
    return 14.0f + 38.0f * rows;
}

// What stands above one another: `rows` of panels in what the window leaves, none lower than the least.
float panel_height(float room, float unit, float rows) {
    return std::max(least_tall * unit, (room - (rows - 1.0f) * margin * unit) / rows);
}

void place_three(Layout& layout, float width, float height, float unit) {
    const float m = margin * unit, y = layout.in.y;
    const float in = std::clamp(0.335f * width, least_in * unit, 560.0f * unit);
    const float drum = std::clamp(0.25f * width, least_drum * unit, 520.0f * unit);
    layout.in_size = {in, height};
    layout.drum = {in + 2.0f * m, y};
    layout.drum_size = {drum, height};
    layout.out = {in + drum + 3.0f * m, y};
    layout.out_size = {width - in - drum - 4.0f * m, height};
}

void place_two(Layout& layout, float width, float height, float unit) {
    const float m = margin * unit, y = layout.in.y;
    const float in = std::clamp(0.55f * (width - 3.0f * m), least_in * unit, 620.0f * unit);
    layout.in_size = {in, height};
    layout.drum = {in + 2.0f * m, y};
    layout.drum_size = {width - in - 3.0f * m, height};
    layout.out = {m, y + height + m};
    layout.out_size = {width - 2.0f * m, height};
}

void place_one(Layout& layout, float width, float height, float unit) {
    const float m = margin * unit, step = height + m;
    layout.in_size = layout.drum_size = layout.out_size = {width - 2.0f * m, height};
    layout.drum = {m, layout.in.y + step};
    layout.out = {m, layout.in.y + 2.0f * step};
}

// The strip is what one looks at: as high as the panels above it leave, up to about a third of the window.
constexpr float usual_share = 0.3f, least_strip = 160.0f, most_usual = 420.0f;
// The panels have so much first: two findings are seen at once.
constexpr float usual_tall = 492.0f;

float height_of_strip(float window_height, float room, float unit, double share) {
    if (share > 0.0)
        return std::max(0.8f * least_strip * unit,
                        static_cast<float>(std::min(share, most_strip_share)) * window_height);
    const float usual = std::clamp(usual_share * window_height, least_strip * unit, most_usual * unit);
    return std::clamp(usual, least_strip * unit, std::max(room, least_strip * unit));
}

Layout laid_out(float width, float window_height, float unit, double share) {
    const float m = margin * unit, design = width / unit;
    const int columns = design >= three_columns ? 3 : design >= two_columns ? 2 : 1;
    const auto rows = static_cast<float>(4 - columns);
    const float top = top_height(design) * unit;
    // Its controls wrap, too.
    const float room = window_height - top - 4.0f * m - usual_tall * unit;
    const float own = height_of_strip(window_height, room, unit, share);
    const float strip = own + 39.0f * (rows - 1.0f) * unit;
    const float height =
        panel_height(window_height - top - strip - 4.0f * m, unit, columns == 3 ? 1.0f : rows);
    Layout layout;
    layout.strip_share = double{own} / std::max(1.0f, window_height);
    layout.top = {m, m};
    layout.top_size = {width - 2.0f * m, top};
    layout.in = {m, top + 2.0f * m};
    if (columns == 3) place_three(layout, width, height, unit);
    if (columns == 2) place_two(layout, width, height, unit);
    if (columns == 1) place_one(layout, width, height, unit);
    layout.strip = {m, layout.out.y + height + m};
    layout.strip_size = {width - 2.0f * m, strip};
    layout.height = layout.strip.y + strip + m;
    return layout;
}

// The same, moved up by what the bench is scrolled.
Layout scrolled(Layout layout, float by) {
    for (ImVec2* place : {&layout.top, &layout.in, &layout.drum, &layout.out, &layout.strip}) place->y -= by;
    return layout;
}

}  // namespace

Layout layout_for(ImVec2 window, float unit, double strip_share) {
    const Layout layout = laid_out(window.x, window.y, unit, strip_share);
    if (layout.height <= window.y + 0.5f) return layout;
    return laid_out(window.x - scrollbar * unit, window.y, unit, strip_share);
}

float unit_that_fits(ImVec2 window, float wanted) {
    return std::max(
        0.5f, std::min({wanted, window.x / (least_out + 2.0f * margin + scrollbar), window.y / 340.0f}));
}

void refresh(Shell& shell, const StripSize& size) {
    State& app = shell.app;
    follow(app);
    follow_yarn(shell.yarn, app.outcome(), app.settings);
    take_photo(shell);
    shell.thumbnails.follow(app.files.thumbnails());
    if (!app.outcome().forecast || !app.carded.carded || size.width <= 0 || size.height <= 0) return;
    if (app.canvas.open) return;  // it lies over the strip
    // While a hand drags, a coarse batt is drawn coarsely, too: the full one follows when the hand rests.
    const bool dragged = ImGui::IsMouseDown(ImGuiMouseButton_Left);
    const bool coarse = app.carded.carded->coarse;
    const bool hurried = dragged && (coarse || shell.strip.slow());
    // The hand rests: what was drawn in a hurry is drawn well. Pressing the button alone changes nothing.
    if (shell.strip_of.value().hurried && !hurried && !coarse) shell.strip_of.forget();
    shell.strip_of.of({app.carded.carded, app.look.distance, size.width, size.height},
                      [&](const StripInputs& inputs, StripDrawn& drawn) {
                          drawn.hurried = hurried;
                          if (auto done = draw_strip(shell, *inputs.carded,
                                                     {inputs.width, inputs.height, inputs.distance, hurried});
                              !done)
                              app.messages.push_back(done.error());
                      });
}

namespace {

// Between the panels and the strip: dragged up, the strip is higher.
void drag_strip_edge(const Ui& ui, Shell& shell, const Layout& layout) {
    ImGui::SetCursorScreenPos({layout.strip.x, layout.strip.y - ui.px(margin)});
    ImGui::InvisibleButton("strip edge", {layout.strip_size.x, ui.px(margin)});
    mark(ui, "strip edge");
    // The ring about what has the keys lies under the panels on either side.
    if (ImGui::IsItemFocused() && !ImGui::GetCurrentContext()->NavDisableHighlight) {
        const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
        const float middle = 0.5f * (low.y + high.y), half = ui.px(1.5f);
        ImGui::GetForegroundDrawList()->AddRectFilled({low.x, middle - half}, {high.x, middle + half},
                                                      u32(ui.theme.advice));
    }
    if (ImGui::IsItemHovered() || ImGui::IsItemActive()) ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeNS);
    if (ImGui::IsItemActive()) {
        const double moved =
            double{ImGui::GetIO().MouseDelta.y} / std::max(1.0f, ImGui::GetIO().DisplaySize.y);
        if (moved != 0.0)
            shell.share_drawn = std::clamp(shell.share_drawn.value_or(layout.strip_share) - moved,
                                           least_strip_share, most_strip_share);
        ui.ask.another_frame |= moved != 0.0;
    } else if (shell.share_drawn) {
        Settings settings = ui.settings;
        settings.strip_share = *shell.share_drawn;
        shell.share_drawn.reset();
        ui.ask.act(ChangeSettings{settings});
    }
}

}  // namespace

void draw(Shell& shell, const Ui& ui, const Layout& unscrolled) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    ImGui::SetNextWindowPos({0.0f, 0.0f});
    ImGui::SetNextWindowSize(whole);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, 0.0f);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0.0f);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0.0f, 0.0f});
    // The frame's ground is its background: painted once.
    ImGui::Begin("bench", nullptr,
                 ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                     ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBringToFrontOnFocus);
    ImGui::PopStyleVar(3);
    const Layout layout = scrolled(unscrolled, ImGui::GetScrollY());
    // As long as the bench is, the window scrolls, and no longer.
    ImGui::Dummy({1.0f, unscrolled.height});
    shell.pointing.next.clear();
    const State& app = shell.app;
    const Sheet& sheet = app.document.sheet();
    view_top(ui, layout.top, layout.top_size);
    if (shell.shelf.open)
        view_shelf(ui, app.outcome(), shell.shelf, layout.in, layout.in_size);
    else
        view_in(ui, sheet, app.outcome(), shell.pointing, shell.in, shell.shelf, layout.in, layout.in_size);
    view_drum(ui, sheet, app.outcome(), app.carded, shell.pointing, shell.drum, layout.drum,
              layout.drum_size);
    view_out(ui, sheet, app.outcome(), shell.pointing, shell.yarn, layout.out, layout.out_size);
    const bool filled = !app.carded.carded || strip::fills_strip(app.carded.carded->view);
    view_strip(ui, sheet, app.outcome(), app.carded, app.look, filled ? shell.strip.id() : shell.whole.id(),
               layout.strip, layout.strip_size);
    shell.strip_share = layout.strip_share;
    drag_strip_edge(ui, shell, layout);
    draw_panels(shell, ui);
    view_lot(ui, shell.shelf);
    view_new_lot(ui, shell.shelf);
    questions(ui);
    ImGui::End();
    view_carried_lot(ui, shell.shelf, layout.drum, layout.drum_size);
    view_messages(ui, {whole.x - ui.px(24.0f), std::min(layout.strip.y, whole.y) - ui.px(14.0f)});
    if (shell.pointing.now != shell.pointing.next) {
        shell.pointing.now = shell.pointing.next;
        ui.ask.another_frame = true;
    }
}

namespace {

void report_recipe(const State& app, Probe& probe) {
    auto& facts = probe.state;
    const Document& document = app.document;
    facts["recipe"] = recipe::write_text(document.sheet().recipe);
    facts["path"] = document.path() ? document.path()->string() : "";
    facts["unsaved"] = document.unsaved() ? "yes" : "no";
    facts["undo steps"] = std::to_string(document.history().steps_back());
    facts["redo steps"] = std::to_string(document.history().steps_on());
    facts["messages"] = std::to_string(app.messages.size());
    if (!app.messages.empty()) facts["message"] = measure::to_line(app.messages.back());
    const Outcome& outcome = app.outcome();
    facts["complaint"] = outcome.complaint ? measure::to_line(*outcome.complaint) : "";
    if (!outcome.forecast) return;
    facts["total grams"] = measure::write_number(outcome.forecast->total_grams);
    facts["colour"] = colour::hex(outcome.forecast->colour.srgb);
    facts["findings"] = std::to_string(outcome.forecast->findings.size());
    const auto& yarn = outcome.forecast->yarn;
    facts["yarn high over low"] =
        measure::write_number(yarn.length_low_m > 0.0 ? yarn.length_high_m / yarn.length_low_m : 0.0);
}

// The names of what is wider than its place.
std::string scrolls_sideways() {
    std::string names;
    for (const ImGuiWindow* one : ImGui::GetCurrentContext()->Windows)
        // A field of several lines scrolls by itself.
        if (one->WasActive && !one->Hidden && one->ScrollMax.x > 2.5f &&
            std::string_view(one->Name).find("/##") == std::string_view::npos)
            names += std::string(one->Name) + "\n";
    return names;
}

bool readers_busy(const Shell& shell) {
    return shell.photos->busy() || shell.palettes->busy() || shell.card_photos->busy() ||
           shell.batt_photos->busy() || shell.app.files.busy();
}

void report_strip(const Shell& shell, Probe& probe) {
    auto& facts = probe.state;
    const State& app = shell.app;
    const bool read = !readers_busy(shell) && !readers_have_news(shell);
    facts["settled"] = app.carded.settled && read ? "yes" : "no";
    facts["view"] = word_for(app.look.view);
    const auto& carded = app.carded.carded;
    if (!carded) return;
    facts["pass shown"] = std::to_string(carded->pass);
    const StripInputs drawn = shell.strip_of.key().value_or(StripInputs{});
    facts["caption"] = strip_caption(*carded, {drawn.width, drawn.height}, app.look, app.settings);
    const auto* measures = measures_of(*carded, carded->pass);
    facts["look"] = measures != nullptr ? carding::word_for(measures->look) : "";
}

}  // namespace

void report(const Shell& shell, Probe& probe) {
    if (!probe.wanted) return;
    auto& facts = probe.state;
    facts.clear();
    const State& app = shell.app;
    facts["focused"] = shell.tabs.focused;
    facts["refused"] = shell.typing.refused.why;
    facts["disagreement"] = app.disagreement ? "yes" : "no";
    report_recipe(app, probe);
    report_strip(shell, probe);
    report_panels(shell, probe);
    report_yarn(shell.yarn, app.document.sheet(), app.outcome(), probe);
    facts["variants"] = std::to_string(app.variants.size());
    facts["theme"] = app.settings.shade == Shade::dark ? "dark" : "light";
    facts["lots"] = std::to_string(app.stash.shelf().lots.size());
    facts["lots shown"] = std::to_string(app.stash.whole().size() + app.stash.scraps().size());
    facts["typing"] = shell.typing.id != 0 ? "yes" : "no";
    facts["scrolls sideways"] = scrolls_sideways();
}

}  // namespace battwright::window
