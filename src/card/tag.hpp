// The tag that hangs on a skein or a batt.
#pragma once

#include <string>

#include "card/content.hpp"
#include "card/figures.hpp"
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
    bool skein = false;  // of the yarn, with its plies and thickness; else of the batt
    bool care = true;
    bool picture = true;  // of the fibre as it is carded
    bool draft = true;    // print that the content is a draft to be checked
};

// The content such a tag states: of the yarn for a skein, else of the batt.
Label label_of(const forecast::Forecast& forecast, const TagOptions& options);
// Where no label may be given, the tag says so in the content's place, and why.
Page tag(const forecast::Forecast& forecast, const TagOptions& options);

// A content label by itself, with its rules and notes, for either market.
Page label_page(const std::string& name, const Label& label, Product product, bool draft = true);

}  // namespace battwright::card
