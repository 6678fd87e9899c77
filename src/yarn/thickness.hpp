// Relaxed thickness: wraps per inch laid on by hand, and the names people give it. How wraps go with length
// is law.hpp.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "recipe/composition.hpp"
#include "recipe/thickness.hpp"

namespace battwright::yarn {

using recipe::Twist;
using recipe::word_for;

double relaxed_diameter_mm(double wpi);

// The eight classes of the Craft Yarn Council system, finest first, by their plain words.
struct ThicknessClass {
    std::string_view name;
    int number = 0;            // 0 lace to 7 jumbo
    std::string_view trade;    // what a trade calls it: "sport or 5-ply"; empty where it says the same
    double from_wpi = 0.0;     // this many wraps and up, to the next finer class
    double typical_wpi = 0.0;  // what a plan that names only the class is taken to mean
    // As an encyclopaedia's table of the system gives them. Open at 0 or where not given; the tables disagree
    // with each other, so the class always comes from the wraps.
    std::optional<double> metres_per_100_g_low, metres_per_100_g_high;
};
std::span<const ThicknessClass> thickness_classes();
const ThicknessClass& class_of_wpi(double wpi);
// By any name recipe::thickness_named() knows; nullptr when there is none.
const ThicknessClass* class_named(std::string_view name);
// Both systems for a person: "fine, 2 (sport or 5-ply)". The name a plan used stands first when given.
std::string both_names(const ThicknessClass& thickness, std::string_view planned = {});

}  // namespace battwright::yarn
