// The card panel: the page on the left, what stands on it on the right.
#include "window/views/card/card.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "app/card/card_session.hpp"
#include "app/settings.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {
namespace {

constexpr std::array<card::Paper, 6> papers{card::Paper::a6,     card::Paper::a5,    card::Paper::a4,
                                            card::Paper::letter, card::Paper::index, card::Paper::tag};

void parts(const Ui& ui, CardChoice& choice) {
    const ImVec2 start = ImGui::GetCursorPos();
    card_row(ui, "Print");
    const float left = ImGui::GetCursorPosX(), room = ImGui::GetContentRegionAvail().x;
    const auto& all = card::all_parts();
    // As many columns as the longest label leaves.
    float longest = 0.0f;
    for (const card::Part part : all)
        longest = std::max(longest, width_of(ui.fonts.body, card::label_for(part)));
    const auto columns = static_cast<std::size_t>(std::clamp(room / (longest + ui.px(46.0f)), 1.0f, 3.0f));
    const float width = room / static_cast<float>(columns);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const card::Part part = all[i];
        const std::size_t line = i / columns;
        ImGui::SetCursorPos({left + width * static_cast<float>(i % columns),
                             start.y + ui.px(36.0f) * static_cast<float>(line)});
        const auto on = tick(ui, "part " + std::string(card::word_for(part)),
                             std::string(card::label_for(part)), choice.parts.contains(part));
        hover(ui, card::help_for(part));
        if (on && *on) choice.parts.insert(part);
        if (on && !*on) choice.parts.erase(part);
    }
}

void market(const Ui& ui, CardChoice& choice) {
    card_row(ui, "Sold in");
    choose(ui, "market", {"EU and UK", "US"}, choice.market);
}

void ticked(const Ui& ui, const std::string& label, const std::string& words, const char* meaning,
            bool& value) {
    edit_tick(ui, label, words, value);
    hover(ui, meaning);
}

void typed(const Ui& ui, const std::string& label, std::string& value, float width, const char* hint,
           const char* meaning) {
    edit_text(ui, label, value, width, hint);
    hover(ui, meaning);
}

// What is sold, where, and what the seller vouches for.
void sold(const Ui& ui, CardChoice& choice) {
    market(ui, choice);
    card_row(ui, "Content of");
    choose(ui, "card product", {"the batt", "the yarn"}, choice.product);
    hover(ui,
          "The yarn has lost some of its bits and may have a thread in it; its tag has plies and "
          "thickness, too.");
    SellersWord& word = choice.word;
    card_row(ui, "");
    ticked(ui, "card new wool", "all the wool is new",
           "You vouch that none of it was ever spun, felted or worn before.", word.new_wool);
    ImGui::SameLine(0.0f, ui.px(12.0f));
    if (choice.market == card::Market::eu_uk) {
        ticked(ui, "card decorative", "state sparkle always",
               "Visible decorative fibre may be left out up to a limit; ticked, it is stated.",
               word.count_decorative);
    } else {
        ticked(ui, "card pattern", "sparkle forms a pattern",
               "Only sparkle that forms a visible pattern or design is ornamentation.", word.visible_pattern);
        card_row(ui, "With a job");
        typed(ui, "card functional", word.functional, ImGui::GetContentRegionAvail().x,
              "fibres under 5 %, as in nylon",
              "Fibres that do a job in the yarn may be named even under 5 %; commas between them.");
        card_row(ui, "Origin");
        typed(ui, "card origin", word.origin, ImGui::GetContentRegionAvail().x, "Made in ...",
              "The country of origin, as it shall stand on the label.");
    }
    card_row(ui, "");
    ticked(ui, "card draft", "print that it is a draft",
           "This program is no lawyer. Take the line away once you have checked the rules where you sell.",
           word.draft);
}

void tag_fields(const Ui& ui, CardChoice& choice) {
    sold(ui, choice);
    card_row(ui, "Maker");
    const float width = ImGui::GetContentRegionAvail().x - ui.px(8.0f);
    typed(ui, "card maker", choice.maker, 0.62f * width, "your name", "As it shall stand there");
    ImGui::SameLine(0.0f, ui.px(8.0f));
    typed(ui, "card lot", choice.lot, 0.38f * width, "lot", "The lot's number or word");
    card_row(ui, "Length");
    typed(ui, "card length", choice.measured, 0.62f * width, "as measured",
          "What the skein measures, as it shall stand there: 380 m, 415 yd. Empty: no length is printed.");
}

