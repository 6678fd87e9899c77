// Every gram that came to a lot or left it. A movement is written once; what was wrong is put right by
// another one that names it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/complaint.hpp"
#include "stash/lot.hpp"

namespace battwright::stash {

enum class Reason {
    bought,      // or grown, or given to me: more than zero
    carded,      // into a batt: less than zero
    taken_back,  // a batt undone: more than zero
    wasted,      // moth, felting, the floor: less than zero
    given,       // away or sold: less than zero
    scoured,     // grease and dirt that went down the drain: less than zero
    weighed,     // the scale says otherwise: either way
    corrected    // restates the movement it names: either way
};
std::string_view word_for(Reason reason);  // "taken back", ...
measure::Expected<Reason> parse_reason(std::string_view text);

struct Movement {
    std::int64_t id = 0;
    std::int64_t lot = 0;
    Reason reason = Reason::bought;
    double grams = 0.0;  // signed
    std::string date;    // ISO
    std::string note;
    std::optional<Money> cost;                // of a purchase after the first
    std::optional<std::int64_t> batt;         // carded, taken back
    std::optional<std::int64_t> of_movement;  // corrected, taken back: the one it puts right
};

// Something a person does to one lot; `grams` is above zero, the reason gives it its sign.
struct Move {
    std::string mark;
    Reason reason = Reason::wasted;  // bought, wasted or given
    double grams = 0.0;
    std::string date;  // "": today
    std::string note;
    std::optional<Money> cost;  // bought only
};

}  // namespace battwright::stash
