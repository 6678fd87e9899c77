// The recipe card: what was designed, so that it can be made again.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "card/figures.hpp"
#include "card/page.hpp"
#include "card/paper.hpp"
#include "forecast/forecast.hpp"

namespace battwright::card {

// The parts of a card, in the order they are printed. To add one: a value here and a row in recipe_card.cpp.
enum class Part {
    strip,
    weights,
    batts,
    content,
    carding,
    plan,
    staple,
    yarn,
    findings,
    notes,
    care,
    outcome,
    code
};

struct CardOptions {
    std::string date;  // as it shall be printed; may be empty
    Units units;
    std::set<Part> parts{Part::strip, Part::weights,  Part::batts, Part::content, Part::carding, Part::staple,
                         Part::yarn,  Part::findings, Part::notes, Part::outcome, Part::code};
    measure::YarnLengthUnit yarn_length = measure::YarnLengthUnit::metre;
};

// The usual parts; of a batt laid by hand the steps too, where a card on that paper has room for them on the
// sides it has in any case. Text has no sides, and always room.
std::set<Part> usual_parts(const forecast::Forecast& forecast, const CardOptions& options,
                           std::optional<Paper> paper);

// Where the steps of a batt laid by hand are left out, the carding says which part has them.
Page recipe_card(const forecast::Forecast& forecast, const CardOptions& options);

const std::vector<Part>& all_parts();
std::string_view word_for(Part part);   // as --parts has it
std::string_view label_for(Part part);  // on a control, and what it is
std::string_view help_for(Part part);
// "strip,weights,code"; the complaint names the parts there are.
measure::Expected<std::set<Part>> parse_parts(std::string_view words);

}  // namespace battwright::card