void what_to_print(const Ui& ui, CardState& state) {
    CardChoice& choice = state.draft.choice;
    card_row(ui, "Make a");
    const bool kind = choose(ui, "card kind", {"recipe card", "tag", "content label"}, choice.kind);
    if (kind) state.draft.name.reset();
    card_row(ui, "Page");
    std::vector<std::string> words;
    words.reserve(papers.size());
    for (const card::Paper paper : papers) words.emplace_back(card::word_for(paper));
    const auto now = std::find(papers.begin(), papers.end(), choice.paper());
    const auto paper = choices(ui, "page", words, static_cast<std::size_t>(now - papers.begin()));
    if (paper) choice.papers[static_cast<std::size_t>(choice.kind)] = papers[*paper];
    if (kind || paper) state.side = 0;
    if (choice.kind == PageKind::recipe_card) parts(ui, choice);
    if (choice.kind == PageKind::tag) tag_fields(ui, choice);
    if (choice.kind == PageKind::label) sold(ui, choice);
}

void draw_page(const Ui& ui, const Texture& page, ImVec2 at, ImVec2 room) {
    const ImVec2 size = page.size();
    const float scale = std::min({1.0f, room.x / size.x, room.y / size.y});
    const ImVec2 low{std::floor(at.x + 0.5f * (room.x - size.x * scale)),
                     std::floor(at.y + 0.5f * (room.y - size.y * scale))};
    const ImVec2 high{low.x + size.x * scale, low.y + size.y * scale};
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddImage(page.id(), low, high);
    list.AddRect(low, high, u32(ui.theme.edge));
    ui.probe.mark("card page", {low.x, low.y, high.x, high.y});
}

// Above the tag: what was refused of its content, and what else a tag there needs.
void said_beside(const Ui& ui, const PagePreview& made) {
    ImGui::PushFont(ui.fonts.small);
    for (const std::string& line : made.said)
        paragraph(ui, line, line.starts_with("Refused") ? ui.theme.spoils : ui.theme.quiet);
    ImGui::PopFont();
    if (!made.said.empty()) mark(ui, "card said");
}

void preview(const Ui& ui, CardState& state, const CardSubject& subject, float height) {
    const float padding = ui.px(12.0f);
    ImGui::PushStyleColor(ImGuiCol_ChildBg, vec4(ui.theme.ground));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {padding, padding});
    begin_child("card preview", {0.0f, height}, false, ImGuiWindowFlags_AlwaysUseWindowPadding);
    ImGui::PopStyleVar();
    ImGui::PopStyleColor();
    if (subject.forecast && ui.card.shown().latest) said_beside(ui, *ui.card.shown().latest);
    const ImVec2 at = ImGui::GetCursorScreenPos(), room = ImGui::GetContentRegionAvail();
    if (!subject.forecast) {
        paragraph(ui, "Nothing lies on the bench yet. Add fibre, and its card shows here.", ui.theme.quiet);
    } else {
        state.draft.width = static_cast<int>(room.x);
        state.draft.height = static_cast<int>(room.y);
        if (!state.page.empty()) {
            draw_page(ui, state.page, at, room);
        } else {
            text_in(ui, ui.fonts.body, ui.theme.quiet, "The page is being made\u2026");
        }
    }
    ImGui::EndChild();
}

// What the page on show does not tell by itself.
std::string remark(const Ui& ui, const CardSubject& subject) {
    const auto& latest = ui.card.shown().latest;
    if (!subject.forecast || !latest) return "";
    if (subject.outdated) return "This is the batt before the last change: that one has no forecast.";
    if (latest->missing_glyphs > 0)
        return std::to_string(latest->missing_glyphs) +
               " characters have no font here and are drawn as boxes.";
    if (latest->code_left_out) return "The QR code does not fit on this page and is left out.";
    return "";
}

