#include "window/views/photo/picks.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "app/bench/disagreement.hpp"
#include "app/bench/document.hpp"
#include "app/bench/sheet.hpp"
#include "app/half_typed.hpp"
#include "app/shelf/stash_requests.hpp"
#include "app/shelf/stash_session.hpp"
#include "colour/spaces.hpp"
#include "window/kit/photo_marks.hpp"
#include "window/views/files/files.hpp"

namespace battwright::window {
namespace {

constexpr float side_width = 318.0f;
const ImVec2 least_card{600.0f, 400.0f};

struct OnScreen {
    ImVec2 at;
    float scale = 1.0f;  // screen pixels a pixel of the photo
    ImVec2 of(const colour::Point& point) const {
        return {at.x + scale * static_cast<float>(point.x), at.y + scale * static_cast<float>(point.y)};
    }
    colour::Point photo(ImVec2 screen) const {
        return {static_cast<double>((screen.x - at.x) / scale),
                static_cast<double>((screen.y - at.y) / scale)};
    }
};

void draw_pick(const Ui& ui, ImVec2 at, const colour::Srgb& colour, const std::string& number) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float radius = ui.px(11.0f);
    list.AddCircleFilled(at, radius, u32(colour));
    list.AddCircle(at, radius + ui.px(1.5f), u32({0.0, 0.0, 0.0}), 0, ui.px(1.5f));
    list.AddCircle(at, radius, u32({1.0, 1.0, 1.0}), 0, ui.px(1.5f));
    const float size = ui.fonts.small->FontSize;
    list.AddText(ui.fonts.small, size, {at.x - 0.5f * width_of(ui.fonts.small, number), at.y - 0.5f * size},
                 u32(readable_on(colour)), number.c_str());
}

void draw_picks(const Ui& ui, const Picks& picks, const OnScreen& screen) {
    if (picks.white()) {
        const ImVec2 at = screen.of(*picks.white());
        ImDrawList& list = *ImGui::GetWindowDrawList();
        list.AddCircle(at, ui.px(10.0f), u32({0.0, 0.0, 0.0}), 24, ui.px(4.0f));
        list.AddCircle(at, ui.px(10.0f), u32({1.0, 1.0, 1.0}), 24, ui.px(2.0f));
    }
    for (std::size_t i = 0; i < picks.all().size(); ++i)
        draw_pick(ui, screen.of(picks.all()[i].at), picks.all()[i].colour, std::to_string(i + 1));
}

// Beside the pointer, as large as it takes to judge it.
void draw_preview(const Ui& ui, const colour::Srgb& colour, ImVec2 pointer) {
    const ImVec2 middle{pointer.x + ui.px(34.0f), pointer.y - ui.px(34.0f)};
    ImDrawList& list = *ImGui::GetForegroundDrawList();
    list.AddCircleFilled(middle, ui.px(24.0f), u32(colour));
    list.AddCircle(middle, ui.px(24.0f), u32(readable_on(colour)), 0, ui.px(2.0f));
}

// The photo as large as there is room; where it was pressed.
std::optional<colour::Point> pressed_on(const Ui& ui, PicksState& state, ImVec2 room) {
    const Photo& photo = state.photo;
    const auto wide = static_cast<float>(photo.width()), high = static_cast<float>(photo.height());
    OnScreen screen{ImGui::GetCursorScreenPos(), std::min(room.x / wide, room.y / high)};
    const ImVec2 size{std::max(1.0f, screen.scale * wide), std::max(1.0f, screen.scale * high)};
    const bool pressed = ImGui::InvisibleButton("photo", size);
    mark(ui, "photo");
    ImGui::GetWindowDrawList()->AddImage(photo.id(), screen.at, {screen.at.x + size.x, screen.at.y + size.y});
    const auto keyed = pressed_by_keys(ui, pressed, photo, screen.at, screen.scale, state.cursor);
    draw_picks(ui, state.picks, screen);
    const bool by_keys = keys_point() && state.cursor;
    if (!by_keys && !ImGui::IsItemHovered()) return {};
    const ImVec2 pointer = by_keys ? screen.of(*state.cursor) : ImGui::GetIO().MousePos;
    const colour::Point here = by_keys ? *state.cursor : screen.photo(pointer);
    if (!state.pointing_at_white) draw_preview(ui, state.picks.preview(photo.pixels(), here), pointer);
    return by_keys ? keyed : pressed ? std::optional(here) : std::nullopt;
}

void tools(const Ui& ui, PicksState& state) {
    const auto tool =
        choices(ui, "photo tool", {"pick colours", "point at white"}, state.pointing_at_white ? 1 : 0);
    if (tool) state.pointing_at_white = *tool == 1;
    paragraph(
        ui,
        state.pointing_at_white
            ? "Press on something that is white in truth, such as paper: the photo's light is then taken "
              "out of every colour."
            : "Press where a colour is; the mean of a few pixels is taken. By keys: the arrows, finer with "
              "Shift, and Enter.",
        ui.theme.quiet);
    if (!state.picks.trouble().empty()) paragraph(ui, state.picks.trouble(), ui.theme.spoils);
    if (state.picks.white() &&
        button(ui, "Forget the white##forget white", Tone::plain, 0.0f, "The colours as the photo has them"))
        state.picks.forget_white();
}

void photo_field(const Ui& ui, PicksState& state, PhotoOf of) {
    const auto path = file_field(ui, "photo file", state.path, ImGui::GetContentRegionAvail().x,
                                 {.hint = "a picture's file, or let it fall on this window"});
    if (!path) return;
    state.path = *path;
    state.trouble.clear();
    if (!path->empty()) ui.ask.photos.push_back({of, *path});
}

// The photo on the left; `side` draws what stands on its right.
template <class Side>
std::optional<colour::Point> photo_and(const Ui& ui, PicksState& state, float foot, const Side& side) {
    const float between = ui.px(16.0f), right = ui.px(side_width);
    const ImVec2 room{ImGui::GetContentRegionAvail().x - right - between,
                      ImGui::GetContentRegionAvail().y - foot};
    std::optional<colour::Point> pressed;
    begin_child("photo side", room, false, ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NavFlattened);
    if (!state.trouble.empty()) paragraph(ui, state.trouble, ui.theme.spoils);
    if (state.photo.empty())
        paragraph(ui,
                  "Lay the fibre beside a sheet of white paper, out of the sun, and take a photo. A photo's "
                  "colours are only as true as its light and its camera.",
                  ui.theme.ink);
    else
        pressed = pressed_on(ui, state, {room.x, ImGui::GetContentRegionAvail().y});
    ImGui::EndChild();
    ImGui::SameLine(0.0f, between);
    begin_child("picks side", {right, room.y}, false, ImGuiWindowFlags_NavFlattened);
    if (!state.photo.empty()) {
        tools(ui, state);
        side();
    }
    ImGui::EndChild();
    return pressed;
}

void swatch_of(const Ui& ui, const colour::Srgb& colour, float width, float height) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled(at, {at.x + width, at.y + height}, u32(colour), ui.px(6.0f));
    list.AddRect(at, {at.x + width, at.y + height}, u32(ui.theme.edge), ui.px(6.0f));
    ImGui::Dummy({width, height});
}

