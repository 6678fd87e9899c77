// Inside this room: what a catalogue file states in numbers, each with its unit and sane bounds.
#pragma once

#include <span>
#include <string_view>

#include "fibre/catalogue.hpp"
#include "measure/complaint.hpp"

namespace battwright::fibre {

struct Figure {
    std::string_view key;
    std::string_view noun;
    double Kind::*value;
    measure::Expected<double> (*parse)(std::string_view text);  // nullptr: a plain number in the file
    double low;                                                 // bounds in the unit of the file, inclusive
    double high;
    double scale;  // from the unit of the file to that of Kind
    std::string_view unit;
    std::string_view example;
};

std::span<const Figure> figures();

}  // namespace battwright::fibre