void foot(const Ui& ui, CardState& state, const CardSubject& subject) {
    gap(ui, 2.0f);
    leave_button(ui, "Back to the bench##card done", escape_pressed(ui));
    const auto& latest = ui.card.shown().latest;
    if (latest && latest->sides.size() > 1) {
        ImGui::SameLine(0.0f, ui.px(18.0f));
        beside(ui, "Side");
        ImGui::SameLine();
        const int sides = static_cast<int>(latest->sides.size());
        if (const auto side = stepper(ui, "side", static_cast<int>(state.side) + 1, 1, sides)) {
            state.side = static_cast<std::size_t>(*side - 1);
            ui.ask.another_frame = true;
        }
        ImGui::SameLine();
        text_in(ui, ui.fonts.body, ui.theme.quiet, "of " + std::to_string(sides));
    }
    if (const std::string words = remark(ui, subject); !words.empty()) {
        beside_or_below(ui, 18.0f, ui.px(180.0f));
        ImGui::AlignTextToFramePadding();
        text_within(ui, ui.fonts.body, ui.theme.warning, words, ImGui::GetContentRegionAvail().x);
    }
}

void card_settings(const Ui& ui, CardState& state, const CardSubject& subject) {
    what_to_print(ui, state);
    gap(ui, 4.0f);
    rule(ui);
    view_card_files(ui, state, subject);
}

void beside_each_other(const Ui& ui, CardState& state, const CardSubject& subject) {
    const float room = ImGui::GetContentRegionAvail().x, between = ui.px(22.0f);
    const float side = std::min(ui.px(480.0f), 0.5f * room);
    begin_child("card left", {room - side - between, 0.0f}, false,
                ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    preview(ui, state, subject, -(ImGui::GetFrameHeight() + ui.px(20.0f)));
    foot(ui, state, subject);
    ImGui::EndChild();
    ImGui::SameLine(0.0f, between);
    begin_child("card right", {0.0f, 0.0f});
    card_settings(ui, state, subject);
    ImGui::EndChild();
}

// In a narrow window: the page above what stands on it, which scrolls.
void below_each_other(const Ui& ui, CardState& state, const CardSubject& subject) {
    const float foot_height = 2.0f * ImGui::GetFrameHeightWithSpacing() + ui.px(4.0f);
    begin_child("card all", {0.0f, ImGui::GetContentRegionAvail().y - foot_height});
    preview(ui, state, subject, ui.px(300.0f));
    gap(ui, 4.0f);
    card_settings(ui, state, subject);
    ImGui::EndChild();
    foot(ui, state, subject);
}

}  // namespace

void card_row(const Ui& ui, std::string_view words) {
    row_label(ui, words, card_row_width);
}

void follow_card(CardState& state, const CardSession& session) {
    const auto& latest = session.shown().latest;
    if (!latest || latest->sides.empty()) return;
    state.side = std::min(state.side, latest->sides.size() - 1);
    state.page_of.of({latest, state.side}, [&](const CardState::PageInputs& inputs, bool&) {
        state.page.keep(inputs.made->sides[inputs.side]);
    });
}

void view_card(const Ui& ui, const PanelHead& head, CardState& state, const CardSubject& subject) {
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    if (!begin_card(ui, head,
                    card_size(ui, {ui.px(1400.0f), std::min(whole.y - ui.px(40.0f), ui.px(1200.0f))},
                              {0.0f, 400.0f})))
        return;
    state.draft = ui.card.draft();
    state.draft.choice.mass = ui.settings.mass;
    state.draft.choice.length = ui.settings.length;
    if (has_room(ui, 860.0f))
        beside_each_other(ui, state, subject);
    else
        below_each_other(ui, state, subject);
    end_card();
    if (!(state.draft == ui.card.draft())) ui.ask.act_first(ChangeCard{state.draft});
}

void report_card(const CardSession& session, Probe& probe) {
    auto& facts = probe.state;
    const Writing& writing = session.writing();
    const auto& latest = session.shown().latest;
    facts["card settled"] = session.settled() ? "yes" : "no";
    facts["card sides"] = std::to_string(latest ? latest->sides.size() : 0);
    facts["card complaint"] = session.complaint();
    facts["card written"] = std::to_string(writing.batch ? writing.result.written : writing.files.size());
    std::string failed;
    for (const auto& one : writing.result.failed) failed += measure::to_line(one) + "\n";
    facts["card failed"] = failed;
}

}  // namespace battwright::window
