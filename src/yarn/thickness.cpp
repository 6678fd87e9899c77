#include "yarn/thickness.hpp"

#include <algorithm>
#include <array>

#include "yarn/count.hpp"

namespace battwright::yarn {
namespace {

// Wraps: the tables give 18 and up, 14-17, 12-13, 11, 9, 7, 5-6 and fewer; the borders halve the gaps between
// them. Typical wraps are the middle, and for the open ends a guess (common practice, no source).
constexpr std::array classes{
    ThicknessClass{"lace", 0, "2-ply", 17.5, 20.0, 600.0, 800.0},
    ThicknessClass{"super fine", 1, "fingering, sock or 4-ply", 13.5, 15.5, 400.0, 480.0},
    ThicknessClass{"fine", 2, "sport or 5-ply", 11.5, 12.5, 300.0, 400.0},
    ThicknessClass{"light", 3, "DK or 8-ply", 10.0, 11.0, 240.0, 300.0},
    ThicknessClass{"medium", 4, "worsted weight, aran or 10-ply", 8.0, 9.0, 120.0, 240.0},
    ThicknessClass{"bulky", 5, "chunky or 12-ply", 6.5, 7.0, 100.0, 130.0},
    ThicknessClass{"super bulky", 6, "", 4.5, 5.5, std::nullopt, 100.0},
    ThicknessClass{"jumbo", 7, "", 0.0, 3.5, std::nullopt, std::nullopt},
};

}  // namespace

double relaxed_diameter_mm(double wpi) {
    return wpi > 0.0 ? measure::millimetres_per_inch / wpi : 0.0;
}

std::span<const ThicknessClass> thickness_classes() {
    return classes;
}

const ThicknessClass& class_of_wpi(double wpi) {
    const auto* const found =
        std::find_if(classes.begin(), classes.end(), [&](const auto& c) { return wpi >= c.from_wpi; });
    return found == classes.end() ? classes.back() : *found;
}

const ThicknessClass* class_named(std::string_view name) {
    const recipe::ThicknessName* found = recipe::thickness_named(name);
    return found == nullptr ? nullptr : &classes[static_cast<std::size_t>(found->number)];
}

std::string both_names(const ThicknessClass& thickness, std::string_view planned) {
    const std::string standard = std::string(thickness.name) + ", " + std::to_string(thickness.number);
    if (!planned.empty() && planned != thickness.name) {
        // "worsted" is a way of spinning too.
        const std::string weight = planned == "worsted" ? " weight" : "";
        return std::string(planned) + weight + " (" + standard + ")";
    }
    return thickness.trade.empty() ? standard : standard + " (" + std::string(thickness.trade) + ")";
}

}  // namespace battwright::yarn