// `words`: who it may be given to; none where that is not asked.
void row_of_pick(const Ui& ui, PicksState& state, std::size_t index, const std::vector<std::string>& words) {
    const Pick pick = state.picks.all()[index];
    const std::string number = std::to_string(index + 1);
    ImGui::PushID(static_cast<int>(index));
    swatch_of(ui, pick.colour, ui.px(56.0f), ImGui::GetFrameHeight());
    hover(ui, colour::hex(pick.colour));
    ImGui::SameLine();
    ImGui::AlignTextToFramePadding();
    text_in(ui, ui.fonts.bold, ui.theme.ink, number);
    ImGui::SameLine(ui.px(86.0f));
    const float drop = ui.px(36.0f);
    const float width = ImGui::GetContentRegionAvail().x - drop - ui.px(6.0f);
    if (words.empty()) {
        ImGui::AlignTextToFramePadding();
        text_within(ui, ui.fonts.body, ui.theme.quiet, colour::hex(pick.colour), width);
    } else if (const auto to = drop_down(ui, "pick " + number + " to", words,
                                         std::min(pick.to, words.size() - 1), width)) {
        state.picks.give(index, *to);
    }
    ImGui::SameLine(ImGui::GetCursorPosX() + ImGui::GetContentRegionAvail().x - drop);
    if (button(ui, "\u00d7##drop pick " + number, Tone::plain, drop, "Not this colour"))
        state.picks.drop(index);
    ImGui::PopID();
}

void take(const Ui& ui, const PicksState& state, const std::vector<PickTarget>& targets) {
    const bool any = std::ranges::any_of(state.picks.all(), [&](const Pick& pick) {
        return pick.to < targets.size() && targets[pick.to].component;
    });
    if (any) ui.ask.edit(with_picks(ui.document.sheet(), state.picks, targets), "take colours from a photo");
    for (auto& lot : lots_with_picks(ui.stash.shelf(), state.picks, targets, state.path))
        ui.ask.of_stash(ChangeLot{std::move(lot)});
}

std::string picked_words(const PicksState& state) {
    std::string colours;
    for (const Pick& pick : state.picks.all())
        colours += (colours.empty() ? "" : " ") + colour::hex(pick.colour) + ">" + std::to_string(pick.to);
    return colours;
}

// What was picked is let go at the second press only.
bool may_leave_picks(PicksState& state) {
    state.asks = !may_let_go(state.let_go_asked, picked_words(state));
    if (!state.asks) state.picks = {};
    return !state.asks;
}

bool take_picks_button(const Ui& ui, std::size_t count) {
    return button(ui, count > 1 ? "Take these colours##take picks" : "Take this colour##take picks",
                  Tone::accent, ui.px(170.0f));
}

}  // namespace

