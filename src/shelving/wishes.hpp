// What a person asks of a blend, in her own words: bounds, totals, colours.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"
#include "measure/units.hpp"
#include "solve/problem.hpp"

namespace battwright::shelving {

// What a word stands for: a family ("wool"), a kind by id or name, an EU label name, a lot by id or name, a
// kind by any other word for it; the first of these that fits, case ignored. A complaint suggests the
// nearest.
struct Named {
    solve::ShareOf of = solve::ShareOf::kind;
    std::string what;
};
measure::Expected<Named> named(std::string_view word, const fibre::Catalogue& catalogue,
                               const std::vector<solve::Lot>& lots);

// "wool >= 60 %", "sparkle <= 3 %" (also "at least", "at most"), "silk 10-20 %", "silk 10 to 20 %", and
// "silk 15 %" or "silk = 15 %" for exactly so much.
measure::Expected<solve::ShareBound> parse_share_bound(std::string_view text,
                                                       const fibre::Catalogue& catalogue,
                                                       const std::vector<solve::Lot>& lots);

// "100 g" for exactly that, "80-120 g", "80 to 120 g", ">= 80 g", "at most 4 oz".
measure::Expected<solve::Total> parse_total(std::string_view text);

// Text that parse_total() reads back, in that unit; "" for a total left open.
std::string print_total(const solve::Total& total, measure::MassUnit unit);

// The least of a lot that is worth weighing out, where no other least is asked for. Common practice, no
// source.
inline constexpr double least_used_grams = 1.0;

// "#2f5d50", a colour's name ("dark blue"), or Lab under D65 as "50,10,-20"; empty when the text is neither,
// so that it may be a file's name. A text that sets out to be a colour and is none is a complaint.
std::optional<measure::Expected<solve::Target>> parse_target(std::string_view text);

}  // namespace battwright::shelving
