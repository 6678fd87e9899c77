// Several colours picked off one photo, and who is given them. No display.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "app/bench/sheet.hpp"
#include "colour/palette.hpp"
#include "fibre/catalogue.hpp"
#include "stash/shelf.hpp"

namespace battwright::app {

inline constexpr std::size_t most_picks = 12;

// The colour around a place: the mean of 5 x 5 pixels in linear light, so that one hair does not decide.
colour::Srgb colour_around(const colour::Pixels& photo, const colour::Point& at);

struct Pick {
    colour::Point at;     // in the photo's pixels
    colour::Srgb seen;    // there
    colour::Srgb colour;  // with the photo's light taken out, whole in eight bits
    std::size_t to = 0;   // whose it is to be, by number
};

class Picks {
  public:
    // One more, the oldest going when there are `most` already; a place outside the photo picks nothing.
    void pick(const colour::Pixels& photo, const colour::Point& at, std::size_t to,
              std::size_t most = most_picks);
    void give(std::size_t index, std::size_t to) { picks_.at(index).to = to; }
    void drop(std::size_t index) { picks_.erase(picks_.begin() + static_cast<std::ptrdiff_t>(index)); }
    // Something white in truth: all colours are put right by it. One that nothing can be told by is told of,
    // and the photo's own light stays.
    void point_at_white(const colour::Pixels& photo, const colour::Point& at);
    void forget_white();

    const std::vector<Pick>& all() const { return picks_; }
    const std::optional<colour::Point>& white() const { return white_; }
    const std::string& trouble() const { return trouble_; }
    // As it would be if it was picked: for a preview.
    colour::Srgb preview(const colour::Pixels& photo, const colour::Point& at) const;

  private:
    colour::Srgb put_right(const colour::Srgb& seen) const;

    std::vector<Pick> picks_;
    std::optional<colour::Point> white_;
    colour::WhiteBalance balance_;
    std::string trouble_;
};

// Who can be given a colour: a fibre of the batt, or a lot on the shelf.
struct PickTarget {
    std::string words;
    std::optional<std::size_t> component;
    std::string lot;  // its mark
};
std::vector<PickTarget> pick_targets(const Sheet& sheet, const stash::Shelf& shelf,
                                     const fibre::Catalogue& catalogue);
// Whose the next pick is, in turn: the fibres of the batt from `first` on, or the lots where there is none.
std::size_t next_target(const Picks& picks, const std::vector<PickTarget>& targets, std::size_t first);

// What is given several colours has them in even shares.
// The batt with its fibres in their new colours; as it was when none was given one.
Sheet with_picks(Sheet sheet, const Picks& picks, const std::vector<PickTarget>& targets);
// The lots that were given colours, with these and with the photo's path where they had no photo.
std::vector<stash::Lot> lots_with_picks(const stash::Shelf& shelf, const Picks& picks,
                                        const std::vector<PickTarget>& targets, const std::string& path);

}  // namespace battwright::app
