#include "app/photo/picks.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "app/bench/edits.hpp"
#include "app/shelf/shelf_choice.hpp"
#include "colour/spaces.hpp"
#include "forecast/forecast.hpp"
#include "recipe/tints.hpp"

namespace battwright::app {
namespace {

bool lies_on(const colour::Pixels& photo, const colour::Point& at) {
    return at.x >= 0.0 && at.y >= 0.0 && at.x < photo.width && at.y < photo.height;
}

// The colours given to that target, in even shares; none when it was given none.
std::vector<recipe::Tint> given_to(const Picks& picks, std::size_t target) {
    std::vector<colour::Srgb> colours;
    for (const Pick& pick : picks.all())
        if (pick.to == target) colours.push_back(pick.colour);
    return recipe::even_palette(colours);
}

}  // namespace

colour::Srgb colour_around(const colour::Pixels& photo, const colour::Point& at) {
    const int x = static_cast<int>(std::floor(at.x)), y = static_cast<int>(std::floor(at.y));
    colour::LinearRgb sum;
    double count = 0.0;
    for (int v = std::max(0, y - 2); v <= std::min(photo.height - 1, y + 2); ++v) {
        for (int u = std::max(0, x - 2); u <= std::min(photo.width - 1, x + 2); ++u) {
            const auto place = (static_cast<std::size_t>(v) * static_cast<std::size_t>(photo.width) +
                                static_cast<std::size_t>(u)) *
                               3;
            const auto light = colour::linear(
                {photo.rgb[place] / 255.0, photo.rgb[place + 1] / 255.0, photo.rgb[place + 2] / 255.0});
            sum = {sum.r + light.r, sum.g + light.g, sum.b + light.b};
            count += 1.0;
        }
    }
    if (count <= 0.0) return {};
    return colour::clipped(colour::encoded({sum.r / count, sum.g / count, sum.b / count}));
}

colour::Srgb Picks::put_right(const colour::Srgb& seen) const {
    const colour::Srgb right = colour::clipped(white_ ? colour::balanced(seen, balance_) : seen);
    const auto whole = colour::parse_hex(colour::hex(right));
    return whole ? *whole : right;
}

colour::Srgb Picks::preview(const colour::Pixels& photo, const colour::Point& at) const {
    return put_right(colour_around(photo, at));
}

void Picks::pick(const colour::Pixels& photo, const colour::Point& at, std::size_t to, std::size_t most) {
    if (!lies_on(photo, at)) return;
    if (picks_.size() >= most) picks_.erase(picks_.begin());
    const colour::Srgb seen = colour_around(photo, at);
    picks_.push_back({at, seen, put_right(seen), to});
}

void Picks::point_at_white(const colour::Pixels& photo, const colour::Point& at) {
    const auto balance = colour::white_from(photo, colour::patch_around(at, photo), colour::paper_reflects);
    if (!balance) {
        forget_white();
        trouble_ = measure::to_line(balance.error());
        return;
    }
    white_ = at;
    balance_ = *balance;
    trouble_.clear();
    for (Pick& pick : picks_) pick.colour = put_right(pick.seen);
}

void Picks::forget_white() {
    white_.reset();
    trouble_.clear();
    for (Pick& pick : picks_) pick.colour = put_right(pick.seen);
}

std::vector<PickTarget> pick_targets(const Sheet& sheet, const stash::Shelf& shelf,
                                     const fibre::Catalogue& catalogue) {
    std::vector<PickTarget> targets;
    for (std::size_t i = 0; i < sheet.recipe.components.size(); ++i)
        targets.push_back(
            {std::to_string(i + 1) + ": " + forecast::label_of(sheet.recipe.components[i], catalogue),
             i,
             {}});
    for (const auto& shelved : shelf.lots) {
        std::string words = "lot " + shelved->lot.mark;
        append(words, shelved->lot.name);
        targets.push_back({std::move(words), {}, shelved->lot.mark});
    }
    return targets;
}

std::size_t next_target(const Picks& picks, const std::vector<PickTarget>& targets, std::size_t first) {
    if (targets.empty()) return 0;
    const auto fibres = static_cast<std::size_t>(std::ranges::count_if(
        targets, [](const PickTarget& target) { return target.component.has_value(); }));
    const std::size_t count = first < fibres ? fibres : targets.size();
    const std::size_t from = first < count ? first : 0;
    return (from + picks.all().size()) % count;
}

Sheet with_picks(Sheet sheet, const Picks& picks, const std::vector<PickTarget>& targets) {
    for (std::size_t i = 0; i < targets.size(); ++i) {
        if (!targets[i].component || *targets[i].component >= sheet.recipe.components.size()) continue;
        if (auto palette = given_to(picks, i); !palette.empty())
            sheet = set_palette(std::move(sheet), *targets[i].component, std::move(palette));
    }
    return sheet;
}

std::vector<stash::Lot> lots_with_picks(const stash::Shelf& shelf, const Picks& picks,
                                        const std::vector<PickTarget>& targets, const std::string& path) {
    std::vector<stash::Lot> changed;
    for (std::size_t i = 0; i < targets.size(); ++i) {
        if (targets[i].component) continue;
        auto palette = given_to(picks, i);
        if (palette.empty()) continue;
        for (const auto& shelved : shelf.lots) {
            if (shelved->lot.mark != targets[i].lot) continue;
            stash::Lot lot = shelved->lot;
            lot.palette = std::move(palette);
            if (lot.photo.empty()) lot.photo = path;
            changed.push_back(std::move(lot));
            break;
        }
    }
    return changed;
}

}  // namespace battwright::app
