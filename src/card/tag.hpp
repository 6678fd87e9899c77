// The tag that hangs on a skein or a batt.
#pragma once

#include <string>

#include "card/figures.hpp"
#include "card/label.hpp"
#include "card/page.hpp"

namespace battwright::card {

// What the forecast does not know; an empty text or a zero is not printed.
struct TagOptions {
    Market market = Market::eu_uk;
    LabelOptions label;
    Units units;
    std::string maker;  // as typed
    std::string lot;
    std::string length;  // as typed: "380 m"
    double grams = 0.0;  // of this skein or batt; 0: the whole recipe's
    std::string date;
    bool skein = false;  // print the yarn's plies and thickness from the recipe
    bool care = true;
};

Page tag(const forecast::Forecast& forecast, const TagOptions& options);

// A content label by itself, with its rules, for either market.
Page label_page(const std::string& name, const Label& label);

}  // namespace battwright::card