void take_picks_photo(PicksState& state, measure::Expected<Photo> photo, const std::filesystem::path& path) {
    state.path = path.string();
    state.trouble = photo ? "" : measure::to_line(photo.error());
    if (!photo) return;
    state.photo = std::move(*photo);
    state.picks = {};
    state.cursor.reset();
    state.asks = false;
    state.pointing_at_white = false;
}

void view_picks(const Ui& ui, const PanelHead& head, PicksState& state) {
    if (!begin_card(ui, head, card_size(ui, {ui.px(980.0f), ui.px(660.0f)}, least_card))) return;
    const auto targets = pick_targets(ui.document.sheet(), ui.stash.shelf(), ui.catalogue);
    std::vector<std::string> words;
    words.reserve(targets.size());
    for (const PickTarget& target : targets) words.push_back(target.words);
    photo_field(ui, state, PhotoOf::picks);
    const auto pressed = photo_and(ui, state, ImGui::GetFrameHeight() + ui.px(18.0f), [&] {
        if (words.empty())
            paragraph(ui, "Nothing is on the bench or the shelf yet that could be given a colour.",
                      ui.theme.ink);
        // A row may take itself out.
        for (std::size_t i = 0; !words.empty() && i < state.picks.all().size(); ++i)
            row_of_pick(ui, state, i, words);
        if (!state.picks.all().empty())
            paragraph(ui, "What is given several colours has them in even shares.", ui.theme.quiet);
    });
    if (pressed && state.pointing_at_white) {
        state.picks.point_at_white(state.photo.pixels(), *pressed);
        state.pointing_at_white = !state.picks.white();
    } else if (pressed && !targets.empty()) {
        state.picks.pick(state.photo.pixels(), *pressed, next_target(state.picks, targets, state.first));
    }
    const bool escape = escape_leaves(ui);
    const std::size_t count = state.picks.all().size();
    ImGui::BeginDisabled(count == 0 || targets.empty());
    const bool taken = take_picks_button(ui, count);
    ImGui::EndDisabled();
    if (taken) take(ui, state, targets);
    ImGui::SameLine();
    const bool leave = button(ui, "Not now##photo leave", Tone::plain, ui.px(110.0f)) || escape;
    if (taken || (leave && may_leave_picks(state))) ImGui::CloseCurrentPopup();
    if (state.asks) {
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        text_within(ui, ui.fonts.body, ui.theme.spoils,
                    "These colours are given to nothing yet; press again to let them go.",
                    ImGui::GetContentRegionAvail().x);
        mark_words(ui, "picks asked");
    }
    end_card();
}

std::optional<colour::Srgb> view_one_pick(const Ui& ui, PicksState& state, PhotoOf of) {
    const auto picked = view_some_picks(ui, state, of, {});
    return picked ? std::optional(picked->front()) : std::nullopt;
}

std::optional<std::vector<colour::Srgb>> view_some_picks(const Ui& ui, PicksState& state, PhotoOf of,
                                                         const PicksCard& card) {
    std::optional<std::vector<colour::Srgb>> picked;
    const ImVec2 size = card_size(ui, {ui.px(940.0f), ui.px(640.0f)}, least_card);
    if (!begin_card(ui, "photo card", card.title, size)) return picked;
    photo_field(ui, state, of);
    const auto& all = state.picks.all();
    const auto pressed = photo_and(ui, state, ImGui::GetFrameHeight() + ui.px(18.0f), [&] {
        // A row may take itself out.
        for (std::size_t i = 0; card.most > 1 && i < all.size(); ++i) row_of_pick(ui, state, i, {});
        if (all.empty() || card.most > 1) return;
        swatch_of(ui, all.front().colour, ImGui::GetContentRegionAvail().x, ui.px(120.0f));
        text_in(ui, ui.fonts.body, ui.theme.quiet, colour::hex(all.front().colour));
    });
    if (pressed && state.pointing_at_white) {
        state.picks.point_at_white(state.photo.pixels(), *pressed);
        state.pointing_at_white = !state.picks.white();
    } else if (pressed) {
        state.picks.pick(state.photo.pixels(), *pressed, 0, card.most);
    }
    const bool escape = escape_leaves(ui);
    ImGui::BeginDisabled(all.empty());
    if (take_picks_button(ui, all.size())) {
        picked.emplace();
        for (const Pick& pick : all) picked->push_back(pick.colour);
    }
    ImGui::EndDisabled();
    ImGui::SameLine();
    if (button(ui, "Not now##photo leave", Tone::plain, ui.px(110.0f)) || escape || picked)
        ImGui::CloseCurrentPopup();
    end_card();
    return picked;
}

void report_picks(const PicksState& state, Probe& probe) {
    probe.state["picks"] = picked_words(state);
    probe.state["picks photo"] = state.photo.empty() ? "none" : "there";
    probe.state["picks trouble"] = state.trouble + state.picks.trouble();
}

}  // namespace battwright::window
