// How the single is twisted and made up into a yarn, as the plan says it.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "colour/spectrum.hpp"
#include "measure/choices.hpp"
#include "recipe/content.hpp"

namespace battwright::recipe {

// Ways to use a single. `plied`: n singles of the same fibre (one ply is the single as it is). `chain`: three
// strands looped from one single. `barber_pole`: the batt parted down its middle, each half spun by itself.
// `with_thread`: one single and a bought thread.
enum class Plying { plied, chain, barber_pole, with_thread };
enum class Twist { soft, medium, firm };

// A bought thread: its count, what is on the cone and what it is spun from. Without a colour it is undyed;
// without a content nobody has told.
struct Thread {
    double tex = 0.0;
    double length_m = 0.0;
    std::optional<colour::Srgb> colour = std::nullopt;
    std::vector<Content> content{};
    bool operator==(const Thread& other) const = default;
};

// `word` as in a recipe, `label` for a person, `strands` in the finished yarn (0: the number of plies).
struct PlyingRow {
    Plying value;
    std::string_view word, label;
    int strands;
};
inline constexpr std::array<PlyingRow, 4> plyings{{
    {Plying::plied, "plied", "plied", 0},
    {Plying::chain, "chain", "chain ply", 3},
    {Plying::barber_pole, "barber-pole", "barber pole", 2},
    {Plying::with_thread, "with-thread", "plied with a thread", 2},
}};
inline constexpr std::array<measure::Word<Twist>, 3> twists{{
    {Twist::soft, "soft"},
    {Twist::medium, "medium"},
    {Twist::firm, "firm"},
}};
static_assert(measure::one_row_each(plyings) && measure::one_row_each(twists));

// As in a recipe: "plied", "chain", "barber-pole", "with-thread"; "soft", "medium", "firm".
std::string_view file_word(Plying plying);
std::string_view word_for(Twist twist);
measure::Expected<Plying> parse_plying(std::string_view text);
measure::Expected<Twist> parse_twist(std::string_view text);

// Turns of the flyer (or spindle) for one of the wheel: "8.5:1", or the number alone.
measure::Expected<double> parse_wheel_ratio(std::string_view text);

}  // namespace battwright::recipe
